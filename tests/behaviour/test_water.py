"""Water: warming and boiling, a fire without any, two litres into the hot drum."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

Fired = Callable[..., Any]


def test_water_rises_nearly_straight_then_stands_at_saturation(steadily: Fired) -> None:
    """9 kW: a straight line through 30-95 C misses no row by a tenth of the rise."""
    firing = steadily("9 kW", door="10 min", until="50 min")
    boil = firing.answers["time_to_boil_s"]
    rising = firing.series[firing.series["temperature_water_C"].between(30.0, 95.0)]
    line = np.polyfit(rising["time_s"], rising["temperature_water_C"], 1)
    misses = np.polyval(line, rising["time_s"]) - rising["temperature_water_C"]
    assert np.abs(misses).max() < 0.1 * (95.0 - 30.0)
    water = firing.between("temperature_water_C", 0.0, boil)
    assert (np.diff(water)[60:] > 0.0).all()
    standing = firing.between("temperature_water_C", boil + 60.0, 3000.0)
    assert np.ptp(standing) < 0.5
    assert firing.between("steam_kg_per_h", boil + 60.0, 3000.0).min() > 0.0


def test_saturation_is_that_of_the_pressure_in_the_drum(fired: Fired) -> None:
    """CoolProp's saturation temperature at the drum's pressure, once the air is purged."""
    from CoolProp.CoolProp import PropsSI

    firing = fired("cold_start")
    moment = firing.answers["time_to_boil_s"] + 300.0
    expected = PropsSI("T", "P", firing.at("drum_pressure_Pa", moment), "Q", 0, "Water") - 273.15
    assert abs(firing.at("temperature_water_C", moment) - expected) < 0.2


def test_without_water_it_draws_the_same_and_the_wall_gets_hot(fired: Fired) -> None:
    """Wall over saturation by 200 K with gas over 450 C at the drum; a caution follows."""
    from thermsim.results.cautions import DRY, fitting

    cold, dry = fired("cold_start"), fired("dry_test")
    for answer in ("draught_established_s", "smoke_from_openings_g"):
        assert abs(dry.answers[answer] / cold.answers[answer] - 1.0) < 0.1
    for moment in (120.0, 300.0, 900.0):
        there, here = (f.at("flow_chimney_g_per_s", moment) for f in (dry, cold))
        assert abs(there / here - 1.0) < 0.1
    walls = [peak for part, peak in dry.answers["peak_temperature_C"].items()
             if part.startswith("drum")]
    assert max(walls) > 100.0 + 200.0
    assert dry.series["temperature_drum_pass_1_gas_C"].max() > 450.0
    assert DRY in fitting(dry.answers)


def test_two_litres_into_the_hot_body_boil_in_minutes(fired: Fired) -> None:
    """Common practice, no source: 4-7 min. Held as a direction, within a factor of two of that."""
    cold, poured = fired("cold_start"), fired("water_after_dry")
    minutes = poured.answers["time_to_boil_s"] / 60.0
    assert 2.0 < minutes < 14.0
    assert minutes < 0.4 * cold.answers["time_to_boil_s"] / 60.0
