"""Pressure parts and safety valve, against values worked by hand from the codes' formulas."""

from __future__ import annotations

import math
from typing import Any

import pytest

from thermsim.hazards.burst import burst_checks
from thermsim.hazards.check import BEYOND, CANNOT_TELL, WITHIN
from thermsim.hazards.drum_strength import strength_checks
from thermsim.hazards.relief import relief_checks
from thermsim.hazards.tube_strength import lost, tube_checks
from thermsim.hazards.vacuum import vacuum_checks

AT_200 = {"peak_temperature_C": {"drum_wet_wall": 150.0, "drum_dry_wall": 200.0}}
"""P265GH then has 205 MPa of proof strength (EN 10028-2), 136.67 MPa allowed"""


def test_shell_by_hand(evidence: Any, pick: Any) -> None:
    """250 mm, 5 mm less 1 mm, E 0.85: 136.67 0.85 4/(121 + 2.4) MPa, by UG-27."""
    found = pick(strength_checks(evidence(summary=AT_200)), "pressure.shell")
    assert found.limit == pytest.approx(37.655, rel=1e-3)
    assert found.verdict == WITHIN
    assert found.found == pytest.approx(3.0)


def test_dished_ends_by_hand(evidence: Any, pick: Any) -> None:
    """R 251, r 26 mm: M = (3 + (251/26)^0.5)/4 = 1.5268; 2 136.67 4/(251 1.5268 + 0.8) MPa."""
    found = pick(strength_checks(evidence(summary=AT_200)), "pressure.ends")
    assert found.limit == pytest.approx(28.47, rel=1e-3)


def test_flat_ends_by_hand(evidence: Any, pick: Any) -> None:
    """UG-34: 136.67 (4/242)^2/0.33 MPa = 1.131 bar; EN 13445-3 allows more."""
    found = pick(strength_checks(evidence("drum.ends = flat", summary=AT_200)), "pressure.ends")
    assert found.limit == pytest.approx(10.0 * 136.667 * (4.0 / 242.0) ** 2 / 0.33, rel=1e-3)
    assert found.verdict == BEYOND


def test_first_moment_over_what_the_hot_plate_is_allowed(evidence: Any, pick: Any) -> None:
    """Past 450 C P265GH has no strength to reckon with: from half an hour on here."""
    hot = [200.0] * 180 + [460.0] * 181
    found = pick(strength_checks(evidence(
        summary={"peak_temperature_C": {"drum_dry_wall": 460.0}},
        temperature_drum_dry_wall_C=hot, drum_pressure_Pa=4e5)), "pressure.shell")
    assert found.verdict == BEYOND
    assert found.since == pytest.approx(1800.0)
    assert "30 min after lighting" in found.says


@pytest.mark.parametrize("steel", ["unknown", "re-used"])
def test_metal_that_nobody_knows_is_never_a_pressure_part(evidence: Any, steel: str) -> None:
    checks = list(strength_checks(evidence(f"drum.steel = {steel}", "drum.plate = 20 mm")))
    assert {one.verdict for one in checks if one.name != "pressure.openings"} == {BEYOND}


def test_what_is_not_given_cannot_be_told(evidence: Any, pick: Any) -> None:
    found = pick(strength_checks(evidence("drum.steel = none", summary=AT_200)), "pressure.shell")
    assert found.verdict == CANNOT_TELL
    assert "drum.steel" in found.missing
    seam = pick(strength_checks(evidence("drum.seam = none", summary=AT_200)), "pressure.shell")
    assert seam.verdict == CANNOT_TELL
    assert seam.missing == ("drum.seam",)


def test_what_is_beyond_at_best_is_beyond_whatever_is_missing(evidence: Any, pick: Any) -> None:
    found = pick(strength_checks(evidence(
        "drum.seam = none", "drum.plate = 1.2 mm", "drum.corrosion = 1.1 mm", summary=AT_200)),
        "pressure.shell")
    assert found.verdict == BEYOND


def test_no_firing_no_metal_temperature(unfired: Any, pick: Any) -> None:
    found = pick(strength_checks(unfired()), "pressure.shell")
    assert found.verdict == CANNOT_TELL
    assert "a firing" in found.missing


def test_small_holes_need_no_reckoning_large_ones_a_neck(evidence: Any, pick: Any) -> None:
    small = pick(strength_checks(evidence(summary=AT_200)), "pressure.openings")
    assert small.verdict == WITHIN
    assert small.limit == pytest.approx(60.0)
    large = pick(strength_checks(evidence("drum.vent = 100 mm", "drum.plate = 2.2 mm",
                                          "drum.safety_valve.set = 12 bar(g)", summary=AT_200)),
                 "pressure.openings")
    assert large.verdict == CANNOT_TELL


def test_valve_missing_shut_off_or_there(evidence: Any, pick: Any) -> None:
    name = "relief.valve"
    assert pick(relief_checks(evidence()), name).verdict == WITHIN
    gone = pick(relief_checks(evidence("drum.safety_valve = none",
                                       drum_pressure_Pa=[97500.0] * 60 + [3e5] * 301)), name)
    assert gone.verdict == BEYOND
    assert gone.since == pytest.approx(600.0)
    for change in ("drum.safety_valve.can_be_shut_off = yes", "drum.safety_valve.open_way = 50 %"):
        assert pick(relief_checks(evidence(change)), name).verdict == BEYOND
    open_ = evidence("drum.safety_valve = none", "drum.stop_valve = none", "tubes = none",
                     "steam_line = none", "engine = none", "firing = none")
    assert pick(relief_checks(open_), name).verdict == CANNOT_TELL


