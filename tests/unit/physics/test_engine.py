"""The indicator diagram: its limits, its area by integration, standing engines, any numbers."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.physics import cylinder_condensation, engine, rankine, steam
from thermsim.physics.engine import Diagram

BAR = 1e5
SMALL = engine.swept_volume(0.05, 0.05, 0.0, True)
SHARE = st.floats(0.0, 1.0)


def test_no_expansion_gives_the_full_pressure() -> None:
    assert engine.mean_forward_ratio(1.0, 0.0) == pytest.approx(1.0)
    assert engine.mean_forward_ratio(1.0, 0.12) == pytest.approx(1.0)
    full = Diagram(1.0, 0.0, 0.0, 1.0)
    assert engine.mean_effective_pressure(6 * BAR, BAR, full) == pytest.approx(5 * BAR)


@pytest.mark.parametrize("e", [0.05, 0.3, 0.95])
def test_without_clearance(e: float) -> None:
    """e (1 - ln e): the textbook's form."""
    assert engine.mean_forward_ratio(e, 0.0) == pytest.approx(e * (1.0 - math.log(e)))


@pytest.mark.parametrize(("p1", "d"), [
    (6.0, Diagram(0.6, 0.1, 0.0, 1.0)), (6.0, Diagram(0.3, 0.08, 0.2, 1.0)),
    (2.0, Diagram(0.7, 0.05, 0.4, 1.0)), (1.5, Diagram(0.1, 0.1, 0.1, 1.0)),
])
def test_area_of_the_diagram_drawn_point_by_point(p1: float, d: Diagram) -> None:
    """Admission, expansion, exhaust and compression up to p1, summed by trapezoids."""
    pb, v = 1.1, np.linspace(0.0, 1.0, 200_001)
    forward = np.where(v < d.cut_off, p1, p1 * (d.cut_off + d.clearance) / (v + d.clearance))
    shut_in = pb * (d.compression + d.clearance) / (v + d.clearance)
    back = np.where(v > d.compression, pb, np.minimum(shut_in, p1))
    area = float(np.trapezoid(forward - back, v))
    assert engine.mean_effective_pressure(p1 * BAR, pb * BAR, d) / BAR == pytest.approx(
        area, abs=2e-5)


def test_compression_up_to_the_stop_valve_gives_the_clearance_its_steam_back() -> None:
    """Shut in at pb (x + c)/c = p1, the clearance needs none: e is taken, as without clearance."""
    c, p1, pb = 0.05, 4 * BAR, BAR
    filled = Diagram(0.5, c, c * (p1 / pb - 1.0), 1.0)
    assert engine.accounted_steam(p1, pb, 2.0, filled, SMALL) == pytest.approx(
        2.0 * SMALL * 0.5)


def test_steam_shut_in_is_steam_not_let_out() -> None:
    """What is taken is what the exhaust lets go: at release less at closing, on p V = constant."""
    d, p1, pb, rho = Diagram(0.6, 0.1, 0.15, 0.8), 5 * BAR, 1.2 * BAR, 2.7
    release = rho * (p1 * 0.7 / 1.1) / p1 * 1.1
    shut_in = rho * pb / p1 * 0.25
    assert engine.accounted_steam(p1, pb, rho, d, SMALL) == pytest.approx(
        SMALL * (release - shut_in))


def test_ends_of_a_cylinder() -> None:
    one = engine.swept_volume(0.1, 0.12, 0.02, False)
    assert one == pytest.approx(math.pi / 4 * 0.01 * 0.12)
    assert engine.swept_volume(0.1, 0.12, 0.0, True) == pytest.approx(2 * one)
    assert engine.swept_volume(0.1, 0.12, 0.02, True) == pytest.approx(1.96 * one)


def flow_and_power(p1: float, speed: float = 5.0) -> tuple[float, float]:
    d = Diagram(0.6, 0.1, 0.1, 0.75)
    mep = engine.mean_effective_pressure(p1, 1.1 * BAR, d)
    return (engine.steam_flow(p1, 1.1 * BAR, p1 * 5e-6, d, SMALL, speed, 0.25),
            engine.indicated_power(mep, SMALL, speed))


def test_no_pressure_no_flow_and_no_power() -> None:
    for p1 in (0.0, 0.5 * BAR, 1.1 * BAR, 1.15 * BAR):
        assert flow_and_power(p1) == (0.0, 0.0)
    assert flow_and_power(6 * BAR, 0.0) == (0.0, 0.0)
    assert min(flow_and_power(6 * BAR)) > 0.0


def test_it_starts_without_a_jump() -> None:
    """From standing to turning in steps of 10 Pa: no step and no corner in flow or power."""
    p = np.arange(1.0 * BAR, 2.2 * BAR, 10.0)
    for column in np.array([flow_and_power(float(one)) for one in p]).T:
        slope = np.diff(column) / 10.0
        assert np.all(slope >= -1e-15)
        assert np.abs(np.diff(slope)).max() < 2e-3 * slope.max()


@settings(max_examples=200, deadline=None, derandomize=True)
@given(p1=st.floats(-1e6, 1e8), pb=st.floats(-1e6, 1e8), rho=st.floats(0.0, 1e3), e=SHARE, c=SHARE,
       x=SHARE, speed=st.floats(-10.0, 1e3), missing=st.floats(-1.0, 2.0))
