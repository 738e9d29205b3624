"""A jet up the chimney and the engine behind it: limits, joins, balance."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.physics import blast_nozzle as law
from thermsim.physics.choked_flow import (
    SATURATED_STEAM_EXPONENT,
    choked_flux,
    critical_pressure_ratio,
)
from thermsim.physics.engine import Diagram, swept_volume

AIR, STEAM, GAS = 101325.0, 0.59, 0.7
"""[Pa]; exhaust steam at 100 C and flue gas at 230 C [kg/m3]"""
CHIMNEY = math.pi / 4 * 0.12**2


def nozzle(mm: float) -> float:
    return math.pi / 4 * (mm * 1e-3) ** 2


def added(m: float, mm: float = 4.0, m_gas: float = 0.012) -> float:
    return law.draught_added(m, nozzle(mm), AIR, STEAM, CHIMNEY, m_gas, GAS)


def test_without_steam_nothing_is_added() -> None:
    assert added(0.0) == 0.0
    assert added(-1.0) == 0.0
    assert law.nozzle_back_pressure(0.0, nozzle(4.0), AIR, STEAM) == 0.0


def test_from_no_steam_without_a_jump() -> None:
    m = np.linspace(0.0, 4e-3, 4001)
    for column in ([added(float(one)) for one in m],
                   [law.nozzle_back_pressure(float(one), nozzle(3.0), AIR, STEAM) for one in m]):
        slope = np.diff(column)
        assert np.abs(np.diff(slope)).max() < 2e-3 * np.abs(slope).max()


def test_gas_from_falling_to_rising_without_a_jump() -> None:
    gas = np.linspace(-0.01, 0.01, 4001)
    slope = np.diff([added(2e-3, m_gas=float(one)) for one in gas])
    assert np.abs(np.diff(slope)).max() < 0.1 * np.abs(slope).max()
    assert added(2e-3, m_gas=-0.01) == pytest.approx(added(2e-3, m_gas=0.0), rel=1e-3)


def test_slow_steam_is_an_orifice() -> None:
    """At a few m/s the nozzle costs rho u^2/2, and the jet is as fast as its flow asks."""
    m, area = 1e-4, nozzle(10.0)
    u = m / (STEAM * 0.95 * area)
    assert law.nozzle_back_pressure(m, area, AIR, STEAM) == pytest.approx(STEAM * u * u / 2, 1e-3)
    assert law.jet_speed(m, area, AIR, STEAM) == pytest.approx(u, rel=1e-3)


def test_where_it_chokes() -> None:
    """At the critical ratio of pressures the flux is `choked_flux`, the mouth's speed sound's."""
    k = SATURATED_STEAM_EXPONENT
    before = AIR / critical_pressure_ratio(k)
    flux = choked_flux(before, AIR / (STEAM * before), k)
    area = nozzle(5.0)
    m = flux * 0.95 * area
    for share in (1.0 - 1e-9, 1.0 + 1e-9):
        assert law.nozzle_back_pressure(share * m, area, AIR, STEAM) == pytest.approx(
            before - AIR, rel=1e-6)
        assert law.jet_speed(share * m, area, AIR, STEAM) == pytest.approx(
            math.sqrt(2 * k / (k + 1) * AIR / STEAM), rel=1e-6)


@pytest.mark.parametrize("what", [law.nozzle_back_pressure, law.jet_speed])
def test_one_slope_where_it_chokes(what: Callable[..., float]) -> None:
    k, area = SATURATED_STEAM_EXPONENT, nozzle(5.0)
    before = AIR / critical_pressure_ratio(k)
    m = choked_flux(before, AIR / (STEAM * before), k) * 0.95 * area
    below, above = ((what(m * (1 + s * 1e-4), area, AIR, STEAM)
                     - what(m * (1 + (s - 1) * 1e-4), area, AIR, STEAM)) for s in (0, 1))
    assert above == pytest.approx(below, rel=1e-3)


def test_the_jet_alone_pushes_by_its_momentum() -> None:
    """A fast thin jet in a wide chimney at rest: thrust over area, less a few per cent."""
    m, area = 1e-3, nozzle(2.0)
    thrust = m * law.jet_speed(m, area, AIR, STEAM) / CHIMNEY
    assert thrust * 0.99 < law.draught_added(m, area, AIR, STEAM, CHIMNEY, 0.0, GAS) < thrust


def test_a_narrower_nozzle_draws_more_and_costs_more() -> None:
    sizes = (2.5, 3.0, 4.0, 6.0, 10.0)
    draughts = [added(2e-3, mm) for mm in sizes]
    costs = [law.nozzle_back_pressure(2e-3, nozzle(mm), AIR, STEAM) for mm in sizes]
    assert draughts == sorted(draughts, reverse=True)
    assert costs == sorted(costs, reverse=True)


def test_a_pipe_as_wide_as_the_chimney_costs_draught() -> None:
    """Steam that comes in slower than the gas must be carried along."""
    assert added(2e-3, mm=100.0) < 0.0


@settings(max_examples=200, deadline=None, derandomize=True)
@given(m=st.floats(-1.0, 1e3), area=st.floats(-1.0, 1.0), p=st.floats(-1e5, 1e7),
       rho=st.floats(-1.0, 1e3), chimney=st.floats(0.0, 10.0), m_gas=st.floats(-10.0, 10.0),
       rho_gas=st.floats(-1.0, 10.0))
def test_any_numbers(m: float, area: float, p: float, rho: float, chimney: float, m_gas: float,
                     rho_gas: float) -> None:
    assert math.isfinite(law.draught_added(m, area, p, rho, chimney, m_gas, rho_gas))
    assert math.isfinite(law.nozzle_back_pressure(m, area, p, rho))
    assert math.isfinite(law.jet_speed(m, area, p, rho))


D, SWEPT = Diagram(0.6, 0.1, 0.1, 0.75), swept_volume(0.05, 0.05, 0.0, True)
