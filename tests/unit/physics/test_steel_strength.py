"""Strength when hot: no number for what nobody knows, and the least of what a code asks."""

from __future__ import annotations

from itertools import pairwise

import pytest

from thermsim.physics.joints import JOINTS, joint_holds
from thermsim.physics.material_data import MATERIALS
from thermsim.physics.steel_grades import GRADES
from thermsim.physics.steel_strength import (
    allowed_stress,
    between,
    creep_temperature,
    elasticity,
    proof_strength,
    top_temperature,
    yield_share_in_fire,
)

C = 273.15


@pytest.mark.parametrize("name", ["unknown", "re-used", "", "p265gh", "gas bottle"])
def test_unknown_metal_has_no_strength(name: str) -> None:
    found = allowed_stress(name, C + 100)
    assert found.stress is None
    assert "unknown or re-used" in found.why
    assert top_temperature(name) is None
    assert creep_temperature(name) is None
    assert proof_strength(name, C + 100) is None


def test_what_decides() -> None:
    """P265GH: cold 410/2.4 = 170.8 under 265/1.5 = 176.7; at 400 C 132/1.5 = 88 by rupture."""
    cold, hot = allowed_stress("P265GH", C + 20), allowed_stress("P265GH", C + 400)
    assert cold.stress == pytest.approx(410e6 / 2.4)
    assert "tensile" in cold.why
    assert hot.stress == pytest.approx(88e6)
    assert hot.creeps
    assert not allowed_stress("P265GH", C + 380).creeps


@pytest.mark.parametrize("name", GRADES)
def test_strength_falls_and_ends(name: str) -> None:
    top = top_temperature(name)
    assert top is not None
    steps = [C + 20 + (top - C - 20) * k / 200 for k in range(201)]
    stresses = [allowed_stress(name, T).stress or 0.0 for T in steps]
    assert all(a >= b > 0.0 for a, b in pairwise(stresses))
    past = allowed_stress(name, top + 1.0)
    assert past.stress is None
    assert "no strength" in past.why
    assert allowed_stress(name, C - 20).stress is None
    thicker = allowed_stress(name, C + 100, GRADES[name].thickest + 1e-3)
    assert thicker.stress is None
    assert GRADES[name].material in MATERIALS
    assert top <= MATERIALS[GRADES[name].material].top_service_temperature + 5.0


def test_boiler_plate_is_stronger_than_its_tube() -> None:
    """EN 10216-2 tubes have a lower proof strength when hot than EN 10028-2 plate of the name."""
    for grade in ("P235GH", "P265GH"):
        plate, tube = proof_strength(grade, C + 200), proof_strength(grade + " tube", C + 200)
        assert plate is not None
        assert tube is not None
        assert tube < plate


def test_tables() -> None:
    curve = ((0.0, 10.0), (100.0, 20.0))
    assert [between(curve, t) for t in (-5.0, 0.0, 25.0, 100.0, 200.0)] == [10, 10, 12.5, 20, 20]


def test_fire_takes_everything_at_1200() -> None:
    """EN 1993-1-2 table 3.1, last row: 0 and 0."""
    assert yield_share_in_fire(C + 1200) == 0.0
    assert elasticity(C + 1200) == 0.0


def test_joints() -> None:
    """Saturation at 15 psi over one atmosphere: 250 F; at 120 psi: 350 F (steam tables)."""
    solder, braze = (JOINTS[name] for name in
                     ("soft solder, tin and lead 50-50", "silver solder, 55 % silver"))
    assert (solder.steam_temperature - C) * 1.8 + 32 == pytest.approx(250, abs=1)
    assert (braze.steam_temperature - C) * 1.8 + 32 == pytest.approx(350, abs=1)
    assert joint_holds(solder.name, 1e5, C + 120)[0]
    assert not joint_holds(solder.name, 1.1e5, C + 122)[0]
    hot, why = joint_holds(solder.name, 0.5e5, C + 180)
    assert not hot
    assert "melts from 183 C" in why
    assert joint_holds(braze.name, 8e5, C + 175)[0]
    assert not joint_holds("glue", 0.1e5, C + 100)[0]
