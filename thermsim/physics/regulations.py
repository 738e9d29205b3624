"""Which rules a steam raiser falls under: for orientation, so that the right people are asked.

No legal advice and no classification: that is the authority's and the inspector's.
"""

from __future__ import annotations

from typing import NamedTuple

from thermsim.physics.constants import ZERO_CELSIUS

BAR, LITRE = 1e5, 1e-3
APPLIES_OVER = 0.5 * BAR
HOT = ZERO_CELSIUS + 110.0
SMALLEST = 2.0 * LITRE
LIMITS = ((50.0, "I"), (200.0, "II"), (3000.0, "III"))
"""PS V [bar L] up to which a category goes"""
HIGHEST_PRESSURE, LARGEST = 32.0 * BAR, 1000.0 * LITRE
SOURCE = "Directive 2014/68/EU, article 4 and annex II table 5, from memory"
ASK = ("Whether it may be built and fired, and under which rules, ask the authority where you "
       "live and an inspector for pressure equipment.")


class Orientation(NamedTuple):
    """category: None where the table does not apply; statement: ends with whom to ask."""

    category: str | None
    statement: str


def pressure_category(pressure: float, volume: float, T: float) -> Orientation:
    """Give the likely European category of a fired steam generator.

    pressure: the highest allowed, gauge [Pa] (the safety valve's set pressure); volume of the
    drum and all that is under its pressure [m3]; T: highest of the water or steam [K].
    By PS V: up to 50 bar L I, 200 II, 3000 III, above IV; IV over 32 bar or 1000 L; up to 2 L and
    0.5 bar no category. Source: see `SOURCE`. Other countries have other rules.

    >>> pressure_category(4e5, 0.015, 425.0).category  # 60 bar L
    'II'
    """
    bar, litres = pressure / BAR, volume / LITRE
    size = f"{bar:.3g} bar and {litres:.3g} L"
    if pressure <= APPLIES_OVER:
        said = (f"With {size} it stays within 0.5 bar, under which the European pressure equipment "
                "directive does not apply; national rules may, and a drum whose vent is blocked is "
                "under pressure all the same.")
        return Orientation(None, f"{said} {ASK}")
    if T <= HOT:
        said = (f"With {size} and up to 110 C it is no steam generator of table 5 of the European "
                "directive; other tables, or national rules, apply.")
        return Orientation(None, f"{said} {ASK}")
    if volume <= SMALLEST:
        said = (f"With {size} it is a fired steam generator of no more than 2 L: sound engineering "
                "practice is asked of the maker, no category.")
        return Orientation(None, f"{said} {ASK}")
    product = bar * litres
    category = next((name for most, name in LIMITS if product <= most), "IV")
    if pressure > HIGHEST_PRESSURE or volume > LARGEST:
        category = "IV"
    said = (f"With {size} ({product:.0f} bar L) it would be a fired steam generator of category "
            f"{category} of the European directive ({SOURCE}): design, welding and tests then are "
            "judged from outside before it may be sold or put into service.")
    return Orientation(category, f"{said} {ASK}")
