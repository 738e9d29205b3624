"""The test with cold water: how far over the working pressure, and what a passed test allows.

With water alone, no air left in: `stored_energy.cold_water_energy` says why. pressure [Pa gauge];
test_stress, design_stress: allowed at the test's temperature and in service [Pa].
"""

from __future__ import annotations

ASME_FACTOR, ASME_BOILER_FACTOR = 1.3, 1.5
"""UG-99(b) since 1999; PG-99 for power boilers"""
EN_FACTOR, EN_HOT_FACTOR = 1.43, 1.25
"""EN 13445-5 10.2.3.3; Directive 2014/68/EU annex I 7.4"""


def proof_asme(pressure: float, test_stress: float, design_stress: float) -> float:
    """Give the water test of a pressure vessel [Pa]: 1.3 P S_test/S_design.

    Source: ASME VIII-1 UG-99(b), from memory. The lowest ratio of all parts counts.

    >>> round(proof_asme(1e6, 118e6, 100e6) / 1e6, 3)
    1.534
    """
    return ASME_FACTOR * pressure * max(test_stress / design_stress, 1.0)


def proof_boiler(pressure: float) -> float:
    """Give the water test of a boiler [Pa]: 1.5 P. Source: ASME I PG-99.1, from memory.

    >>> proof_boiler(1e6)
    1500000.0
    """
    return ASME_BOILER_FACTOR * pressure


def proof_en(pressure: float, test_stress: float, design_stress: float) -> float:
    """Give the European water test [Pa]: the greater of 1.43 P and 1.25 P f_test/f_design.

    Source: EN 13445-5:2014 10.2.3.3.1, from memory.

    >>> [round(proof_en(1e6, f, 100e6) / 1e6, 3) for f in (100e6, 125e6)]
    [1.43, 1.562]
    """
    hot = EN_HOT_FACTOR * test_stress / design_stress
    return pressure * max(EN_FACTOR, hot)


def pressure_after_asme(test_pressure: float, test_stress: float, design_stress: float) -> float:
    """Give the working pressure that a passed test may stand for [Pa]; inverse, UG-99(b).

    Never more than what the plate is allowed by calculation: a test proves no thickness.
    Source: as `proof_asme`.

    >>> round(pressure_after_asme(1.534e6, 118e6, 100e6) / 1e6, 3)
    1.0
    """
    return test_pressure / proof_asme(1.0, test_stress, design_stress)


def pressure_after_en(test_pressure: float, test_stress: float, design_stress: float) -> float:
    """Give the working pressure that a passed European test may stand for [Pa]; inverse.

    Source: as `proof_en`.

    >>> round(pressure_after_en(1.43e6, 100e6, 100e6) / 1e6, 3)
    1.0
    """
    return test_pressure / proof_en(1.0, test_stress, design_stress)
