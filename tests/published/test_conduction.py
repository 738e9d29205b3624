"""Heat through round layers against worked examples."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import ht
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rows import Law, cases

from thermsim.physics import conduction as law

BTU_HOUR_FOOT_F = 1.730735
"""1 Btu/(h ft F) in W/(m K)"""


def tube(ri: float, t: float, k: float, h: float) -> float:
    """Resistance of insulation and its outside film [m K/W]."""
    film = 1.0 / (h * 2.0 * math.pi * (ri + t))
    return film + (1.0 / law.cylinder_layer_conductance(k, 1.0, ri, ri + t) if t > 0 else 0.0)


def two_layers(D1_in: float, D2_in: float, D3_in: float, k1: float, k2: float, T1_F: float,
               T3_F: float) -> float:
    """Heat through two layers round a pipe [Btu/(h ft)]."""
    inner, outer = (law.cylinder_layer_conductance(k, 1.0, a, b)
                    for k, a, b in ((k1, D1_in, D2_in), (k2, D2_in, D3_in)))
    return law.in_series(inner, outer) * (T1_F - T3_F)


def chip(q: float, h: float, Rc: float, L: float, k: float, Tinf_C: float) -> float:
    """Chip on a block by a joint, air over both [C]; a metre square."""
    block = law.in_series(law.plane_conductance(k, 1.0, L), h)
    return Tinf_C + q / (h + law.in_series(law.contact_conductance(1.0 / Rc, 1.0), block))


LAWS: dict[str, Law] = {"K-3.5-": tube, "K-theo76": two_layers, "K-3.2": chip}


@pytest.mark.parametrize("case", cases("conduction", LAWS))
def test_conduction(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


def test_critical_radius(compared: Callable[..., None]) -> None:
    """Incropera 6e Ex. 3.5: thinner or thicker than k/h = 11 mm lets less heat out."""
    best = min(range(1, 300), key=lambda n: tube(0.005, n * 5e-5, 0.055, 5.0))
    compared("conduction", "Incropera 6e Ex. 3.5", 0.005 + best * 5e-5, 0.011, 0.005)


@settings(max_examples=60, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(k=st.floats(0.03, 60.0), r=st.floats(0.005, 0.3), ratio=st.floats(1.05, 3.0))
def test_beside_ht(k: float, r: float, ratio: float, compared: Callable[..., None]) -> None:
    compared("conduction", "ht", 1.0 / law.cylinder_layer_conductance(k, 1.0, r, r * ratio),
             ht.R_cylinder(2 * r, 2 * r * ratio, k, 1.0), 1e-9)
