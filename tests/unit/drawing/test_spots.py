"""Spots in the drawing are places of the results: the same words, held against the assembly."""

from __future__ import annotations

from pathlib import Path

import pytest

from thermsim.drawing.plant import plant_outline
from thermsim.network.assemble import assemble
from thermsim.scenario.load import load_scenario

SHIPPED = Path(__file__).parents[3] / "scenarios" / "cold_start.yaml"


@pytest.mark.parametrize("changes", [(), ("drum.lies = no",)], ids=["lying", "standing"])
def test_every_spot_is_a_place_of_the_results(changes: tuple[str, ...]) -> None:
    scenario = load_scenario(SHIPPED, changes)
    draft = assemble(scenario).draft
    names = {*draft.index.names, *(spot.name for spot in draft.spots), "water"}
    places = {name.replace("_", " ") for name in names}
    marked = {label.text for label in plant_outline(scenario.tree).labels if label.spot}
    assert marked <= places
