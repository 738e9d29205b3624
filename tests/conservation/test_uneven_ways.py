"""Heat of runs with a drum off the middle of its casing, over every kind of crossing."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

HEAT = 1e-3


@pytest.mark.parametrize("change", [
    "drum.raised = 12 mm", "drum.raised = -12 mm", "drum.raised = 9 mm; drum.aside = 12 mm",
    "drum.crossing = both sides; drum.aside = 15 mm",
    "drum.crossing = one way round; drum.aside = 8 mm",
    "drum.baffle_spacing = 450 mm; drum.raised = 15 mm; drum.aside = 8 mm",
    "drum.lies = no; drum.aside = 12 mm; gas_path.drum_pass.rise = 450 mm",
    "drum.lies = no; drum.aside = 12 mm; drum.baffle_spacing = 450 mm"])
def test_all_heat_is_accounted_for(fired: Callable[..., Any], change: str) -> None:
    """As every shipped scenario: 0.1 % of the heat released."""
    summary = fired("given_fire", *change.split("; ")).summary
    assert summary["solver"]["ended"] == "finished"
    assert 0.0 < summary["ledger_error"] <= HEAT
