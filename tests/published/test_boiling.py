"""Boiling: nucleate films and the critical flux against handbook examples."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import ht
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rows import Allowed, Law, cases

from thermsim.physics import boiling as law

P_CRITICAL, M_WATER = 22.064e6, 18.015268
T_BOIL = 373.12


def cooper(**given: Any) -> float:
    """Film of nucleate boiling [W/(m2 K)], by the excess or by the flux."""
    p = given.get("P", given.get("p"))
    if "Te" in given:
        return law.nucleate_flux(float(given["Te"]), p) / float(given["Te"])
    low, high = 0.1, 50.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (low, middle) if law.nucleate_flux(middle, p) > given["q"] else (middle, high)
    return float(given["q"]) / low


LAWS: dict[str, Law | Allowed] = {
    "B-coop": Allowed(cooper, 2e-3, "the row has six digits, exponents 0.67 and 0.33 are rounded"),
    "B-10.1c": Allowed(lambda **_: law.critical_flux(T_BOIL) / 1e6, 0.008,
                       "the row's 1.26 is rounded, the fit good to 0.4 %"),
}


@pytest.mark.parametrize("case", cases("boiling", LAWS))
def test_boiling(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@settings(max_examples=60, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(excess=st.floats(1.0, 25.0), p=st.floats(0.5e5, 20e5))
def test_cooper_beside_ht(excess: float, p: float, compared: Callable[..., None]) -> None:
    found = ht.boiling_nucleic.Cooper(Te=excess, P=p, Pc=P_CRITICAL, MW=M_WATER, Rp=1e-6)
    compared("boiling", "ht", law.nucleate_flux(excess, p) / excess, found, 2e-3)
