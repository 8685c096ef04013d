"""Quantiles and tails of Student's t, chi-square and F.

``scipy.special`` holds the same functions as ``scipy.stats`` and loads in about a third of the time; it is
loaded at the first call. The quantiles are kept, since a live screen asks for the same few again and again.
"""

from __future__ import annotations

import math
from functools import lru_cache

CONFIDENCE = 0.95


@lru_cache(maxsize=4096)
def t_quantile(share: float, df: float) -> float:
    """The value that a share of Student's t with ``df`` degrees lies below.

    >>> round(t_quantile(0.975, 7), 4)
    2.3646
    """
    from scipy.special import stdtrit

    return float(stdtrit(df, share))


def t_tail(t: float, df: float) -> float:
    """P(T > t) of Student's t.

    >>> round(2 * t_tail(2.3646, 7), 3)
    0.05
    """
    from scipy.special import stdtr

    return float(stdtr(df, -t))


@lru_cache(maxsize=4096)
def chi2_quantile(share: float, df: float) -> float:
    """The value that a share of chi-square with ``df`` degrees of freedom lies below.

    >>> round(chi2_quantile(0.95, 2), 6)
    5.991465
    """
    from scipy.special import gammaincinv

    return 2 * float(gammaincinv(df / 2, share))


def chi2_tail(x: float, df: float) -> float:
    """P(X > x) of chi-square.

    >>> round(chi2_tail(5.991465, 2), 4)
    0.05
    """
    from scipy.special import chdtrc

    return float(chdtrc(df, x))


def f_tail(f: float, df1: float, df2: float) -> float:
    """P(F > f) of the F distribution.

    >>> round(f_tail(4.1028, 2, 10), 3)
    0.05
    """
    from scipy.special import fdtrc

    return float(fdtrc(df1, df2, f))


def f2_quantile(share: float, df: float) -> float:
    """The value that a share of F with 2 and ``df`` degrees of freedom lies below.

    With two degrees above the line the tail is (1 + 2f/df)^(−df/2), so it inverts in closed form.

    >>> round(f2_quantile(0.95, 10), 4)
    4.1028
    """
    return df / 2 * math.expm1(-2 / df * math.log1p(-share))
