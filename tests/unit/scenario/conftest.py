"""A small declaration of an invented stove, and a scenario for it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from thermsim.errors import Problem, ScenarioError
from thermsim.parts.declare import Block, Field
from thermsim.scenario import Scenario, load_scenario, load_text

TRADE = "common practice, no source"

LAYER = Block("layer", "one layer of a wall", (
    Field("material", "name", "what it is made of", required=True),
    Field("thickness", "length", "how thick", required=True, low="0.1 mm", high="500 mm",
          why="a layer is felt in the wall, not a room"),
))  # fmt: skip
NAME = Field("name", "name", "how the pass is called", required=True)
CHIMNEY = Block("chimney", "an upright round pass", (
    NAME,
    Field("length", "length", "length along the axis", required=True, low="1 cm", high="10 m",
          why="longer ones are buildings"),
    Field("rise", "length", "how much higher its end is", default="0 m", source=TRADE),
    Field("wall", "list", "layers from inside out", block=LAYER, source=TRADE,
          default=[{"material": "mild steel", "thickness": "2 mm"}]),
))  # fmt: skip
ROUND = Block("round the drum", "a pass round the drum", (
    NAME,
    Field("gap", "length", "between drum and casing", required=True, low="2 mm", high="200 mm",
          why="soot closes less"),
    Field("fit", "choice", "how tight", choices=("sealed", "rope", "none"), default="rope",
          source=TRADE),
    Field("leak", "area_per_length", "leak for each metre of edge", source=TRADE,
          default_by=("fit", {"rope": ("3 mm2/m", "+- 50 %", "felt by hand"),
                              "none": ("1000 mm2/m", "+- 30 %", "measured by eye")})),
))  # fmt: skip
DRUM = Block("drum", "the water drum", (
    Field("diameter", "length", "measure across the drum", required=True, low="100 mm",
          high="2 m", why="it must go through a door"),
    Field("moisture", "share", "water in the wood", default="15 %", spread="+- 5 %", low="0 %",
          high="60 %", why="more would drip", source="wood stored for two summers"),
    Field("plate", "length", "plate thickness", default="4 mm", source=TRADE),
    Field("dry", "flag", "without water", default=False, source=TRADE),
    Field("baffles", "count", "how many baffles", default="3", source=TRADE),
    Field("scale", "length", "scale on the inside"),
    Field("relief", "pressure_gauge", "pressure at which it blows off"),
))  # fmt: skip
DAY = Block("day", "the weather", (
    Field("air", "temperature", "outside air", default="12 C", spread="+- 3 K", source=TRADE),
    Field("pressure", "pressure", "by the barometer", default="1013 hPa", source=TRADE),
))  # fmt: skip
ACT = Block("act", "something done", (
    Field("at", "time", "when, from lighting"),
    Field("when", "rule_when", "what must be so"),
    Field("do", "action", "what is done", required=True),
    Field("again", "flag", "each time", default=False, source=TRADE),
))  # fmt: skip
MATERIAL = Block("material", "a material of your own", (
    Field("density", "density", "mass for each volume", required=True),
))  # fmt: skip
FLAP = Block("flap", "a draught flap", (
    Field("width", "length", "how wide", default="80 mm", source=TRADE),
))  # fmt: skip

DECLARATION = Block("scenario", "an invented stove", (
    Field("title", "text", "what this is", default="untitled", source=TRADE),
    Field("day", "block", DAY.says, block=DAY),
    Field("drum", "block", DRUM.says, required=True, block=DRUM),
    Field("flap", "block", FLAP.says, block=FLAP, absent="none"),
    Field("gas_path", "list", "passes in order", required=True,
          variants=("pass", {"chimney": CHIMNEY, "round the drum": ROUND})),
    Field("firing", "list", "what is done", block=ACT),
    Field("materials", "blocks", "materials of your own", block=MATERIAL),
))  # fmt: skip

TEXT = """\
thermsim: 1
drum:
  diameter: 300 mm
  moisture: unknown
gas_path:
  - name: bay
    pass: round the drum
    gap: about 30 mm
  - name: top
    pass: chimney
    length: 1.8 m +- 10 mm
    wall:
      - material: mild steel
        thickness: 2 mm
      - material: blanket
        thickness: 1 in
firing:
  - at: 12 min
    do: shut ash_door
  - when: flue above 120 C
    do: [add 0.3 kg, open ash_door]
    again: yes
materials:
  clay:
    density: 1.9 g/cm3
"""

Load = Callable[..., Scenario]
Fail = Callable[..., list[str]]


@pytest.fixture
def declaration() -> Block:
    return DECLARATION


@pytest.fixture
def stove_text() -> str:
    return TEXT


@pytest.fixture
def load() -> Load:
    """Loads a text (the invented stove's if none is given) with changes."""

    def loader(text: str = TEXT, *changes: str) -> Scenario:
        return load_text(text, changes, name="stove.yaml", declaration=DECLARATION)

    return loader


@pytest.fixture
def fail(load: Load) -> Fail:
    """Loads what must fail and gives the lines that a person reads."""

    def failing(text: str = TEXT, *changes: str) -> list[str]:
        with pytest.raises(ScenarioError) as caught:
            load(text, *changes)
        problems: list[Problem] = caught.value.problems
        assert str(caught.value) == "\n".join(str(problem) for problem in problems)
        return [str(problem) for problem in problems]

    return failing


@pytest.fixture
def load_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Load:
    """Writes files given by name and loads the first."""
    monkeypatch.chdir(tmp_path)

    def loader(files: dict[str, str], *changes: str) -> Scenario:
        for name, text in files.items():
            (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / name).write_text(text, encoding="utf-8")
        return load_scenario(next(iter(files)), changes, declaration=DECLARATION)

    return loader