def test_steam_raised_against_the_rated_flow(evidence: Any, pick: Any) -> None:
    """10 kW at 3.3 bar gauge: latent heat 2122 kJ/kg at 4.27 bar (steam tables): 17.0 kg/h."""
    checks = list(relief_checks(evidence()))
    assert pick(checks, "relief.flow").found == pytest.approx(3600.0 * 10.0 / 2122.0, rel=5e-3)
    assert pick(checks, "relief.flow_hard").found == pytest.approx(5400.0 * 10.0 / 2122.0, rel=5e-3)


def test_rated_flow_is_that_of_napier_or_less(evidence: Any, pick: Any) -> None:
    """W = A p/70 in lb/s, in2, psi: 10 mm, 4.275 bar, 0.3 of it: 52.8 kg/h, by hand."""
    area, p = math.pi / 4.0 * (10.0 / 25.4) ** 2, (3.3e5 + 97500.0) / 6894.757
    napier = 0.3 * area * p / 70.0 * 0.45359 * 3600.0
    found = pick(relief_checks(evidence()), "relief.flow").limit
    assert found == pytest.approx(napier, rel=0.01)


def test_soft_solder_against_steam(evidence: Any, pick: Any) -> None:
    """Rated 15 psi of steam, 121 C; begins to melt at 183 C."""
    hot = [100.0] * 60 + [150.0] * 60 + [190.0] * 241
    found = pick(tube_checks(evidence(
        "tubes.superheater.joints = soft soldered",
        summary={"tube_wall_peak_C": {"superheater": 190}},
        temperature_superheater_1_wall_C=hot)), "pressure.joint.tubes.superheater")
    assert found.verdict == BEYOND
    assert found.since == pytest.approx(600.0)
    assert "began to melt 20 min after lighting" in found.says


def test_joints_not_told_and_screwed_ones_cannot_be_told(evidence: Any, pick: Any) -> None:
    for change in ("tubes.superheater.joints = none", "tubes.superheater.joints = screwed"):
        found = pick(tube_checks(evidence(change)), "pressure.joint.tubes.superheater")
        assert found.verdict == CANNOT_TELL


def test_tube_wall_by_hand(evidence: Any, pick: Any) -> None:
    """16 mm outside, P235GH at 300 C: 132/1.5 = 88 MPa. Pitch 32 mm: the bend leaves
    2 16/(16 + 8) = 1.333 mm; 2 88 1.333/(16 - 0.8 1.333) MPa."""
    found = pick(tube_checks(evidence(summary={"tube_wall_peak_C": {"superheater": 300.0}})),
                 "pressure.wall.tubes.superheater")
    assert found.limit == pytest.approx(157.1, rel=2e-3)


def test_a_thread_takes_wall(evidence: Any) -> None:
    """ISO 7-1: 19 threads an inch up to 3/8, 0.856 mm deep."""
    tube = {"bore": 12e-3, "wall": 2e-3, "joints": "screwed", "shape": "straight"}
    assert lost(tube) == pytest.approx(0.856e-3)


def test_water_test_by_hand(evidence: Any, pick: Any) -> None:
    """At 200 C 136.67 MPa, cold 410/2.4 = 170.83: 1.3 and 1.25 times 1.25, or 1.43: 4.875 bar."""
    found = pick(burst_checks(evidence(summary=AT_200)), "pressure.test")
    assert found.limit == pytest.approx(4.875, rel=1e-3)
    assert found.verdict == WITHIN
    none = pick(burst_checks(evidence("drum.test_pressure = none", summary=AT_200)),
                "pressure.test")
    assert none.verdict == CANNOT_TELL
    assert none.missing == ("drum.test_pressure",)


def test_energy_is_told_so_that_it_is_felt(evidence: Any, pick: Any) -> None:
    """CoolProp: 155.6 kJ for 15 l at 5 bar, four fifths full; here 23.1 l at 3.98 bar, 69 %."""
    found = pick(burst_checks(evidence()), "pressure.burst")
    assert 100.0 < found.found < 200.0
    assert "car at" in found.says
    assert found.verdict == CANNOT_TELL


def test_rules_always_end_with_whom_to_ask(evidence: Any, pick: Any) -> None:
    found = pick(burst_checks(evidence()), "rules.orientation")
    assert "ask the authority" in found.says
    assert "inspector" in found.says


def test_vacuum_of_a_drum_without_a_valve_for_it(evidence: Any, pick: Any) -> None:
    """Saturation at 12 C is 14 mbar (steam tables): all the rest of the air presses on it."""
    found = pick(vacuum_checks(evidence("drum.vacuum_valve = none")), "low_water.vacuum")
    assert found.found == pytest.approx((97500.0 - 1403.0) / 1e5, rel=5e-3)
    assert found.verdict == WITHIN
