"""Tables of readings as rows of text for a terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator

from thermsim.readings.held import Compared, Group, Held
from thermsim.readings.reading import AT_LEAST, AT_MOST, UNSURE
from thermsim.results.moments import spell

SIGNS = {AT_LEAST: "\u2265 ", AT_MOST: "\u2264 "}
HEADER = ("line", "time", "spot", "read", "corrected", "\u00b1", "model", "miss",
          "in uncertainties")
GROUP_HEADER = ("", "readings", "agree", "mean miss", "scatter", "mean in uncertainties",
                "root mean square")


def reading_lines(held: Held) -> Iterator[tuple[str, ...]]:
    """A header and a row a reading."""
    yield HEADER
    for row in held.rows:
        yield _line(row)


def _line(row: Compared) -> tuple[str, ...]:
    reading = row.reading
    if reading.quantity == "smoke":
        way = {AT_LEAST: "in", AT_MOST: "out", UNSURE: "unsure"}[reading.says]
        model = "" if row.met.value is None else f"{row.met.value:+.1f} g/s"
        return (str(reading.line), spell(reading.time), f"{reading.spot}, smoke", way, "", "",
                model, "", _signed(row) if row.counts else "")
    difference = "K" if reading.is_temperature else reading.unit
    sign = SIGNS.get(reading.says, "")
    changed = abs(reading.corrected - reading.value) > 0.05
    model = row.met.note if row.met.value is None else shown(row.met.value, reading.unit)
    miss = "" if row.miss is None else shown(row.miss, difference, "+")
    return (str(reading.line), spell(reading.time), reading.spot,
            sign + shown(reading.value, reading.unit),
            shown(reading.corrected, reading.unit) if changed else "",
            shown(reading.uncertainty, difference), model, miss, _signed(row))


def _signed(row: Compared) -> str:
    return f"{row.weighted + 0.0:+.1f}" + ("" if row.agrees else "  off")


def shown(value: float, unit: str, sign: str = "") -> str:
    """A number with its unit; degrees and grams whole.

    >>> shown(141.6, "C"), shown(-0.234, "bar(g)", "+"), shown(95.0, "s", "+")
    ('142 C', '-0.23 bar(g)', '+1 min 35 s')
    """
    if unit == "s":
        before = "-" if value < 0.0 else sign
        return before + spell(abs(value))
    if unit in ("C", "K"):
        digits = 1 if abs(value) < 10.0 else 0
        return f"{value:{sign}.{digits}f} {unit}"
    digits = 2 if abs(value) < 1.0 else 1 if abs(value) < 100.0 else 0
    return f"{value:{sign}.{digits}f} {unit}".strip()


def group_lines(groups: list[Group]) -> Iterator[tuple[str, ...]]:
    """A header and a row a group."""
    yield GROUP_HEADER
    for group in groups:
        known = not math.isnan(group.bias)
        yield (group.label, str(group.readings), str(group.agreeing),
               shown(group.bias, group.unit, "+") if known else "",
               shown(group.scatter, group.unit) if not math.isnan(group.scatter) else "",
               f"{group.bias_in_uncertainties + 0.0:+.1f}", f"{group.rms_in_uncertainties:.1f}")
