"""A scenario file read and checked as a plant.

Apart from `simulation`, which loads large libraries, so that a mistake in a file is told at once.
"""

from __future__ import annotations

import os
from collections.abc import Sequence

from thermsim.network.checks import CHECKS
from thermsim.scenario.load import load_scenario as load_file
from thermsim.scenario.loaded import Scenario


def load_scenario(path: str | os.PathLike[str], changes: Sequence[str] = ()) -> Scenario:
    """Load a scenario with changes put over it; raises ScenarioError with every problem found."""
    return load_file(path, changes, checks=CHECKS)
