"""A whole firing with a lying flat duct before and after the drum: tables, words, figures."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from thermsim.drawing.plant import plant_outline
from thermsim.plots.temperatures import places_shown
from thermsim.results.shares import losses_by_part
from thermsim.results.words import tell
from thermsim.scenario.load import load_text
from thermsim.simulation import simulate

SCENARIO = """
starts_from: given_fire.yaml
title: Given fire with two lying ducts, invented apple-press shed
gas_path:
  - name: smoke_duct
    kind: rectangular duct
    width: 200 mm
    height: 100 mm
    length: 300 mm
    wall:
      - material: mild steel
        thickness: 3 mm
  - name: drum_pass
    kind: round the drum
  - name: duct
    kind: rectangular duct
    width: 150 mm
    height: 100 mm
    length: 800 mm
    wall:
      - material: mild steel
        thickness: 3 mm
  - name: chimney
    kind: chimney
    diameter: 130 mm
    length: 4 m
"""
DUCTS = ("smoke_duct", "duct")
SIDES = ("top", "sides", "bottom")


@pytest.fixture(scope="module")
def result(scenarios: Path) -> Any:
    from thermsim.network.checks import CHECKS

    text = SCENARIO.replace("given_fire", str(scenarios / "given_fire"))
    return simulate(load_text(text, ("day.wind = 0 m/s",), checks=CHECKS))


def test_every_side_has_its_row(result: Any) -> None:
    """Ledger, series and spots name the sides; the account closes and nothing falls out."""
    rows = set(result.ledger["row"])
    labels = set(result.ledger["label"])
    for duct in DUCTS:
        assert {f"lost_{duct}_{side}" for side in SIDES} <= rows
        assert f"{duct.replace('_', ' ')} bottom, outside" in labels
        assert f"stored_{duct}" in rows
        for side in SIDES:
            assert f"temperature_{duct}_1_{side}_outside_C" in result.series
            assert f"heat_lost_{duct}_{side}_W" in result.series
            assert f"{duct}_{side}" in result.summary["outside_surface_peak_C"]
    assert result.summary["ledger_error"] < 1e-4


def test_tops_lose_most_and_stay_coolest(result: Any) -> None:
    """Still air: over an equal plate more heat leaves the top than the bottom, so it is cooler."""
    ledger = result.ledger.set_index("row")["energy_J"]
    peaks = result.summary["outside_surface_peak_C"]
    for duct in DUCTS:
        assert ledger[f"lost_{duct}_top"] > ledger[f"lost_{duct}_bottom"] > 0.0
        assert peaks[f"{duct}_top"] < peaks[f"{duct}_bottom"]


def test_words_name_the_duct_whole(result: Any) -> None:
    """'smoke_duct' is neither 'the smoke' nor what goes out with the smoke of the openings."""
    losses = losses_by_part(result.ledger)
    shares = result.ledger.set_index("row")["share_of_fuel"]
    assert losses["smoke_duct"] == pytest.approx(
        sum(shares[f"lost_smoke_duct_{side}"] for side in SIDES), rel=1e-6)
    assert losses["smoke"] == pytest.approx(shares["smoke"], rel=1e-6)
    told = " ".join(tell(result.summary, result.events, result.ledger, result.series))
    assert "through the outside of the smoke duct" in told


def test_the_figure_still_finds_the_drum_pass(result: Any) -> None:
    shown = {label: place for label, place, _ in places_shown(result.series)}
    assert shown["gas leaving drum pass"].startswith("drum_pass_")


def test_the_cut_through_marks_top_and_bottom(result: Any) -> None:
    """Marked where the walls are drawn, under the names that the tables have."""
    marks = {label.text: label.at for label in plant_outline(result.scenario.tree).labels
             if label.spot}
    for duct, across in (("smoke duct", 0.106), ("duct", 0.106)):
        top, bottom = marks[f"{duct} 1 top outside"], marks[f"{duct} 1 bottom outside"]
        assert top[1] - bottom[1] == pytest.approx(across)
        for side in ("top", "bottom"):
            name = f"temperature_{duct} 1 {side} outside_C".replace(" ", "_")
            assert name in result.series
