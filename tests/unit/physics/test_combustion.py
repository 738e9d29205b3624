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
