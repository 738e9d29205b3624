"""Checks of a scenario as a whole: geometry that cannot be, rules on what is not there.

They run each time a file is read, so they load nothing heavy: no compiler, no physics. A check
gets a scenario whose every field has been found good by itself, and yields problems at the field
at fault. What may be built but will hardly work is a warning of `derived`, not a problem.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from thermsim.errors import Problem
from thermsim.network.checks_drum import check_bays, check_drum, check_place, check_water
from thermsim.network.checks_fire import check_fire, check_outputs, check_sticks
from thermsim.network.checks_firing import check_firing
from thermsim.network.checks_openings import check_openings
from thermsim.network.checks_path import check_names, check_path, check_rises
from thermsim.network.checks_steam import check_steam
from thermsim.network.checks_tubes import check_tubes
from thermsim.network.checks_walls import check_walls

Check = Callable[[Any], Iterable[Problem]]
CHECKS: tuple[Check, ...] = (
    check_names, check_path, check_rises, check_openings, check_drum, check_place, check_water,
    check_bays, check_walls, check_sticks, check_fire, check_steam, check_tubes, check_firing,
    check_outputs,
)
