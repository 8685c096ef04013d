"""The wind-tunnel table of Bearman & Harvey 1976.

It gives drag and lift by speed and backspin.

Rows are 200 rpm apart from 2000 to 6000 rpm, columns are the speeds of SPEEDS_MPS. Between the points C_D and
C_L are interpolated linearly in speed and in spin.
"""

from __future__ import annotations

SOURCE = (
    "P. W. Bearman & J. K. Harvey, Golf Ball Aerodynamics, Aeronautical Quarterly 27 (1976) 112-122, figures 7 "
    "and 8, hexagonal dimples, as read off in the course files of NTNU TKT4140"
)
REACH = (
    "13.7 to 88.1 m/s (31 to 197 mph) and 2000 to 6000 rpm, a ball of about 41 mm of the 1970s; outside, the nearest "
    "edge of the table is used: more than 6000 rpm changes nothing but how long the spin stays above 6000, and below "
    "2000 rpm lift fades to nothing as the 0.4th power of the spin. Looked up by speed and spin, not by Reynolds "
    "number"
)

SPEEDS_MPS = (13.7, 21.6, 29.9, 38.4, 46.9, 55.2, 63.1, 71.9, 80.2, 88.1)
FIRST_RPM, STEP_RPM, LAST_RPM = 2000, 200, 6000
# a ball without spin has no lift: below the table C_L follows the 0.4th power of spin, as Smits & Smith 1994 found
FADE_POWER = 0.4

# ten-thousandths
# fmt: off
_CD = (
    (3624, 2885, 2765, 2529, 2472, 2481, 2467, 2470, 2470, 2470),
    (3806, 3102, 2853, 2590, 2507, 2498, 2485, 2486, 2484, 2484),
    (3954, 3288, 2937, 2649, 2543, 2516, 2504, 2502, 2497, 2497),
    (4070, 3443, 3018, 2708, 2580, 2535, 2522, 2518, 2511, 2511),
    (4153, 3566, 3095, 2765, 2617, 2556, 2541, 2534, 2524, 2524),
    (4203, 3658, 3169, 2822, 2655, 2578, 2560, 2550, 2538, 2538),
    (4120, 3719, 3240, 2876, 2693, 2602, 2579, 2566, 2551, 2551),
    (3960, 3749, 3308, 2930, 2732, 2627, 2599, 2582, 2565, 2565),
    (3876, 3766, 3372, 2983, 2772, 2653, 2619, 2598, 2578, 2578),
    (4100, 3854, 3433, 3034, 2811, 2681, 2639, 2614, 2592, 2592),
    (4288, 4003, 3490, 3084, 2852, 2710, 2659, 2630, 2605, 2605),
    (4445, 4082, 3544, 3133, 2893, 2741, 2680, 2646, 2619, 2619),
    (4575, 4153, 3595, 3180, 2934, 2772, 2701, 2662, 2632, 2632),
    (4682, 4215, 3643, 3227, 2976, 2806, 2722, 2678, 2646, 2646),
    (4772, 4269, 3687, 3272, 3019, 2840, 2743, 2694, 2659, 2659),
    (4848, 4314, 3728, 3316, 3062, 2876, 2765, 2710, 2673, 2673),
    (4914, 4350, 3765, 3358, 3105, 2913, 2787, 2726, 2686, 2686),
    (4976, 4377, 3799, 3400, 3149, 2952, 2809, 2742, 2700, 2700),
    (5039, 4395, 3830, 3440, 3194, 2992, 2831, 2758, 2713, 2713),
    (5105, 4405, 3858, 3479, 3239, 3034, 2854, 2774, 2727, 2727),
    (5180, 4406, 3882, 3517, 3285, 3076, 2877, 2790, 2740, 2740),
)
_CL = (
    (1040, 1846, 2460, 1984, 1762, 1538, 1418, 1360, 1280, 1276),
    (1936, 2318, 2590, 2089, 1824, 1603, 1476, 1405, 1321, 1324),
    (2608, 2694, 2715, 2191, 1886, 1668, 1533, 1450, 1362, 1367),
    (3090, 2986, 2835, 2289, 1949, 1731, 1589, 1494, 1403, 1404),
    (3418, 3205, 2947, 2384, 2011, 1794, 1646, 1539, 1444, 1436),
    (3624, 3362, 3049, 2475, 2073, 1856, 1702, 1584, 1485, 1464),
    (3743, 3470, 3140, 2562, 2135, 1916, 1757, 1629, 1526, 1488),
    (3808, 3541, 3217, 2644, 2197, 1976, 1813, 1673, 1567, 1508),
    (3854, 3584, 3280, 2722, 2259, 2035, 1868, 1718, 1608, 1524),
    (3915, 3614, 3325, 2795, 2322, 2092, 1923, 1763, 1649, 1539),
    (4005, 3640, 3347, 2862, 2384, 2149, 1977, 1807, 1690, 1582),
    (4010, 3696, 3380, 2925, 2446, 2205, 2032, 1852, 1731, 1624),
    (4026, 3748, 3412, 2982, 2508, 2259, 2086, 1897, 1772, 1666),
    (4050, 3797, 3440, 3033, 2570, 2313, 2139, 1941, 1813, 1707),
    (4084, 3845, 3468, 3078, 2632, 2366, 2193, 1986, 1854, 1749),
    (4130, 3894, 3496, 3119, 2695, 2418, 2246, 2031, 1895, 1791),
    (4192, 3947, 3527, 3149, 2757, 2469, 2298, 2076, 1936, 1833),
    (4271, 4004, 3563, 3184, 2819, 2518, 2351, 2120, 1977, 1875),
    (4371, 4069, 3607, 3233, 2881, 2567, 2403, 2165, 2018, 1916),
    (4494, 4143, 3660, 3300, 2943, 2615, 2455, 2210, 2059, 1958),
    (4644, 4227, 3724, 3393, 3005, 2662, 2507, 2254, 2100, 2000),
)
# fmt: on
DRAG = tuple(tuple(cell / 1e4 for cell in row) for row in _CD)
LIFT = tuple(tuple(cell / 1e4 for cell in row) for row in _CL)


