"""Materials: published points, exact stored heat, finite everywhere."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.kernel import table
from thermsim.physics import materials
from thermsim.physics.material_data import MATERIALS

ALL = [
    *MATERIALS.values(),
    materials.air_gap(0.02),
    materials.own_material("own", 0.1, 300.0, 900.0, 0.9, 900.0, conductivity_slope=1e-4),
]
KELVIN = 273.15


def row_of(material):
    rows = table(materials.MATERIAL, 1)
    rows[0] = materials.material_row(material)
    return rows[0]


def k_at(name, T):
    return materials.conductivity(row_of(MATERIALS[name]), T)


@pytest.mark.published
def test_stainless_steel_is_that_of_en_1993_1_2(assert_reference):
    assert_reference(
        "materials", "k of stainless steel", lambda T_C: k_at("stainless steel 304", T_C + KELVIN)
    )
    row = row_of(MATERIALS["stainless steel 304"])
    # EN 1993-1-2 Annex C at 400 degC: 450 + 112 - 46.56 + 8.576.
    assert materials.volumetric_heat_capacity(row, 673.15) == pytest.approx(
        7850 * 524.016, rel=1e-5
    )


@pytest.mark.published
def test_steel_peak():
    """EN 1993-1-2 3.4.1.2: 5000 J/(kg K) at 735 degC."""
    assert materials.steel_heat_capacity(735.0) == pytest.approx(5000.0, rel=1e-4)


@pytest.mark.parametrize("material", ALL, ids=[m.name for m in ALL])
def test_stored_heat_has_exactly_the_heat_capacity_as_slope(material):
    row = row_of(material)
    step = 1e-3
    for T in np.linspace(150.3, 3500.0, 331):
        rise = materials.volumetric_heat(row, T + step) - materials.volumetric_heat(row, T - step)
        assert materials.volumetric_heat_capacity(row, T) == pytest.approx(
            rise / (2 * step), rel=2e-6
        )
    assert materials.volumetric_heat(row, 298.15) == 0.0


@pytest.mark.parametrize("material", ALL, ids=[m.name for m in ALL])
def test_no_jumps_and_nothing_negative(material):
    row = row_of(material)
    T = np.arange(150.0, 3500.0, 0.25)
    for law in (materials.conductivity, materials.volumetric_heat_capacity):
        values = np.array([law(row, t) for t in T])
        assert np.all(values > 0)
        steps = np.abs(np.diff(values)) / values[:-1]
        assert steps.max() < (0.08 if material.steel_peak else 5e-3)
    for t in (-1e4, 0.0, 1e5):
        assert materials.conductivity(row, t) > 0
        assert np.isfinite(materials.volumetric_heat(row, t))


def test_steel_pieces_meet():
    for join in (600.0, 735.0, 900.0):
        low, high = (materials.steel_heat_capacity(join + d) for d in (-1e-9, 1e-9))
        assert low == pytest.approx(high, rel=1e-8)
        low, high = (materials.steel_heat(join + d) for d in (-1e-9, 1e-9))
        assert low == pytest.approx(high, rel=1e-9)


@pytest.mark.parametrize("material", ALL, ids=[m.name for m in ALL])
def test_records_are_whole(material):
    assert 0 < material.emissivity <= 1
    assert all(0 < value <= 1 and source for value, source in material.finishes.values())
    assert material.top_service_temperature > 400
    assert material.sources["conductivity"]


@pytest.mark.published
def test_air_gap_between_hot_plates():
    """Grey parallel plates at 600 and 500 K, both 0.8: sigma (T1^4 - T2^4) / (2/0.8 - 1)."""
    gap = 0.01
    row = row_of(materials.air_gap(gap, 0.8, 0.8))
    radiant = 5.670374419e-8 * (600.0**4 - 500.0**4) / (2 / 0.8 - 1)
    air = 0.0437 * 100 / gap  # air at 550 K: 43.7 mW/(m K), Incropera Table A.4, from memory
    found = materials.conductivity(row, 550.0) * 100 / gap
    assert found == pytest.approx(radiant + air, rel=0.02)
