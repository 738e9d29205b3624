"""Where to stop: by what materials stand and what pressure rules say."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from thermsim.first_firing.stops import (
    drum_plate_stop,
    flue_stop,
    level_stop,
    pressure_stop,
    proofs,
)


def tree(material: str = "mild steel", plate: float = 4e-3) -> Any:
    valve = SimpleNamespace(set=1e6)
    return SimpleNamespace(drum=SimpleNamespace(material=material, plate=plate,
                                                safety_valve=valve))


def test_boiler_plate_is_stopped_where_it_creeps() -> None:
    """EN 10028-2 annex C begins at 380 C; scaling comes later."""
    stop = drum_plate_stop(tree(), 783.15)
    assert stop is not None
    assert stop.value == pytest.approx(380.0)
    assert "creeps" in stop.why


def test_what_gives_way_first_decides() -> None:
    """A limit under creep; stainless ends with its table at 500 C; the unknown has its limit."""
    for material, limit, wanted in (("mild steel", 573.15, 300.0),
                                    ("stainless steel 304", 1143.15, 500.0),
                                    ("something", 673.15, 400.0)):
        stop = drum_plate_stop(tree(material), limit)
        assert stop is not None
        assert stop.value == pytest.approx(wanted)
    assert drum_plate_stop(tree("something"), None) is None


def test_the_water_test_by_each_rule() -> None:
    """10 bar(g), P265GH at 200 C: S = min(410/2.4, 265/1.5) cold, 205/1.5 hot, by hand."""
    found = {one.rule.split(" ")[0]: one.pressure for one in proofs(tree(), 473.15)}
    cold, hot = 410.0 / 2.4, 205.0 / 1.5
    assert found["EN"] == pytest.approx(1e6 * max(1.43, 1.25 * cold / hot), rel=1e-6)
    by_rule = {one.rule: one.pressure for one in proofs(tree(), 473.15)}
    assert by_rule["ASME VIII-1 UG-99(b)"] == pytest.approx(1e6 * 1.3 * cold / hot, rel=1e-6)
    assert by_rule["ASME I PG-99 (boilers): 1.5 times"] == pytest.approx(1.5e6)


def test_unknown_metal_has_no_figure_by_strength() -> None:
    last = proofs(tree("weathering steel"), 473.15)[-1]
    assert last.pressure is None
    assert last.note


def test_pressure_and_level() -> None:
    assert pressure_stop(None).value == pytest.approx(0.1)
    assert pressure_stop(3e5).value == pytest.approx(3.3)
    assert level_stop().value == pytest.approx(30.0)


def test_the_flue_stops_at_the_weakest_of_its_walls() -> None:
    spots = [SimpleNamespace(part=part, limit=limit, material=what) for part, limit, what in (
        ("chimney", 783.15, "mild steel"), ("stub", 600.0, "own"), ("drum", 300.0, "tin"),
        ("chimney", None, ""))]
    stop = flue_stop(spots, {"chimney", "stub"})
    assert stop is not None
    assert stop.value == pytest.approx(326.85)
    assert flue_stop(spots, {"other"}) is None
