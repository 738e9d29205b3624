"""The rows of the heat account that every plant has; outside surfaces follow, a row each [W].

What leaves the drum has a row by the kind of its outlet, in the order of `outlets.py`.
"""

from __future__ import annotations

(
    VOLATILES_FIRE,
    VOLATILES_FIREBOX,
    CHAR,
    DRYING,
    TIMED_HEAT,
    AIR_IN,
    FLUE_OUT,
    SMOKE_OUT,
    WALL_TO_WATER,
    WALL_TO_STEAM,
    VENT_OUT,
    LINE_OUT,
    SAFETY_OUT,
    VACUUM_OUT,
    WORK_OUT,
    FEED_IN,
    FIRST_SURFACE,
) = range(17)
OUTLET_ROWS = (VENT_OUT, LINE_OUT, SAFETY_OUT, VACUUM_OUT)
