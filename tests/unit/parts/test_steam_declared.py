"""The steam plant's words: they load, refuse what cannot be, and say where defaults come from."""

from __future__ import annotations

from collections.abc import Iterator

import fluids
import pytest

from thermsim.errors import ScenarioError
from thermsim.parts.declare import Block, Field
from thermsim.parts.steam_declared import (
    FEED,
    OUTLETS,
    STEAM_LINE,
    STOP_VALVE,
    TUBES,
)
from thermsim.physics.material_data import MATERIALS
from thermsim.scenario import load_text
from thermsim.scenario.schema import make_schema
from thermsim.units import is_quantity, parse_quantity

ROOT = Block("steam plant", "a drum's outlets, feed, tubes and line", (
    Field("drum", "block", "the drum", block=Block("drum", "the drum", OUTLETS)),
    FEED, TUBES,
    Field("steam_line", "block", STEAM_LINE.says, block=STEAM_LINE, absent="none"),
))
PLANT = """thermsim: 1
drum:
  vent_open: 0
  stop_valve: {bore: 1/2 in}
  safety_valve:
    set: 5 bar(g)
    bore: 10 mm
    lift: high
  vacuum_valve: {bore: 8 mm}
feed:
  pump: {kind: hand pump, bore: 20 mm, stroke: 60 mm}
  tank: {kind: float tank, height: 1.5 m, mark: 180 mm}
  tap: {kind: mains, pressure: 3 bar(g), flow_open: 12 l/min, temperature: 12 C}
  driven: {kind: engine pump, bore: 8 mm, stroke: 25 mm}
tubes:
  - {name: drier, in: behind the drum, duty: drier, shape: looped, bore: 10 mm, length: 3 m,
     bends: 5}
  - {name: crown, in: firebox crown, duty: superheater, shape: helical, bore: 8 mm, length: 2 m,
     coil_diameter: 150 mm, material: stainless steel 304}
  - {name: economy, in: flue, duty: feed coil, shape: straight, bore: 10 mm, length: 1 m,
     lies: along}
steam_line: {bore: 1/2 in, length: 4 m, lagging: 25 mm}
"""


def test_a_plant_loads_in_si() -> None:
    tree = load_text(PLANT, declaration=ROOT).tree
    valve = tree.drum.safety_valve
    assert valve.set == 5e5
    assert (valve.discharge, valve.can_be_shut_off, valve.area) == (0.7, False, None)
    assert tree.drum.stop_valve.discharge == 0.31
    assert tree.drum.vacuum_valve.opens_at == 2000.0
    assert tree.feed.pump.strokes == pytest.approx(0.5)
    assert tree.feed.tap.flow_open == pytest.approx(12e-3 / 60)
    assert [getattr(tube, "in") for tube in tree.tubes] == [
        "behind the drum", "firebox crown", "flue"]
    assert tree.tubes[1].coil_diameter == 0.15
    assert tree.steam_line.lagging == 0.025
    assert tree.steam_line.lagging_material in MATERIALS


def test_nothing_written_is_the_open_drum() -> None:
    tree = load_text("thermsim: 1\n", declaration=ROOT).tree
    drum = tree.drum
    assert drum.vent_open == 1.0
    assert drum.stop_valve is None
    assert drum.safety_valve is None
    assert not tree.feed
    assert tree.tubes == []
    assert tree.steam_line is None


@pytest.mark.parametrize(("before", "after", "said"), [
    ("set: 5 bar(g)", "set: 5 bar", "above the day's pressure"),
    ("set: 5 bar(g)", "set: 50 bar(g)", "20 bar(g)"),
    ("set: 5 bar(g)", "blow_down: 5 %", "write it"),
    ("coil_diameter: 150 mm", "bends: 3", "unknown key"),
    ("kind: hand pump", "kind: injector", "not a choice"),
    ("shape: straight", "shape: spiral", "not a choice"),
    ("duty: drier", "duty: dryer", "did you mean 'drier'"),
])
def test_mistakes_are_told(before: str, after: str, said: str) -> None:
    assert before in PLANT
    with pytest.raises(ScenarioError) as error:
        load_text(PLANT.replace(before, after, 1), declaration=ROOT)
    assert said in str(error.value)


def blocks_of(block: Block) -> Iterator[tuple[str, Field]]:
    for spec in block.fields:
        yield block.name, spec
        inner = list(spec.variants[1].values()) if spec.variants else []
        for one in [*inner, *([spec.block] if spec.block else [])]:
            yield from blocks_of(one)


FIELDS = list(blocks_of(ROOT))


@pytest.mark.parametrize(("block", "spec"), FIELDS, ids=lambda x: getattr(x, "name", x))
def test_every_field_is_told(block: str, spec: Field) -> None:
    """Unit, bounds with a reason, and where a default comes from."""
    assert spec.says
    if spec.low or spec.high:
        assert spec.why, (block, spec.name)
    if is_quantity(spec.kind):
        assert spec.low is not None
        low = parse_quantity(spec.low, spec.kind).value
        assert spec.high is None or low < parse_quantity(spec.high, spec.kind).value
    if spec.default is not None:
        assert spec.source, (block, spec.name)
    for _, spread, source in (spec.default_by[1].values() if spec.default_by else ()):
        assert spread.startswith("+-")
        assert source


def test_schema_can_be_made() -> None:
    assert "safety_valve" in str(make_schema(ROOT))


@pytest.mark.parametrize(("shape", "loss"), [
    ("globe", lambda D: fluids.K_globe_valve_Crane(D, D)),
    ("gate", lambda D: fluids.K_gate_valve_Crane(D, D, 0.0)),
    ("ball", lambda D: fluids.K_ball_valve_Crane(D, D, 0.0)),
])
def test_discharge_of_stop_valves_by_crane(shape: str, loss: object) -> None:
    """1/(1.5 + K)^(1/2) by the library's Crane TP 410, 10 to 25 mm."""
    by = next(f.default_by for f in STOP_VALVE.fields if f.name == "discharge")
    assert by is not None
    value = float(by[1][shape][0])
    for D in (0.010, 0.015, 0.025):
        assert value == pytest.approx((1.5 + loss(D)) ** -0.5, abs=0.03)  # type: ignore[operator]