def lookup(speed: float, spin_rpm: float) -> tuple[float, float]:
    """C_D and C_L at ``speed`` m/s and ``spin_rpm``, bilinear in the table.

    Outside the table the nearest edge holds; below 2000 rpm C_L is that of 2000 rpm times (spin/2000)^0.4.
    Dimensionless; raises nothing for finite arguments of at least 0.
    Source: SOURCE.

    >>> lookup(71.9, 3000.0), lookup(300.0, 9000.0)
    ((0.255, 0.1584), (0.274, 0.2))
    """
    column, speed_share = _bracket_speed(speed)
    row, spin_share = _bracket_spin(spin_rpm)
    fade: float = (spin_rpm / FIRST_RPM) ** FADE_POWER if spin_rpm < FIRST_RPM else 1.0
    # weights of the four corners
    d = speed_share * spin_share
    c = spin_share - d
    b = speed_share - d
    a = 1.0 - speed_share - c
    low, high = DRAG[row], DRAG[row + 1]
    drag = a * low[column] + b * low[column + 1] + c * high[column] + d * high[column + 1]
    low, high = LIFT[row], LIFT[row + 1]
    lift = a * low[column] + b * low[column + 1] + c * high[column] + d * high[column + 1]
    return drag, lift * fade


def _bracket_speed(speed: float) -> tuple[int, float]:
    if speed <= SPEEDS_MPS[0]:
        return 0, 0.0
    if speed >= SPEEDS_MPS[-1]:
        return len(SPEEDS_MPS) - 2, 1.0
    column = 0
    while speed >= SPEEDS_MPS[column + 1]:
        column += 1
    return column, (speed - SPEEDS_MPS[column]) / (SPEEDS_MPS[column + 1] - SPEEDS_MPS[column])


def _bracket_spin(spin_rpm: float) -> tuple[int, float]:
    if spin_rpm <= FIRST_RPM:
        return 0, 0.0
    if spin_rpm >= LAST_RPM:
        return len(DRAG) - 2, 1.0
    place = (spin_rpm - FIRST_RPM) / STEP_RPM
    row = int(place)
    return row, place - row
