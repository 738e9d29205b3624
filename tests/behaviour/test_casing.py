"""The casing: blanket against the boil and the steam; its top against its bottom."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

Fired = Callable[..., Any]
BLANKETS = (0, 5, 10, 25, 50)
"""[mm]"""


def test_blanket_shortens_the_boil_and_raises_the_steam_less_for_each_millimetre(
        steadily: Fired) -> None:
    """The same 9 kW and the same door for all; steam is what boils off in the last ten minutes."""
    firings = [steadily("9 kW", f"drum.casing.2.thickness = {blanket} mm", door="10 min",
                        until="50 min") for blanket in BLANKETS]
    boil = [f.answers["time_to_boil_s"] for f in firings]
    steam = [f.between("steam_kg_per_h", 2400.0, 3000.0).mean() for f in firings]
    quicker = list(-np.diff(boil) / np.diff(BLANKETS))
    more = list(np.diff(steam) / np.diff(BLANKETS))
    assert quicker == sorted(quicker, reverse=True), boil
    assert more == sorted(more, reverse=True), steam
    assert boil[-1] < boil[0] - 60.0
    assert steam[-1] > 1.05 * steam[0]


def lead(firing: Any, cell: int, moment: float) -> float:
    """How far the casing's top is hotter than its bottom, over what the gas there is over air."""
    top, bottom = (firing.at(f"temperature_drum_pass_{cell}_{side}_inside_C", moment)
                   for side in ("top", "bottom"))
    air = firing.result.scenario.tree.day.air - 273.15
    return (top - bottom) / (firing.at(f"temperature_drum_pass_{cell}_gas_C", moment) - air)


def test_top_of_the_casing_is_hotter_than_its_bottom_more_so_at_low_flow(steadily: Fired) -> None:
    """A dry drum, so that no water line adds to it, while the casing warms. Common practice."""
    strong, weak = (steadily(power, "drum.water = 0 l", until="20 min") for power in
                    ("8 kW", "2 kW"))
    assert strong.at("flow_chimney_g_per_s", 600.0) > weak.at("flow_chimney_g_per_s", 600.0)
    for cell in (1, 2, 3):
        assert 0.0 < lead(strong, cell, 600.0) < lead(weak, cell, 600.0)


def test_top_is_hotter_in_the_whole_firing(fired: Fired) -> None:
    answers = fired("cold_start").answers["peak_temperature_C"]
    assert answers["casing_top"] > answers["casing_sides"] > answers["casing_bottom"]
