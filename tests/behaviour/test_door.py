"""The ash door: smoke while it is open, the turn when shut warm, the failure when too soon."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

Fired = Callable[..., Any]
TURNS_WITHIN = 20.0
LONG_ENOUGH = 30.0
TOO_COLD = "firing.3.when = flue above 30 C"


def at(seconds: int) -> str:
    """The change that shuts the ash door of cold_start.yaml at a moment."""
    return f"firing.3 = {{at: {seconds} s, do: shut ash_door}}"


def held(firing: Any) -> bool:
    """Whether the flow in the feed turned soon after the door was shut, and stayed so."""
    turned = firing.turned_in("feed")
    return (turned is not None and firing.door is not None
            and firing.door <= turned <= firing.door + TURNS_WITHIN
            and firing.answers["draught_established_s"] is not None)


def test_smoke_stands_out_of_the_feed_while_the_door_is_open(fired: Fired) -> None:
    """Column 0.35 m, chimney cold, fire over 1 kW: air from below, smoke out of the top."""
    cold = fired("cold_start")
    assert cold.result.scenario.tree.openings["feed"].column >= 0.3
    assert cold.longest_smoke("feed") > LONG_ENOUGH
    begin, end = 60.0, cold.door
    assert cold.between("firepower_W", begin, end).min() > 1e3
    assert cold.between("flow_ash_door_g_per_s", begin, end - 5).min() > 0.0
    assert cold.between("flow_feed_g_per_s", begin, end - 5).max() < 0.0


@pytest.mark.parametrize("power", ["2 kW", "6 kW"])
def test_smoke_shrinks_as_the_chimney_warms(steadily: Fired, power: str) -> None:
    """At constant given power with the door kept open."""
    firing = steadily(power)
    moments = [300.0, 600.0, 900.0, 1200.0, 1500.0, 1800.0]
    smoke = [firing.at("smoke_g_per_s", moment) for moment in moments]
    flue = [firing.at("temperature_flue_C", moment) for moment in moments]
    assert smoke == sorted(smoke, reverse=True)
    assert flue == sorted(flue)
    assert smoke[-1] < 0.9 * smoke[0]


def test_shut_once_warm_the_feed_turns_and_the_fire_burns_downwards(fired: Fired) -> None:
    cold = fired("cold_start")
    assert cold.door is not None
    assert held(cold)
    after = cold.door + TURNS_WITHIN
    end = cold.series["time_s"].iloc[-1]
    assert cold.between("flow_feed_g_per_s", after, end).min() > 0.0
    assert cold.between("smoke_g_per_s", after, end).max() < 1e-3
    column = cold.between("temperature_feed_column_C", after + 10, end)
    assert column.max() < cold.result.scenario.tree.day.air - 273.15 + 1.0


def test_shut_the_air_ratio_falls_and_a_fire_short_of_fuel_gets_hotter(steadily: Fired) -> None:
    """4 kW in much air: the door's excess air goes; the fire gets hotter at once, the flue later.

    Half the gas over the same plates gives off more of its heat on the way: the flue falls
    behind at first and is ahead once the plates before it have warmed, within five minutes.
    """
    kept, shut = steadily("4 kW"), steadily("4 kW", door="15 min")
    for moment in (960.0, 1200.0, 1500.0):
        assert shut.at("air_ratio", moment) < 0.8 * kept.at("air_ratio", moment)
        for place in ("fire_zone", "firebox_gas", "char_bed", *(["flue"] if moment > 1000 else [])):
            column = f"temperature_{place}_C"
            assert shut.at(column, moment) > kept.at(column, moment), (place, moment)


def test_shut_too_soon_it_does_not_hold(fired: Fired) -> None:
    """Flue at 30 C instead of 120 C: it burns back up the column or smothers, with smoke."""
    cold, soon = fired("cold_start"), fired("cold_start", TOO_COLD)
    assert not held(soon)
    assert soon.answers["outcome"] in ("never_drew", "smothered")
    assert soon.answers["draught_established_s"] is None
    assert (soon.answers["smoke_from_openings_g"] > 2.0 * cold.answers["smoke_from_openings_g"])
    end = soon.series["time_s"].iloc[-1]
    assert soon.between("flow_feed_g_per_s", soon.door + TURNS_WITHIN, end).max() < 0.0


def test_shipped_scenario_of_the_door_too_soon(fired: Fired) -> None:
    cold, soon = fired("cold_start"), fired("door_too_soon")
    late = soon.answers["time_to_boil_s"]
    assert late is None or late > 1.5 * cold.answers["time_to_boil_s"]
    assert soon.answers["smoke_from_openings_s"] > cold.answers["smoke_from_openings_s"]


def earliest(fired: Fired, *changes: str) -> float:
    """Earliest moment of the door [s] at which the draught holds, to 10 s, by halving."""

    def holds(moment: int) -> bool:
        return held(fired("cold_start", at(moment), f"outputs.until = {moment + 150} s", *changes))

    low, high = 10, 330
    assert not holds(low)
    assert holds(high)
    while high - low > 10:
        middle = (low + high) // 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def test_the_edge_depends_on_how_fast_the_fire_catches(fired: Fired) -> None:
    """Between too soon and soon enough lies an edge; quicker or more kindling moves it forward."""
    quick, slow = (earliest(fired, f"fire.kindling_time = {minutes} min") for minutes in (2, 8))
    assert quick + 20.0 < slow
    more, less = (earliest(fired, f"fire.kindling = {mass} g") for mass in (300, 75))
    assert more + 20.0 < less
