"""Water and steam against the IAPWS releases' own tables and printed steam tables."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from thermsim.physics import if97, steam, steam_transport
from thermsim.physics.constants import LATENT_DATUM

MPA, BAR, KJ = 1e6, 1e5, 1e3
SATURATION = "IF97 region 4 saturation "
FIT_T = np.linspace(steam.T_FIT_LOW, steam.T_FIT_HIGH, 117)


@pytest.mark.parametrize(
    ("fitted", "full", "width"),
    [
        (steam.liquid_volume, if97.region1_volume, lambda v: 1.4e-5 * v),
        (steam.liquid_energy, if97.region1_energy, lambda u: 8.5),
        (steam.vapour_density, lambda T, p: 1 / if97.region2_volume(T, p), lambda r: 3.5e-6 * r),
        (steam.vapour_energy, if97.region2_energy, lambda u: 4.9),
    ],
)
def test_fits_stay_as_near_to_if97_as_the_docstring_says(fitted, full, width):
    zero = steam.ENERGY_DATUM if full in (if97.region1_energy, if97.region2_energy) else 0.0
    for T in FIT_T:
        exact = full(T, steam.saturation_pressure(T)) - zero
        assert abs(fitted(T) - exact) <= width(abs(exact)), T


def test_thin_steam_energy_is_region_2_at_no_pressure():
    for T in np.linspace(250.0, 1300.0, 50):
        exact = if97.region2_energy(T, 1e-3) - steam.ENERGY_DATUM
        assert steam.thin_steam_energy(T) == pytest.approx(exact, abs=16.0)


def test_datum_is_liquid_at_25_degrees():
    assert steam.liquid_energy(298.15) == pytest.approx(0.0, abs=8.5)
    assert steam.evaporation_heat(298.15) == pytest.approx(LATENT_DATUM, rel=2e-4)


def test_pressure_and_temperature_are_inverse_everywhere():
    for T in np.linspace(40.0, 1500.0, 147):
        p = steam.saturation_pressure(T)
        assert steam.saturation_temperature(p) == pytest.approx(T, rel=1e-8)


@pytest.mark.parametrize("joint", [if97.T_TRIPLE, 647.0])
def test_saturation_line_goes_on_smoothly(joint):
    step = 1e-3
    p = [steam.saturation_pressure(joint + n * step) for n in (-2, -1, 1, 2)]
    assert (p[3] - p[2]) / (p[1] - p[0]) == pytest.approx(1.0, rel=2e-3)
    assert p[2] - p[1] == pytest.approx(2 * step * steam.saturation_slope(joint), rel=2e-3)


def test_undercooled_pressure_is_near_the_published_line():
    """Meteorological tables have 286.5 Pa over water at -10 degC (from memory)."""
    assert steam.saturation_pressure(263.15) == pytest.approx(286.5, rel=5e-3)


@pytest.mark.parametrize(
    "law",
    [
        steam.saturation_pressure,
        steam.liquid_volume,
        steam.liquid_energy,
        steam.vapour_density,
        steam.vapour_energy,
        steam.thin_steam_energy,
    ],
)
def test_saturation_properties_rise_and_stay_finite(law):
    """From 150 to 3500 K; the volume of water has its published least value at 4 degC."""
    T = np.arange(278.0 if law is steam.liquid_volume else 150.0, 3500.0, 5.0)
    values = np.array([law(t) for t in T])
    assert np.all(np.isfinite(values))
    assert np.all(np.diff(values) > 0)


@pytest.mark.parametrize("T", [-1e6, -1.0, 0.0, 1e-9, 650.17534844798, 1e4, 1e9])
def test_any_temperature_gives_a_finite_number(T):
    for law in (
        steam.saturation_pressure,
        steam.saturation_slope,
        steam.liquid_density,
        steam.liquid_energy,
        steam.vapour_density,
        steam.vapour_energy,
        steam.liquid_viscosity,
        steam.liquid_conductivity,
        steam.surface_tension,
    ):
        assert np.isfinite(law(T))


def test_steam_without_liquid_joins_the_saturation_line():
    for T in np.linspace(280.0, 500.0, 23):
        density = steam.vapour_density(T)
        assert steam.steam_gas_energy(T, density) == pytest.approx(
            steam.vapour_energy(T), rel=1e-12
        )
        assert steam.steam_gas_pressure(T, density) == pytest.approx(
            steam.saturation_pressure(T), rel=1e-12
        )


@pytest.mark.published
@pytest.mark.parametrize(("T_C", "p_bar"), [(150, 1), (200, 5), (300, 5), (250, 10), (400, 10)])
def test_steam_without_liquid_against_iapws_95(T_C, p_bar):
    """IAPWS-95 through CoolProp: pressure within 0.6 %, energy within 5 kJ/kg."""
    T, p = T_C + 273.15, p_bar * BAR
    density = PropsSI("D", "T", T, "P", p, "Water")
    energy = PropsSI("U", "T", T, "P", p, "Water") - PropsSI("U", "T", 298.15, "Q", 0, "Water")
    assert steam.steam_gas_pressure(T, density) == pytest.approx(p, rel=6e-3)
    assert steam.steam_gas_energy(T, density) == pytest.approx(energy, abs=5e3)


@pytest.mark.published
def test_liquid_transport_against_coolprop():
    """CoolProp has R12-08 and R15-11 with the critical part: within 1 % to 200 degC."""
    for T in (280.0, 300.0, 350.0, 400.0, 470.0):
        mu, k = PropsSI("V", "T", T, "Q", 0, "Water"), PropsSI("L", "T", T, "Q", 0, "Water")
        assert steam.liquid_viscosity(T) == pytest.approx(mu, rel=2e-3)
        assert steam.liquid_conductivity(T) == pytest.approx(k, rel=1e-2)
    assert steam_transport.thin_steam_viscosity(400.0) == pytest.approx(1.3285e-5, rel=6e-3)
