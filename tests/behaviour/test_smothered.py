"""Cold starts that smother or never draw: their outcome is the plant's, not the tolerance's.

Each keeps its outcome, its smoke and its last flows at hundred-fold tighter tolerance. Its last
flows are steady as far as a fire can be: its sticks burn down and its walls warm or cool, so the
flow drifts by up to a few per cent a minute; but it drifts in a straight line, to one per cent,
and does not hunt between two branches, as it would if it stood on the edge of turning.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

Fired = Callable[..., Any]
TIGHTER = 100.0
FAILED = ("smothered", "never_drew")
LAST = 60.0
DRIFT, HUNTING, SAME = 0.05, 0.01, 0.01
"""of an opening's own flow in the last minute: change, departure from a straight line, difference
at tighter tolerance"""
STILL = 0.01
"""a flow [g/s] that counts as none: a hundredth of what the leak of the ash door passes"""
VARIANTS = {
    "shut with the flue at 30 C": ("firing.3.when = flue above 30 C",),
    "never caught: hardly any kindling": ("fire.kindling = 10 g",),
    "feed and door shut on a young fire": (
        "openings.feed.fit = sealed", "openings.ash_door.fit = rope",
        "firing.3 = {at: 5 min, do: [shut ash_door, shut feed]}"),
    "shut after 20 s": ("firing.3 = {at: 20 s, do: shut ash_door}",),
    "shut after 60 s": ("firing.3 = {at: 60 s, do: shut ash_door}",),
    "gap of 8 mm": ("drum.gap = 8 mm",),
    "gap of 10 mm": ("drum.gap = 10 mm",),
    "baffles every 35 mm": ("drum.baffle_spacing = 35 mm",),
    "chimney of 0.6 m": ("gas_path.chimney_lower.length = 0.3 m",
                         "gas_path.chimney_upper.length = 0.3 m"),
    "feed of 220 mm": ("openings.feed.width = 220 mm", "openings.feed.height = 220 mm"),
    "thick wet wood": ("wood.thickness = 80 mm", "wood.moisture = 45 %"),
    "wind down the chimney": ("day.wind = 6 m/s", "day.wind_at_top = 1"),
}
ALWAYS = 3
"""of these are run every time, the others when slow tests are asked for"""


def last_flows(firing: Any) -> dict[str, np.ndarray]:
    """Flow of every opening in the last minute [g/s]."""
    end = firing.series["time_s"].iloc[-1]
    return {name: firing.between(f"flow_{name}_g_per_s", end - LAST, end)
            for name in firing.result.scenario.tree.openings}


def assert_steady(firing: Any) -> None:
    """Drifts little, and in a straight line."""
    for name, flow in last_flows(firing).items():
        largest = np.abs(flow).max()
        assert np.ptp(flow) < max(DRIFT * largest, STILL), (name, flow)
        line = np.polyval(np.polyfit(np.arange(len(flow)), flow, 1), np.arange(len(flow)))
        assert np.abs(flow - line).max() < max(HUNTING * largest, STILL), (name, flow)


@pytest.mark.parametrize("name", [
    pytest.param(name, marks=[pytest.mark.slow] if number >= ALWAYS else [])
    for number, name in enumerate(VARIANTS)])
def test_outcome_and_last_flow_do_not_depend_on_the_tolerance(fired: Fired, name: str) -> None:
    usual = fired("cold_start", *VARIANTS[name])
    tight = fired("cold_start", *VARIANTS[name], tighten=TIGHTER)
    assert usual.answers["outcome"] in FAILED
    assert tight.answers["outcome"] == usual.answers["outcome"]
    assert tight.answers["smoke_from_openings_g"] == pytest.approx(
        usual.answers["smoke_from_openings_g"], rel=SAME)
    assert_steady(usual)
    ends = last_flows(tight)
    for opening, flow in last_flows(usual).items():
        assert flow[-1] == pytest.approx(ends[opening][-1], rel=SAME, abs=STILL), opening


def test_there_are_ten_of_them() -> None:
    assert len(VARIANTS) >= 10
