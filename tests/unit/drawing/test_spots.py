"""Spots in the drawing are places of the results: the same words, held against the assembly."""

from __future__ import annotations

from pathlib import Path

import pytest

from thermsim.drawing.plant import plant_outline
from thermsim.network.assemble import assemble
from thermsim.scenario.load import load_scenario

SHIPPED = Path(__file__).parents[3] / "scenarios" / "cold_start.yaml"


TUBES = """\
starts_from: {base}
tubes:
- {{name: drier, in: behind the drum, duty: drier, shape: helical, coil_diameter: 180 mm,
   bore: 12 mm, length: 2 m}}
- {{name: hot_tube, in: chimney_lower, duty: superheater, shape: looped, bends: 7, bore: 12 mm,
   length: 1 m, runs: against the gas}}
- {{name: short, in: firebox crown, duty: superheater, shape: straight, bore: 12 mm,
   length: 200 mm, cells: 1}}
"""


@pytest.mark.parametrize("changes", [(), ("drum.lies = no",)], ids=["lying", "standing"])
def test_every_spot_is_a_place_of_the_results(changes: tuple[str, ...]) -> None:
    marked, places = marked_and_known(SHIPPED, changes)
    assert marked <= places


def test_spots_of_tubes(tmp_path: Path) -> None:
    file = tmp_path / "tubes.yaml"
    file.write_text(TUBES.format(base=SHIPPED.with_name("raise_steam.yaml")))
    marked, places = marked_and_known(file, ())
    assert marked <= places
    assert {"drier 1 wall", "drier 3 wall", "hot tube 1 wall", "short 1 wall"} <= marked


def marked_and_known(file: Path, changes: tuple[str, ...]) -> tuple[set[str], set[str]]:
    """Spots marked in the drawing, and places of the results."""
    scenario = load_scenario(file, changes)
    draft = assemble(scenario).draft
    names = {*draft.index.names, *(spot.name for spot in draft.spots), "water"}
    places = {name.replace("_", " ") for name in names}
    return {label.text for label in plant_outline(scenario.tree).labels if label.spot}, places
