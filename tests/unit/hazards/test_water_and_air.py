"""Low water, smoke, flue, surfaces and standing against values from outside."""

from __future__ import annotations

import json
from typing import Any

import pandas as pd
import pytest

from thermsim.hazards import checks_of, record_of
from thermsim.hazards.check import BEYOND, CANNOT_TELL, NEAR, WITHIN
from thermsim.hazards.flue import flue_checks
from thermsim.hazards.hot_surfaces import surface_checks
from thermsim.hazards.low_water import low_water_checks
from thermsim.hazards.masses import bodies_of, weight
from thermsim.hazards.materials import material_checks
from thermsim.hazards.smoke import smoke_checks
from thermsim.hazards.standing import standing_checks
from thermsim.hazards.words import page_lines
from thermsim.making.costs import totals_of
from thermsim.making.listing import cutting_list

ROOM = ("place.where = room", "place.volume = 30 m3", "place.air_change = 0 1/h")


def test_minutes_with_the_feed_failed(evidence: Any, pick: Any) -> None:
    """16 l at 3 bar gauge (3.98 bar): 923 kg/m3 and 2134 kJ/kg by the steam tables, 10 kW."""
    found = pick(low_water_checks(evidence()), "low_water.minutes")
    assert found.found == pytest.approx(16e-3 * 923.0 * 2134.0 / 10.0 / 60.0, rel=5e-3)


def test_gravity_against_pressure(evidence: Any, pick: Any) -> None:
    """3 m of water: 0.294 bar."""
    e = evidence("feed.pump = none", "feed.loft.kind = float tank", "feed.loft.height = 3 m",
                 "feed.loft.mark = 150 mm", "firing = none",
                 summary={"feed_shut_out_s": {"loft": 1800.0}},
                 drum_pressure_Pa=[97500.0] * 180 + [3e5] * 181)
    found = pick(low_water_checks(e), "low_water.enters.loft")
    assert found.found == pytest.approx(0.2942, rel=1e-3)
    assert found.verdict == BEYOND
    assert "30 min after lighting on no water could enter" in found.says


def test_feed_missing(evidence: Any, pick: Any) -> None:
    e = evidence("feed = none", "firing = none", summary={"dry_s": 2400.0})
    found = pick(low_water_checks(e), "low_water.feed")
    assert found.verdict == BEYOND
    assert "ran dry 40 min after lighting" in found.says


def test_water_on_hot_plate(evidence: Any, pick: Any) -> None:
    e = evidence(water_kg=[10.0] * 100 + [0.0] * 261,
                 temperature_drum_wet_wall_C=[140.0] * 100 + [400.0] * 261)
    object.__setattr__(e, "events", pd.DataFrame(
        [(0.0, "act", "light the fire", ""), (2000.0, "act", "pour 2 l at 15 C", "")],
        columns=["time_s", "event", "where", "note"]))
    found = pick(low_water_checks(e), "low_water.poured")
    assert found.verdict == BEYOND
    assert found.found == pytest.approx(400.0)
    assert pick(low_water_checks(evidence()), "low_water.poured").verdict == WITHIN


def test_monoxide_in_a_shut_room(evidence: Any, pick: Any) -> None:
    """1 g/s of burnt gas is 1/6.95 g/s of dry wood, 11.5 % of it carbon monoxide: 16.5 mg/s. In
    30 m3 without change the mean of the last quarter of an hour is that of 52.5 min: 1738 mg/m3;
    of the whole hour 993, which is 28 times the guideline of 35."""
    found = pick(smoke_checks(evidence(*ROOM, smoke_g_per_s=1.0)), "smoke.monoxide")
    assert found.found == pytest.approx(0.115 / 6.95 * 1e6 / 30.0 / 1e3 * 1800.0, rel=0.02)
    assert found.limit == pytest.approx(35.0)
    assert found.verdict == BEYOND


def test_room_not_known_and_open_air(evidence: Any, pick: Any) -> None:
    gone = ("place.where = room", "place.volume = none")
    found = pick(smoke_checks(evidence(*gone, smoke_g_per_s=1.0)), "smoke.monoxide")
    assert found.verdict == CANNOT_TELL
    assert set(found.missing) == {"place.volume", "place.air_change"}
    assert pick(smoke_checks(evidence(smoke_g_per_s=1.0)), "smoke.monoxide").verdict == WITHIN


@pytest.mark.parametrize(("changes", "verdict"), [
    (("place.where = room",), CANNOT_TELL), (("place.monoxide_alarm = yes",), WITHIN),
    (("place.where = room", "place.monoxide_alarm = no"), BEYOND), ((), WITHIN)])
def test_an_alarm_is_always_named(evidence: Any, pick: Any, changes: Any, verdict: str) -> None:
    found = pick(smoke_checks(evidence(*changes)), "smoke.alarm")
    assert found.verdict == verdict
    assert "carbon monoxide alarm" in found.says


def test_short_air_and_back_flow(evidence: Any, pick: Any) -> None:
    e = evidence(air_ratio=[2.0] * 300 + [1.0] * 61,
                 flow_chimney_g_per_s=[8.0] * 300 + [-1.0] * 61)
    checks = list(smoke_checks(e))
    ratio, back = pick(checks, "smoke.air_ratio"), pick(checks, "smoke.back_flow")
    assert ratio.verdict == BEYOND
    assert ratio.found == pytest.approx(10.0)
    assert back.verdict == BEYOND
    assert back.since == pytest.approx(3000.0)
    calm = list(smoke_checks(evidence()))
    assert {pick(calm, name).verdict for name in ("smoke.air_ratio", "smoke.back_flow")} == {WITHIN}