def test_any_numbers(p1: float, pb: float, rho: float, e: float, c: float, x: float, speed: float,
                     missing: float) -> None:
    d = Diagram(e, c, x, 0.75)
    mep = engine.mean_effective_pressure(p1, pb, d)
    flow = engine.steam_flow(p1, pb, rho, d, SMALL, speed, missing)
    power = engine.indicated_power(mep, SMALL, speed)
    taken = engine.steam_taken(engine.accounted_steam(p1, pb, rho, d, SMALL), missing)
    end = engine.exhaust_enthalpy(2.6e6, taken, mep * SMALL * engine.turning_share(mep))
    rate = engine.steam_per_work(flow, power)
    assert all(math.isfinite(one) for one in (mep, flow, power, end, rate))
    assert flow >= 0.0
    assert power >= 0.0
    if p1 <= pb:
        assert flow == power == 0.0


def missing(p1: float = 6 * BAR, e: float = 0.6, bore: float = 0.05, rpm: float = 300.0,
            superheat: float = 0.0) -> float:
    return cylinder_condensation.missing_share(p1, 1.1 * BAR, e, bore, bore, rpm / 60.0, superheat)


def test_condensation_goes_the_right_ways() -> None:
    """More in small, slow, early cut-off cylinders; less with superheat, none with 120 K of it."""
    assert missing() > missing(bore=0.1) > missing(bore=0.3)
    assert missing() > missing(rpm=600.0)
    assert missing() < missing(e=0.3)
    assert missing() > missing(superheat=40.0) > missing(superheat=80.0)
    assert missing(superheat=120.0) == 0.0
    assert missing(p1=BAR) == 0.0


def test_heck_worked_by_hand() -> None:
    """12 x 12 in, 200 1/min, 100 psia to 15, cut-off 1/4: 0.27/5.848 (6 (276 - 210)/25)^0.5."""
    psi, inch = 6894.757, 0.0254
    found = cylinder_condensation.missing_share(100 * psi, 15 * psi, 0.25, 12 * inch, 12 * inch,
                                                200 / 60, 0.0)
    assert found == pytest.approx(0.27 / 5.848 * math.sqrt(6 * 66 / 25), rel=0.02)


@pytest.mark.parametrize(("bore", "stroke", "rpm", "e", "p1"), [
    (0.025, 0.025, 600.0, 0.75, 4.0), (0.05, 0.05, 300.0, 0.6, 6.0), (0.1, 0.12, 250.0, 0.4, 8.0),
    (0.4, 0.9, 90.0, 0.25, 7.0),
])
def test_condensation_is_less_than_iron_could_take(bore: float, stroke: float, rpm: float, e: float,
                                                   p1: float) -> None:
    """Were the walls' faces as hot as the steam all the time, swinging as a sine between exhaust
    and admission, a stroke would put 2 swing (k rho c/omega)^0.5 into each area (heat wave into a
    thick body, Carslaw and Jaeger); iron 52 W/(m K), 7200 kg/m3, 460 J/(kg K), from memory."""
    T1, T2 = (steam.saturation_temperature(p * BAR) for p in (p1, 1.1))
    swing, omega = (T1 - T2) / 2, 2 * math.pi * rpm / 60
    wall = math.pi * bore * (bore / 2 + stroke * e)
    heat = 2 * swing * math.sqrt(52.0 * 7200.0 * 460.0 / omega) * wall
    water = heat / steam.evaporation_heat(T1)
    dry = math.pi / 4 * bore**2 * stroke * e * steam.vapour_density(T1)
    found = cylinder_condensation.missing_share(p1 * BAR, 1.1 * BAR, e, bore, stroke, rpm / 60, 0.0)
    assert 0.1 < found < water / (water + dry)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(p1=st.floats(-1e6, 1e8), pb=st.floats(-1e6, 1e8), e=SHARE, bore=st.floats(0.0, 1.0),
       speed=st.floats(0.0, 1e3), superheat=st.floats(-500.0, 2e3))
def test_a_share_whatever_comes(p1: float, pb: float, e: float, bore: float, speed: float,
                                superheat: float) -> None:
    found = cylinder_condensation.missing_share(p1, pb, e, bore, bore, speed, superheat)
    assert 0.0 <= found <= 0.8


def test_superheat_takes_it_off_without_a_corner() -> None:
    degrees = np.arange(-10.0, 200.0, 0.05)
    slope = np.diff([missing(superheat=float(one)) for one in degrees])
    assert all(abs(b - a) < 0.02 * abs(slope).max() for a, b in pairwise(slope))


@settings(max_examples=100, deadline=None, derandomize=True)
@given(p1=st.floats(-1e6, 2e7), T1=st.floats(0.0, 1300.0), dryness=st.floats(-1.0, 2.0),
       pb=st.floats(-1e6, 2e7))
def test_an_ideal_engine_whatever_comes(p1: float, T1: float, dryness: float, pb: float) -> None:
    work = rankine.ideal_work(p1, T1, dryness, pb)
    assert 0.0 <= work < 3e6
    if p1 <= pb:
        assert work < 1e-3
    assert math.isfinite(rankine.ideal_steam_rate(p1, T1, dryness, pb))
