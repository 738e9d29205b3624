"""The engine's declaration loads from text, with units, bounds and doubts."""

from __future__ import annotations

import pytest

from thermsim.errors import ScenarioError
from thermsim.parts.declare import Block, Field
from thermsim.parts.engine_declared import ENGINE
from thermsim.scenario import Scenario, load_text
from thermsim.scenario.declared import declaration_faults

SHED = Block("scenario", "an engine alone", (
    Field("title", "text", "what this is", default="untitled", source="none unless written"),
    Field("engine", "block", ENGINE.says, block=ENGINE, absent="none"),
))  # fmt: skip
TEXT = """\
thermsim: 1
title: engine of an apple press (invented)
engine:
  bore: 2 in
  stroke: 50 mm
  speed: 300 rpm
  cut_off: 60 %
  exhaust: chimney
  nozzle: 4 mm
"""


def read(text: str = TEXT, *changes: str) -> Scenario:
    return load_text(text, changes, name="press.yaml", declaration=SHED)


def test_no_faults_of_its_own() -> None:
    assert declaration_faults(SHED) == []


def test_as_a_person_writes_it() -> None:
    engine = read().tree.engine
    assert engine.bore == pytest.approx(0.0508)
    assert engine.speed == pytest.approx(5.0)
    assert engine.cut_off == pytest.approx(0.6)
    assert engine.nozzle == pytest.approx(0.004)
    assert (engine.acting, engine.exhaust) == ("double", "chimney")
    assert engine.condensation is None
    assert engine.back_pressure == pytest.approx(10e3)


@pytest.mark.parametrize("written", ["300 rpm", "300 1/min", "5 1/s", "5 Hz", "300 per min"])
def test_spellings_of_speed(written: str) -> None:
    assert read(TEXT, f"engine.speed = {written}").tree.engine.speed == pytest.approx(5.0)


@pytest.mark.parametrize(("change", "words"), [
    ("engine.cut_off = 97 %", "95 %"), ("engine.exhaust = pond", "feed coil"),
    ("engine.speed = 5 m/s", "speed"), ("engine.bore = 3 m", "300 mm"),
    ("engine.valve_gear = link", "unknown key"),
])
def test_mistakes_are_told(change: str, words: str) -> None:
    with pytest.raises(ScenarioError, match=words):
        read(TEXT, change)


def test_no_engine() -> None:
    assert read("thermsim: 1").tree.engine is None
