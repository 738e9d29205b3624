"""One line of a file of readings: its cells, each read or told what is wrong with it."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from thermsim.csv_cells import Cell
from thermsim.dimensions import DIMENSIONS
from thermsim.errors import Problem, QuantityError
from thermsim.network.firing import nearest
from thermsim.readings.finishes import FINISHES, Emissivity, emissivity_of
from thermsim.readings.instruments import INSTRUMENTS, OTHER_NAMES
from thermsim.readings.known import Known
from thermsim.readings.times import Zero, span
from thermsim.units import Quantity, parse_quantity

ZERO_C = 273.15
_BARE = re.compile(r"[+-]?[\d.]+(?:[eE][+-]?\d+)?")
RATIO = re.compile(r"(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)")
DEGREES = {"C": "K", "deg C": "K", "degC": "K", "F": "F difference", "deg F": "F difference",
           "degF": "F difference", "": "K"}
"""unit of a difference by that of a temperature"""


class Refused(Exception):
    """A cell of this line cannot be used; its problem is entered."""


@dataclass
class Row:
    """A line; `problems` holds what is wrong with it."""

    file: str
    number: int
    cells: Mapping[str, Cell]
    known: Known
    zero: Zero
    seen: Counter[str]
    problems: list[Problem] = field(default_factory=list)

    def text(self, name: str) -> str:
        """What stands in a column; empty where the file has no such column."""
        cell = self.cells.get(name)
        return " ".join(cell.text.split()) if cell else ""

    def bad(self, name: str, found: str, allowed: str) -> Refused:
        """Enter a problem at a cell."""
        cell = self.cells.get(name)
        self.problems.append(Problem(self.file, self.number, cell.column if cell else 1, name,
                                     found, allowed))
        return Refused()

    def refuse(self, name: str, error: QuantityError) -> Refused:
        """Enter an error at a cell."""
        return self.bad(name, error.found, error.allowed)

    def span(self) -> tuple[float | None, float]:
        """Beginning, if it is an interval, and end from lighting [s]."""
        try:
            return span(self.text("time"), self.zero)
        except QuantityError as error:
            raise self.refuse("time", error) from error

    def quantity(self, kind: str, unit: str | None = None) -> Quantity:
        """The reading with its unit, in SI; unit: instead of that in the file."""
        text, named = self.text("reading"), self.text("unit") if unit is None else unit
        if named and self._own_unit(text):
            raise self.bad("unit", f"a unit stands in '{text}' already", "one of the two")
        if named and named not in DIMENSIONS[kind].units:
            shown = ", ".join(DIMENSIONS[kind].shown)
            hint = DIMENSIONS[kind].hints.get(named)
            raise self.bad("unit", f"'{named}' is no unit of it", hint or f"allowed: {shown}")
        try:
            return parse_quantity(f"{text} {named}".strip(), kind)
        except QuantityError as error:
            raise self.refuse("reading", error) from error

    @staticmethod
    def _own_unit(text: str) -> bool:
        """Whether a unit stands behind the number."""
        return bool(re.search(r"\d.*[A-Za-z%\"')]$", text))

    def instrument(self, default: str, allowed: tuple[str, ...]) -> tuple[str, str]:
        """Name of the instrument, and what stands behind it (a scale, a slope)."""
        written = self.text("instrument").lower()
        if not written:
            return default, ""
        names = sorted([*INSTRUMENTS, *OTHER_NAMES], key=len, reverse=True)
        found = next((name for name in names if written == name
                      or written.startswith(f"{name} ")), None)
        if found is None:
            raise self.bad("instrument", f"no instrument is called '{written}'",
                           nearest(written.replace(" ", "_"),
                                   [name.replace(" ", "_") for name in INSTRUMENTS])
                           .replace("_", " "))
        name = OTHER_NAMES.get(found, found)
        if name not in (*allowed, "other"):
            raise self.bad("instrument", f"a {name} does not read that",
                           f"one of: {', '.join(allowed)}, other")
        return name, written.removeprefix(found).strip()

    def own_doubt(self, kind: str, value: float, factor: float, written: Quantity | None
                  ) -> float | None:
        """Standard uncertainty that the person wrote, in the unit of the comparison.

        In its column, with the reading's unit, with one of its own, or in %; or behind +- in the
        reading. factor: units of the comparison in one SI unit.
        """
        text = self.text("uncertainty")
        if not text:
            if written is not None and written.doubtful:
                return 0.5 * (written.high - written.low) * factor
            return None
        if text.endswith("%") and kind not in ("share", "temperature"):
            return abs(value) * self.plain_number("uncertainty", text[:-1]) / 100.0
        unit = self.text("unit")
        if kind == "temperature":
            kind = "temperature_difference"
            text, unit = re.sub(r"\s*(deg )?C$", " K", text), DEGREES.get(unit, unit)
        elif kind == "pressure_gauge":
            kind, unit = "pressure_difference", re.sub(r"\(g\)$|g$", "", unit)
        if _BARE.fullmatch(text) and kind != "share":
            text = f"{text} {unit}"
        try:
            size = parse_quantity(text, kind).value * factor
        except QuantityError as error:
            raise self.refuse("uncertainty", error) from error
        if not size > 0.0:
            raise self.bad("uncertainty", f"'{text}' is none", "more than 0")
        return size

    def plain_number(self, name: str, text: str) -> float:
        """A bare number of a cell."""
        try:
            return parse_quantity(text.strip(), "number").value
        except QuantityError as error:
            raise self.refuse(name, error) from error

    def optional(self, name: str, kind: str) -> Quantity | None:
        """A quantity of an optional column."""
        text = self.text(name)
        if not text:
            return None
        try:
            return parse_quantity(text, kind)
        except QuantityError as error:
            raise self.refuse(name, error) from error

    def emissivity(self, default: Emissivity) -> Emissivity:
        """The true emissivity: a number, with its doubt, or a finish by name."""
        text = self.text("emissivity").lower()
        if not text:
            return default
        if text in FINISHES:
            return emissivity_of(text)
        if text[0].isalpha() and not text.startswith("about"):
            raise self.bad("emissivity", f"no finish is called '{text}'",
                           "a number, as 0.9 +- 0.03, or one of: " + ", ".join(FINISHES))
        found = self.optional("emissivity", "share")
        assert found is not None
        if found.low <= 0.0 or found.high > 1.0:
            raise self.bad("emissivity", f"'{text}' is no emissivity", "over 0, at most 1")
        half = 0.5 * (found.high - found.low)
        return Emissivity(found.value, half, "as written")

    def spot_size(self) -> float | None:
        """Diameter of the spot [m]: as written, or by distance and a ratio as 12:1."""
        text = self.text("spot_size")
        distance = self.optional("distance", "length")
        ratio = RATIO.fullmatch(text)
        if not ratio:
            size = self.optional("spot_size", "length")
            if size is None and distance is not None:
                raise self.bad("distance", "says nothing without the spot's size",
                               "spot_size as 12:1, distance to spot, or as 25 mm at that distance")
            value = None if size is None else size.value
        elif distance is None:
            raise self.bad("spot_size", f"'{text}' needs the distance", "distance as 300 mm")
        else:
            value = distance.value * float(ratio[2]) / max(float(ratio[1]), 1e-9)
        if value is not None and not (math.isfinite(value) and value > 0.0):
            raise self.bad("spot_size", f"'{text}' is no size", "more than 0")
        return value
