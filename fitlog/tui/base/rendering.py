"""What Textual keeps of screens that are gone."""

from contextlib import suppress


def forget_rendering() -> None:
    """Let go of the rendered lines of closed screens.

    Textual 8 memoizes a method of each widget's cache of rendered lines (``StylesCache.get_inner_outer``, the last
    1,024 calls), and with its arguments it keeps these caches: 0.3 MB a visit at 80 by 24, up to 25 MB in all, more
    on larger terminals. Forgetting it costs some colours that are computed anew.
    """
    with suppress(ImportError, AttributeError):  # another release may have none to clear
        from textual._styles_cache import StylesCache

        StylesCache.get_inner_outer.cache_clear()
