"""A drum off the middle of its casing: where the gas goes, what that holds back, what it boils."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

Fired = Callable[..., Any]
WORKING = 30.0 * 60.0
"""a moment with the fire at its given power, the draught there, the water not yet boiling [s]"""
BY = ("drum.raised = 12 mm", "drum.raised = -12 mm")


def over_at_work(run: Any) -> np.ndarray:
    """Share of the gas that goes over the drum, by cell, at a moment of a finished run."""
    from thermsim.network.balance import evaluate

    assembly, plant = run.assembly, run.assembly.plant
    y = run.solution.trajectory(WORKING)
    dy, watts = np.zeros_like(y), np.zeros(assembly.watts_count)
    gauges = np.zeros(assembly.draft.gauge_count)
    evaluate(np.array([WORKING]), y[None], plant, dy[None], watts[None], gauges[None],
             np.zeros((0, 0)))
    firsts = [int(cell["way_first"]) for cell in plant.cells if cell["way_last"]]
    return np.array([float(plant.ways["share"][first]) for first in firsts])


@pytest.mark.parametrize("more", [(), ("drum.baffle_spacing = 450 mm",)])
def test_raised_drum_sends_more_gas_under(solved: Fired, more: tuple[str, ...]) -> None:
    """12 mm up in a gap of 25 mm leaves 13 mm over it and 37 mm under it."""
    raised, lowered = (over_at_work(solved("given_fire", by, *more)) for by in BY)
    assert (raised < 0.45).all(), raised
    assert (lowered > 0.55).all(), lowered


def test_across_the_drum_a_narrow_place_holds_back(fired: Fired) -> None:
    """With baffles each way runs through all its gaps one behind another: off the middle, either
    way, the gas has it harder, less air comes, and the flue carries off less heat."""
    middle = fired("given_fire").answers
    for by in (*BY, "drum.aside = 12 mm"):
        found = fired("given_fire", by).answers
        assert found["air_ratio_mean"] < 0.97 * middle["air_ratio_mean"], by
        assert found["flue_loss_share"] < middle["flue_loss_share"], by
        assert found["time_to_boil_s"] > middle["time_to_boil_s"], by


def test_towards_the_windows_costs_more_than_square_to_them(fired: Fired) -> None:
    """Both ways narrow in series, against one wide and one narrow side by side."""
    aside = fired("given_fire", "drum.aside = 12 mm").answers
    raised = fired("given_fire", "drum.raised = 12 mm").answers
    assert aside["air_ratio_mean"] < raised["air_ratio_mean"]
    turned = fired("given_fire", "drum.aside = 12 mm", "drum.crossing = both sides").answers
    assert turned["air_ratio_mean"] == pytest.approx(raised["air_ratio_mean"], rel=0.02)


def test_narrow_gap_belongs_where_the_drum_is_wet(fired: Fired) -> None:
    """The film of a narrow gap is the better (h = Nu k/2g): under a part-filled drum it meets
    water, over it the dry crown, from which heat must go down the plate. So a lowered drum boils
    sooner than one raised as far; with 4 l more so than with 10 l."""
    gained = {}
    for litres in (4, 10):
        raised, lowered = (fired("given_fire", by, f"drum.water = {litres} l").answers
                           for by in BY)
        gained[litres] = raised["time_to_boil_s"] / lowered["time_to_boil_s"] - 1.0
    assert gained[4] > gained[10] > 0.0, gained
