"""What a key or column means: its unit, its words, and its number as a person writes it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from thermsim.results.moments import spell
from thermsim.results.words import NUMBERS

NESTED = ("peak_temperature_C", "outside_surface_peak_C", "smoke_by_opening_g", "flow_turned_s",
          "out_of_range_s", "feed_shut_out_s", "tube_wall_peak_C", "tube_wall_limit_C",
          "tube_over_limit_s", "tube_over_limit_idle_s")
"""answers that hold one figure for each place; tables join the place with an underscore"""
SHARE = "share"
SHARES = ("_share", "_fraction", "_share_of_fuel", "ledger_error")
UNITS = ("kg_per_kWh", "kg_per_h", "bar_per_h", "percent_per_h", "g_per_s", "bar_gauge", "Pa", "K",
        "kg", "mm", "J", "W", "C", "g", "s", "m", "l")
"""as keys end with them, the longer first"""
SPELT = {"kg_per_h": "kg/h", "g_per_s": "g/s", "bar_gauge": "bar(g)",
         "kg_per_kWh": "kg/kWh", "bar_per_h": "bar/h", "percent_per_h": "%/h"}
STEPS: Mapping[str, tuple[tuple[float, float, str], ...]] = {
    "J": ((1e6, 1e-6, "MJ"), (1e3, 1e-3, "kJ"), (0.0, 1.0, "J")),
    "W": ((1e3, 1e-3, "kW"), (0.0, 1.0, "W")),
}
"""unit: (from this size on, factor, unit shown)"""
WORDS = {key: says for says, key, _, _ in NUMBERS}
NEVER = "did not happen"
NOT_THERE = "not there"
SPELT_FROM_S = 60.0
LARGEST_RATIO = 1000.0
MOST_NAMED = 6
"""columns or cases named in a sentence"""
PER_CENT, FIGURES = 100.0, 4
WHOLE_FROM = 10.0**FIGURES
ROUND_C = 1


def split_key(key: str) -> tuple[str, str]:
    """An answer and its place, of a key with a dot or of a column with an underscore.

    >>> split_key("peak_temperature_C.char_bed"), split_key("flow_turned_s_feed")
    (('peak_temperature_C', 'char_bed'), ('flow_turned_s', 'feed'))
    """
    for answer in NESTED:
        if key.startswith((f"{answer}.", f"{answer}_")):
            return answer, key[len(answer) + 1:]
    return key, ""


def unit_of(key: str) -> str:
    """The unit of an answer or a column, as keys spell it; empty where there is none.

    >>> unit_of("time_to_boil_s"), unit_of("steam_kg_per_h"), unit_of("air_ratio_mean")
    ('s', 'kg_per_h', '')
    >>> unit_of("peak_temperature_C_stub"), unit_of("water_heat_share")
    ('C', 'share')
    """
    answer, _ = split_key(key)
    if answer.endswith(SHARES) or answer.startswith("open_"):
        return SHARE
    return next((unit for unit in UNITS if answer.endswith(f"_{unit}")), "")


def in_words(key: str) -> str:
    """A key as a person says it.

    >>> in_words("time_to_boil_s"), in_words("peak_temperature_C.char_bed")
    ('time to boil', 'peak temperature, char bed')
    """
    answer, place = split_key(key)
    unit = unit_of(key)
    plain = answer.removesuffix(f"_{unit}") if unit != SHARE else answer
    says = WORDS.get(answer, plain.replace("_", " "))
    return f"{says}, {place.replace('_', ' ')}" if place else says


def shown_unit(unit: str) -> str:
    """The unit as it stands in a text table."""
    return SPELT.get(unit, unit)


def some(names: Sequence[str], between: str = ", ") -> str:
    """The first few names, and how many more there are."""
    more = len(names) - MOST_NAMED
    told = between.join(names[:MOST_NAMED])
    return f"{told} and {more} more" if more > 0 else told


def is_number(value: Any) -> bool:
    """A finite number that is no yes or no."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def shown(value: Any, unit: str) -> str:
    """A value for people.

    >>> shown(1860.9, "s"), shown(0.3197, "share"), shown(31785862.0, "J"), shown(None, "s")
    ('31 min 1 s', '31.97 %', '31.79 MJ', 'did not happen')
    """
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return NEVER
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not is_number(value):
        return str(value)
    if unit == "s":
        return spell(value) if value >= SPELT_FROM_S else f"{figures(value)} s"
    if unit == SHARE:
        return f"{figures(PER_CENT * value)} %"
    if unit == "C":
        return f"{value:.{ROUND_C}f} C"
    return _scaled(value, unit)


def shown_difference(value: float | None, unit: str) -> str:
    """A difference with its sign; of temperatures in K, of shares in points of a hundred.

    >>> shown_difference(-12.25, "C"), shown_difference(0.02, "share"), shown_difference(75.0, "s")
    ('-12.25 K', '+2 points', '+1 min 15 s')
    """
    if value is None:
        return ""
    sign = "-" if value < 0.0 else "+"
    size = abs(value)
    if unit == SHARE:
        return f"{sign}{figures(PER_CENT * size)} points"
    if unit == "C":
        return f"{sign}{figures(size)} K"
    if unit == "s":
        return f"{sign}{shown(size, unit)}"
    return f"{sign}{_scaled(size, unit)}"


def shown_ratio(ratio: float | None) -> str:
    """A ratio, 'x 1.25'; none where it says nothing: of other sign, or to next to nothing."""
    if ratio is None or not 1.0 / LARGEST_RATIO <= ratio <= LARGEST_RATIO:
        return ""
    return f"x {figures(ratio)}"


def figures(number: float) -> str:
    """Four figures, an exponent only where a person would write one."""
    if WHOLE_FROM <= abs(number) < 1e15:
        return f"{number:.0f}"
    return f"{number + 0.0:.{FIGURES}g}"


def _scaled(value: float, unit: str) -> str:
    for least, factor, name in STEPS.get(unit, ()):
        if abs(value) >= least:
            return f"{figures(factor * value)} {name}"
    return f"{figures(value)} {shown_unit(unit)}".strip()
