"""Feed pipes beside a general library of fluid flow."""

from __future__ import annotations

import math
from collections.abc import Callable

import fluids
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from thermsim.physics import feed as law

Compared = Callable[[str, str, float, float, float], None]
drawn = settings(max_examples=80, deadline=None, derandomize=True,
                 suppress_health_check=[HealthCheck.function_scoped_fixture])
FLUIDS = f"fluids {fluids.__version__}"
RHO, MU = 998.2, 1.002e-3  # water at 20 C, IAPWS


def drop_of_flow(m: float, bore: float, length: float, losses: float, rough: float) -> float:
    """By the library: laminar or Colebrook, and dynamic pressures."""
    speed = m / (RHO * 0.25 * math.pi * bore**2)
    friction = fluids.one_phase_dP(m=m, rho=RHO, mu=MU, D=bore, roughness=rough * bore, L=length)
    return float(friction + losses * RHO * speed**2 / 2)


def flow(drop: float, bore: float, length: float, losses: float) -> float:
    return law.water_flow(drop, law.pipe_slow(bore, length, RHO, MU),
                          law.pipe_fast(bore, length, losses, RHO))


@drawn
@given(Re=some.floats(math.log(4200.0), math.log(1e5)).map(math.exp),
       rough=some.floats(0.001, 0.004), bore=some.floats(0.006, 0.03),
       length=some.floats(1.0, 15.0), losses=some.floats(0.0, 10.0))
def test_turbulent_flow_in_a_feed_pipe(Re: float, rough: float, bore: float, length: float,
                                       losses: float, compared: Compared) -> None:
    """Flow goes with the root of friction: 20 % of that are 10 % of flow."""
    m = 0.25 * math.pi * bore * MU * Re
    drop = drop_of_flow(m, bore, length, losses, rough)
    compared("feed", FLUIDS, flow(drop, bore, length, losses), m, 0.1)


@drawn
@given(Re=some.floats(math.log(20.0), math.log(500.0)).map(math.exp),
       bore=some.floats(0.006, 0.02), length=some.floats(1.0, 15.0))
def test_laminar_flow_in_a_feed_pipe(Re: float, bore: float, length: float,
                                     compared: Compared) -> None:
    """At Re 500 the turbulent part already takes a fifth of the drop: on the low side."""
    m = 0.25 * math.pi * bore * MU * Re
    drop = drop_of_flow(m, bore, length, 0.0, 0.002)
    if drop < 50.0:  # the straight line near no drop
        return
    compared("feed", FLUIDS, flow(drop, bore, length, 0.0), m, 0.2)
