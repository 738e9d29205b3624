"""An axis of a batch: the values of one thing that is varied, as text and as numbers."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from thermsim.batches.declared import BY_RATIO
from thermsim.errors import Problem

MOST_VALUES = 10_000
FIGURES = 10
"""figures of a value between two ends, so that 0.1 + 0.2 is written 0.3"""
DRAWN_FIGURES = 4
"""of a drawn one: more than a tape measure tells"""
_NUMBER = re.compile(r"([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)", re.DOTALL)
_SIGNS = {"%": "percent", "/": "_per_", "2": "2", "(": "_", ")": "", " ": "_"}
Say = Callable[[str, str, str], Problem]
"""a problem from (key, what was found, what is allowed)"""


@dataclass(frozen=True)
class Axis:
    """Things that take the same value together, and its values as they stand in a scenario.

    numbers: the values in `unit`, None where they are words. ends: of a range, else None.
    """

    fields: tuple[str, ...]
    values: tuple[str, ...]
    unit: str
    numbers: tuple[float, ...] | None
    ends: tuple[float, float] | None = None
    by_ratio: bool = False

    @property
    def column(self) -> str:
        """Header of its column: name_unit.

        >>> Axis(("drum.gap",), ("20 mm",), "mm", (20.0,)).column
        'drum_gap_mm'
        """
        name = self.fields[0].replace(".", "_").replace(" ", "_")
        unit = "".join(_SIGNS.get(sign, sign) for sign in self.unit)
        return f"{name}_{unit}" if unit else name

    @property
    def words(self) -> str:
        """What varies, for people: a field, or what the names of several differ in.

        >>> Axis(("casing.left.width", "casing.right.width"), ("1 mm",), "mm", (1.0,)).words
        'casing left and right width'
        """
        paths = [re.split(r"[. ]", field.replace("_", " ")) for field in self.fields]
        first, least = paths[0], min(map(len, paths)) - 1
        if len(paths) == 1:
            return " ".join(first)
        front = next((k for k in range(least) if len({path[k] for path in paths}) > 1), least)
        back = next((k for k in range(least - front) if len({path[-1 - k] for path in paths}) > 1),
                    least - front)
        middles = [" ".join(path[front:len(path) - back]) for path in paths]
        told = f"{', '.join(middles[:-1])} and {middles[-1]}"
        return " ".join([*first[:front], told, *first[len(first) - back:]])

    def text(self, number: float, figures: int = FIGURES) -> str:
        """A number of this axis as it would be written."""
        return f"{number:.{figures}g} {self.unit}".strip()

    def at(self, share: float) -> str:
        """The value at a share of the way along, 0 to 1: between the ends, or one of the values."""
        if self.ends is None:
            return self.values[min(int(share * len(self.values)), len(self.values) - 1)]
        low, high = self.ends
        if self.by_ratio:
            return self.text(low * (high / low) ** share, DRAWN_FIGURES)
        return self.text(low + share * (high - low), DRAWN_FIGURES)


def split_number(text: str) -> tuple[str, str] | None:
    """Number and unit of a plain quantity, None for anything else.

    >>> split_number("12.5 mm"), split_number("drops shut")
    (('12.5', 'mm'), None)
    """
    found = _NUMBER.fullmatch(text.strip())
    if found is None or any(sign.isdigit() for sign in found[2].replace("2", "").replace("3", "")):
        return None
    return found[1], found[2].strip()


def make_axis(given: Any, say: Say, drawn: bool) -> Axis | None:
    """The axis that is written, or None with the problems said. drawn: only the ends count."""
    fields = tuple(given["field"])
    if given["values"]:
        for key in ("from", "to", "count", "step"):
            if given[key] is not None:
                say(key, "both values and a range are written", "write one of them")
                return None
        return of_values(fields, tuple(given["values"]))
    return _of_range(fields, given, say, drawn)


def of_values(fields: tuple[str, ...], values: tuple[str, ...]) -> Axis:
    """An axis of listed values; numbers only where all have the same unit."""
    split = [split_number(value) for value in values]
    units = {pair[1] for pair in split if pair is not None}
    if None in split or len(units) != 1:
        return Axis(fields, values, "", None)
    numbers = tuple(float(pair[0]) for pair in split if pair is not None)
    return Axis(fields, values, units.pop(), numbers)


def _of_range(fields: tuple[str, ...], given: Any, say: Say, drawn: bool) -> Axis | None:
    ends = []
    for key in ("from", "to"):
        pair = split_number(given[key] or "")
        if pair is None:
            say(key, f"'{given[key] or ''}' is no number with a unit",
                "write values, or from and to, each as 20 mm")
            return None
        ends.append(pair)
    (low, unit), (high, other) = ends
    if unit != other:
        say("to", f"'{given['to']}' has another unit than '{given['from']}'",
            "write both in the same unit")
        return None
    first, last = Fraction(low), Fraction(high)
    by_ratio = given["spacing"] == BY_RATIO
    if by_ratio and first * last <= 0:
        say("spacing", "ratios of values that are not above zero", f"write '{'even'}'")
        return None
    numbers = (() if drawn else _numbers(given, first, last, unit, by_ratio, say))
    if numbers is None:
        return None
    axis = Axis(fields, (), unit, None, (float(first), float(last)), by_ratio)
    values = tuple(axis.text(number) for number in numbers)
    exact = tuple(float((split_number(value) or ("nan", ""))[0]) for value in values)
    return Axis(fields, values, unit, exact, axis.ends, by_ratio)


def _numbers(given: Any, first: Fraction, last: Fraction, unit: str, by_ratio: bool,
             say: Say) -> tuple[float, ...] | None:
    """The values of a range, both ends among them."""
    count, step = given["count"], given["step"]
    if (count is None) == (step is None):
        say("count", "neither count nor step is written" if count is None
            else "both count and step are written", "write one of them")
        return None
    if step is None:
        shares = [Fraction(k, count - 1) for k in range(count)]
        if by_ratio:
            return tuple(float(first) * float(last / first) ** float(share) for share in shares)
        return tuple(float(first + share * (last - first)) for share in shares)
    pair = split_number(step)
    if pair is None or pair[1] != unit or Fraction(pair[0]) <= 0 or by_ratio:
        say("step", f"'{step}' is no distance in the unit of the range"
            if not by_ratio else "a step between equal ratios", "write it as 5 mm, or a count")
        return None
    size = Fraction(pair[0])
    steps = int(abs(last - first) / size)
    if steps >= MOST_VALUES:
        say("step", f"gives {steps + 1} values", f"no more than {MOST_VALUES}")
        return None
    way = 1 if last >= first else -1
    return tuple(float(first + way * size * k) for k in range(steps + 1))
