"""Wood: heating values, air demand, flue gas, flame temperature, dew point, the split in two."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.physics import combustion
from thermsim.physics.constants import CARBON_HEAT, LATENT_DATUM
from thermsim.physics.flue_gas import mass_fractions

MJ = 1e6
REF = (0.500, 0.061, 0.439, 0.0)
AIR = "(x_O2=0.2095, M_air=28.965)"
LHV = "(2.442 MJ/kg, 8.937 kg H2O/kg H)"
REFERENCE_AIR = mass_fractions([0.7812, 0.2095, 0.0, 0.0, 0.0093])
"""The air of the reference rows: 20.95 % oxygen, no carbon dioxide."""
KINDS = ["REF", "broad", "conif", "MaCFP"]


@pytest.mark.published
@pytest.mark.parametrize("kind", KINDS)
def test_heating_values_and_air(assert_reference, kind):
    assert_reference(
        "wood", f"HHV dry, {kind} wood", lambda **e: combustion.higher_heating_value(**e) / MJ
    )
    assert_reference(
        "wood", f"LHV dry, {kind} wood {LHV}", lambda **e: combustion.lower_heating_value(**e) / MJ
    )
    assert_reference(
        "wood",
        f"Stoichiometric dry air, {kind} wood {AIR}",
        lambda C, H, O, N=0.0: combustion.stoichiometric_air(C, H, O),
    )


@pytest.mark.published
def test_heating_value_as_fired(assert_reference):
    def found(M_wet, HHV_dry, H):
        return combustion.lower_heating_value(*REF, moisture=M_wet) / MJ

    assert_reference("wood", "LHV as received, REF wood", found)


@pytest.mark.published
@pytest.mark.parametrize("kind", ["conif", "MaCFP"])
def test_most_carbon_dioxide(assert_reference, kind):
    assert_reference(
        "wood",
        f"CO2 max dry, {kind} wood",
        lambda C, H, O, N: 100 * combustion.flue_gas(C, H, O, N, 0.0, 1.0, REFERENCE_AIR).dry[2],
    )


@pytest.mark.published
def test_flame_temperature_dew_point_and_loss(assert_reference):
    def flame(M_wet, lam, wood, T0_C):
        return combustion.adiabatic_temperature(*REF, M_wet, float(lam)) - 273.15

    def dew(M_wet, lam, wood, T0_C):
        wet = combustion.flue_gas(*REF, M_wet, float(lam)).wet
        return combustion.water_dew_point(wet[3] * 101325) - 273.15

    def loss(M, CO2, Tg, Ta):
        most = 100 * combustion.flue_gas(*REF, M, 1.0).dry[2]
        low, high = 1.0, 2 * most / CO2
        for _ in range(60):
            middle = (low + high) / 2
            above = 100 * combustion.flue_gas(*REF, M, middle).dry[2] > CO2
            low, high = (middle, high) if above else (low, middle)
        return 100 * combustion.flue_loss(*REF, M, low, Tg + 273.15, Ta + 273.15)

    assert_reference("wood", "Adiabatic flame T, complete combustion", flame)
    assert_reference("wood", "Water dew point of flue gas", dew)
    assert_reference("wood", "Worked flue loss: M 15 %, CO2 10.0 % dry, Tg 220, Ta 20", loss)


@pytest.mark.published
def test_flue_gas_of_reference_wood(reference_table):
    """cantera's gri30 flue gas; it counts argon as nitrogen, 0.35 % lighter in gas a kg of wood."""
    for row in reference_table("wood_flue_gas"):
        at = {key: float(value) for key, value in row.items() if key != "source"}
        gas = combustion.flue_gas(*REF, at["M"], at["lam"], REFERENCE_AIR)
        assert gas.air_mass == pytest.approx(at["air"], rel=1e-3)
        assert gas.gas_mass == pytest.approx(at["m_gas"], rel=5e-3)
        assert gas.wet[2] == pytest.approx(at["CO2w"], rel=2e-3)
        assert gas.wet[3] == pytest.approx(at["H2Ow"], rel=2e-3)
        assert gas.wet[1] == pytest.approx(at["O2w"], abs=1e-4)
        assert gas.wet[0] + gas.wet[4] == pytest.approx(at["N2w"], rel=1e-3)
        assert gas.dry[2] == pytest.approx(at["CO2d"], rel=2e-3)
        assert gas.dry[1] == pytest.approx(at["O2d"], abs=1e-4)
        found = combustion.adiabatic_temperature(*REF, at["M"], at["lam"])
        assert found == pytest.approx(at["T"], rel=4e-3)
        dew = combustion.water_dew_point(gas.wet[3] * 101325) - 273.15
        assert dew == pytest.approx(at["Tdew"], abs=0.1)


@pytest.mark.parametrize("moisture", [0.0, 0.2])
@pytest.mark.parametrize("char_yield", [0.0, 0.12, 0.16, 0.3])
@pytest.mark.parametrize("wood", list(combustion.WOODS.values()), ids=list(combustion.WOODS))
def test_char_and_volatiles_together_are_the_wood(wood, char_yield, moisture):
    elements = combustion.ash_free(wood)
    v = combustion.split_wood(*elements, char_yield)
    y = char_yield
    dry = (1 - y) * v.heating_value + y * CARBON_HEAT
    fired = dry * (1 - moisture) - LATENT_DATUM * moisture
    assert fired == pytest.approx(
        combustion.lower_heating_value(*elements, moisture=moisture), rel=1e-12
    )
    whole = [(1 - y) * e for e in (v.C, v.H, v.O, v.N)]
    whole[0] += y
    assert whole == pytest.approx(list(elements), abs=1e-12)
    products = v.CO2 + v.H2O + v.N2
    assert products == pytest.approx(1 + v.oxygen_demand, rel=1e-9)
    assert sum((v.C, v.H, v.O, v.N)) == pytest.approx(1.0, abs=1e-12)


def test_masses_close():
    for moisture in (0.0, 0.3):
        for air_ratio in (1.0, 2.5):
            gas = combustion.flue_gas(*REF, moisture, air_ratio)
            fed = 1 + moisture / (1 - moisture) + gas.air_mass
            assert gas.gas_mass == pytest.approx(fed, rel=1e-9)
            assert gas.mass_fractions.sum() == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize("char_yield", [-0.1, 0.5, 0.9])
def test_impossible_char_yield_is_refused(char_yield):
    with pytest.raises(ValueError, match="char yield"):
        combustion.split_wood(*REF, char_yield)


@pytest.mark.published
def test_volatiles_heat_of_pine(reference_rows):
    """NIST measured 12.08 MJ of volatiles' heat a kg of pine with 0.154 kg of char (MaCFP wood)."""
    wood = combustion.WOODS["pine"]
    v = combustion.split_wood(*combustion.ash_free(wood), 0.154)
    assert (1 - 0.154) * v.heating_value / MJ == pytest.approx(12.08, rel=0.12)


def test_smooth_minimum():
    for a in np.geomspace(1e-9, 1e3, 25):
        for b in np.geomspace(1e-9, 1e3, 25):
            found = combustion.smooth_minimum(a, b)
            assert found <= min(a, b)
            assert found >= (1 - combustion.MINIMUM_WIDTH) * min(a, b) * (1 - 1e-6)
    assert combustion.smooth_minimum(1.0, 2.0) == pytest.approx(1.0, rel=1e-3)
    assert combustion.smooth_minimum(0.0, 3.0) == 0.0
    assert np.isfinite(combustion.smooth_minimum(-1.0, 2.0))
    assert np.isfinite(combustion.smooth_minimum(0.0, 0.0))