@pytest.mark.parametrize(("wall", "gas", "verdict"), [
    (45.0, 200.0, BEYOND), (60.0, 100.0, BEYOND), (80.0, 130.0, NEAR), (120.0, 200.0, WITHIN)])
def test_wet_tarred_or_dry(evidence: Any, pick: Any, wall: float, gas: float,
                           verdict: str) -> None:
    """Dew point 50 C; under 120 C of gas heavy tar, over 150 C little (common practice)."""
    e = evidence(temperature_chimney_upper_1_inside_C=wall, temperature_chimney_upper_1_gas_C=gas)
    found = pick(flue_checks(e), "flue.tar")
    assert found.verdict == verdict
    assert (found.used > 1.0) == (verdict == BEYOND)


def test_draught_in_two_sentences(evidence: Any, pick: Any) -> None:
    """10 Pa bring an air ratio of 1.0; 1.2 takes 1.44 times as much."""
    found = pick(flue_checks(evidence(air_ratio=1.0)), "flue.draught")
    assert found.limit == pytest.approx(14.4)
    assert found.verdict == BEYOND
    assert found.says.count(". ") == 1


@pytest.mark.parametrize(("peak", "verdict"), [(72.0, BEYOND), (64.0, NEAR), (40.0, WITHIN)])
def test_touch(evidence: Any, pick: Any, peak: float, verdict: str) -> None:
    """Bare metal, a second: 65 to 70 C (ISO 13732-1)."""
    e = evidence(summary={"outside_surface_peak_C": {"firebox": peak}})
    found = pick(surface_checks(e), "surfaces.touch.firebox")
    assert found.verdict == verdict
    assert found.limit == pytest.approx(65.0)


@pytest.mark.parametrize(("changes", "verdict"), [
    (("place.floor = wood",), BEYOND), (("place.floor = none",), CANNOT_TELL), ((), WITHIN),
    (("place.floor = wood under sheet and 50 mm of masonry",), BEYOND),
    (("place.floor = wood under sheet and 50 mm of masonry", "legs.height = 150 mm"), NEAR),
    (("place.floor = wood under sheet and 50 mm of masonry", "legs = none"), CANNOT_TELL)])
def test_floor(evidence: Any, pick: Any, changes: Any, verdict: str) -> None:
    assert pick(surface_checks(evidence(*changes)), "fire.floor").verdict == verdict


def test_distances(evidence: Any, pick: Any) -> None:
    """36 in and 18 in (NFPA 211)."""
    near = list(surface_checks(evidence("place.wall_distance = 0.5 m",
                                        "place.pipe_distance = 18 in")))
    assert pick(near, "fire.distance").verdict == BEYOND
    assert pick(near, "fire.pipe").verdict == NEAR


def test_scaling_zinc_and_growth(evidence: Any, pick: Any) -> None:
    e = evidence("firebox.finish = galvanised", summary={
        "peak_temperature_C": {"firebox": 600.0, "casing_top": 400.0, "casing_sides": 400.0,
                               "casing_bottom": 400.0},
        "outside_surface_peak_C": {"firebox": 250.0}})
    checks = list(material_checks(e))
    assert pick(checks, "materials.service.firebox.wall.1").verdict == BEYOND
    assert pick(checks, "materials.zinc.firebox").verdict == BEYOND
    drum = pick(checks, "growth.drum")
    # EN 1993-1-2 3.4.1.1: 140 and 400 C over 450 mm, by hand
    assert drum.found == pytest.approx(450.0 * (1.2e-5 * 260.0 + 0.4e-8 * (400.0**2 - 140.0**2)),
                                       rel=1e-3)
    assert drum.verdict == CANNOT_TELL


def test_mass_is_that_of_the_cutting_list(unfired: Any) -> None:
    tree = unfired().tree
    totals, made = totals_of(cutting_list(tree)), cutting_list(tree)
    line = sum(pipe.mass for pipe in made.pipes if pipe.of == "steam line")
    assert weight(tree).mass == pytest.approx(totals.mass - line, rel=1e-6)
    with_water = sum(body.mass for body in bodies_of(tree))
    assert with_water == pytest.approx(weight(tree).mass + 16.0, rel=1e-6)


def test_standing(unfired: Any, pick: Any) -> None:
    """Statics: a push at the top tips it with weight times half the width over the height."""
    e = unfired("legs.guyed = no", "legs.across = 300 mm")
    centre = weight(e.tree)
    checks = list(standing_checks(e))
    push = pick(checks, "standing.push")
    top = 0.15 + 0.35 + 0.2 + 2.4
    assert push.found == pytest.approx(centre.mass * 9.80665 * 0.15 / top, rel=0.05)
    assert push.verdict == BEYOND
    told = list(standing_checks(unfired("legs.guyed = none", "legs.across = 300 mm")))
    for name in ("standing.push", "standing.wind"):
        assert pick(told, name).missing == ("legs.guyed",)
    assert {one.verdict for one in standing_checks(unfired("legs = none"))} == {CANNOT_TELL}
    assert pick(list(standing_checks(unfired("legs.guyed = no", "place.gust = none"))),
                "standing.wind").verdict == CANNOT_TELL


def test_a_firing_that_went_wrong_is_told_all_the_same(evidence: Any, hour: Any) -> None:
    """A solve that broke off may leave a row or two, or figures that are none."""
    broken = evidence(**{name: float("nan") for name in hour() if name != "time_s"})
    short = evidence()
    object.__setattr__(short, "series", hour().iloc[:1])
    empty = evidence()
    object.__setattr__(empty, "series", hour().iloc[:0])
    for e in (broken, short, empty):
        checks = checks_of(e)
        assert page_lines(checks, "broken off")
        assert json.dumps([record_of(one) for one in checks], allow_nan=False)
