"""Effectiveness of exchangers against textbook examples and formulas."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import ht
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rows import Law, cases

from thermsim.physics import exchangers as law


def steam_out(Cg: float, Cs: float, UA: float, Tgi: float, Tsi: float) -> float:
    """Steam leaving a counterflow coil in a flue [C]."""
    least = min(Cg, Cs)
    share = law.counterflow(UA / least, least / max(Cg, Cs))
    return Tsi + share * least * (Tgi - Tsi) / Cs


def oil_heater(U: float, A: float, m_oil: float, cp_oil: float, m_st: float,
               cp_st: float) -> float:
    oil, steam = m_oil * cp_oil, m_st * cp_st
    return law.cross_flow_larger_mixed(U * A / oil, oil / steam)


def oil_cooler(Ch: float, Cc: float, UA: float) -> float:
    return law.counterflow(UA / Ch, Ch / Cc)


LAWS: dict[str, Law] = {
    "effectiveness counterflow": lambda NTU, Cr: law.counterflow(float(NTU), float(Cr)),
    "effectiveness parallel flow": lambda NTU, Cr: law.parallel_flow(float(NTU), float(Cr)),
    "effectiveness, boiling": lambda NTU, Cr: law.boiling_side(float(NTU)),
    "N-boil": lambda NTU, Cr: law.boiling_side(float(NTU)),
    "N-xf": lambda NTU, Cr: law.cross_flow_unmixed(float(NTU), float(Cr)),
    "N-holm109": oil_heater,
    "N-11.1e": oil_cooler,
    "N-coil": steam_out,
}


@pytest.mark.parametrize("case", cases("exchangers", LAWS))
def test_exchangers(case: Any, held: Callable[[Any], None]) -> None:
    held(case)


@settings(max_examples=80, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(NTU=st.floats(0.01, 8.0), Cr=st.floats(0.01, 1.0))
def test_beside_ht(NTU: float, Cr: float, compared: Callable[..., None]) -> None:
    for ours, subtype in ((law.counterflow, "counterflow"), (law.parallel_flow, "parallel"),
                          (law.cross_flow_larger_mixed, "crossflow, mixed Cmax")):
        compared("exchangers", "ht", ours(NTU, Cr),
                 ht.hx.effectiveness_from_NTU(NTU, Cr, subtype=subtype), 1e-6)
    # Mason's series needs more terms than 40 only beyond NTU 10
    compared("exchangers", "ht", law.cross_flow_unmixed(NTU, Cr),
             ht.hx.effectiveness_from_NTU(NTU, Cr, subtype="crossflow"), 1e-5)
