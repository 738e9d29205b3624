"""Readings held against a firing, in words: what agrees, what is off, what to read again."""

from __future__ import annotations

import math
import statistics

from thermsim.comparing.quantities import figures, some
from thermsim.readings.held import AGREES, MARK, Compared, Group, Held
from thermsim.readings.reading import AT_LEAST, UNSURE, Reading
from thermsim.results.moments import spell

APART = 3.0
"""uncertainties by which a reading stands apart from the others at its spot"""
ENOUGH = 3
"""readings at a spot from which on one can stand apart"""
DRIFT = 1.5
"""change of the mean miss from the first to the last window that is told, in uncertainties"""
LARGE_K = 4.0
"""uncertainty by the emissivity from which on it is told [K]"""
MOST_TOLD = 6
CAUTION = ("Caution: a reading is not worth a burn or a lungful. Steam is not seen close to the "
           "pipe and scalds, plates burn, carbon monoxide has no smell: keep doors of the shed "
           "open and an alarm at hand. A gauge under pressure is read from the side. Local codes "
           "and a licensed inspection decide about the vessel, not an agreement of readings.")
TOO = {"K": ("too hot", "too cold"), "C": ("too hot", "too cold"), "s": ("too late", "too soon")}


def tell(held: Held) -> list[str]:
    """The story of a comparison, a sentence or two a line."""
    lines = [_count(held), *_overall(held), *_agreeing(held), *_off(held), *_broken(held),
             *_drift(held), *_furthest(held), *_again(held), CAUTION]
    return [line for line in lines if line]


def _count(held: Held) -> str:
    unsure = sum(not row.counts for row in held.rows)
    parts = [_number(len(held.rows), "reading")]
    if unsure:
        parts.append(f"{unsure} of them unsure, which says nothing")
    if held.file.not_taken:
        parts.append(f"{_number(len(held.file.not_taken), 'more line')} not yet read")
    return f"{', '.join(parts)}: {held.file.path} beside {held.result.scenario.tree.title}."


def _number(count: int, what: str) -> str:
    """So many things.

    >>> _number(1, "reading"), _number(3, "reading")
    ('1 reading', '3 readings')
    """
    return f"{count} {what}{'' if count == 1 else 's'}"


def _overall(held: Held) -> list[str]:
    whole = held.all
    if not whole.readings:
        return []
    lines = [f"The model agrees with {whole.agreeing} of {whole.readings} within twice their "
             f"uncertainty; with a true model 19 of 20 would. Misses are "
             f"{whole.rms_in_uncertainties:.1f} uncertainties on the whole (root of mean square)."]
    warm = held.temperatures
    if warm is not None:
        scatter = "" if math.isnan(warm.scatter) else f", and scatter by {warm.scatter:.0f} K"
        rows = [row for row in held.rows if row.has_miss and row.reading.is_temperature]
        doubt = statistics.median(row.reading.uncertainty for row in rows)
        lines.append(f"Its temperatures are {_too(warm.bias, 'K')} on the mean of "
                     f"{warm.readings}{scatter}; the readings are sure to about {doubt:.0f} K.")
    return lines


def _agreeing(held: Held) -> list[str]:
    good = [group.label for group in held.by_spot if group.agreeing == group.readings
            and abs(group.bias_in_uncertainties) <= 1.0]
    return [f"Agrees: {some(good, '; ')}."] if good else []


def _off(held: Held) -> list[str]:
    """Spots whose readings together, or more than one in three of them, are off."""
    off = [group for group in held.by_spot if group.quantity != MARK and _is_off(group)]
    off.sort(key=lambda group: -abs(group.bias_in_uncertainties))
    lines = [_spot_off(group, held) for group in off[:MOST_TOLD]]
    if len(off) > MOST_TOLD:
        lines.append(f"Off, too: {some([group.label for group in off[MOST_TOLD:]], '; ')}.")
    return lines


def _is_off(group: Group) -> bool:
    few = group.agreeing < group.readings * 2.0 / 3.0
    return few or abs(group.bias_in_uncertainties) > AGREES / math.sqrt(group.readings) + 0.5


def _spot_off(group: Group, held: Held) -> str:
    times = f"{abs(group.bias_in_uncertainties):.1f} times their uncertainty"
    if group.readings == 1:
        row = next(row for row in held.counted if row.reading.spot == group.name
                   and row.reading.quantity == group.quantity)
        return f"Off: {_one(row)}."
    if math.isnan(group.bias):
        return f"Off: {group.label}, {group.readings} readings, by {times}."
    scatter = ("" if math.isnan(group.scatter)
               else f", scattered by {_size(group.scatter, group.unit)}")
    return (f"Off: {group.label}: the model is {_too(group.bias, group.unit)} on the mean of "
            f"{group.readings} readings{scatter}; {times}.")


def _one(row: Compared) -> str:
    """One reading beside the model."""
    reading = row.reading
    away = f"{abs(row.weighted):.1f} times its uncertainty"
    if row.miss is None:
        read = _value(reading.corrected, reading)
        return f"{reading.spot}, read {read}: in the model {row.met.note}; counted as {away}"
    model = _value(row.met.value or 0.0, reading)
    if reading.one_sided:
        side = "at least" if reading.says == AT_LEAST else "at most"
        return (f"{reading.spot} at {spell(reading.time)} {side} "
                f"{_value(reading.corrected, reading)} ({reading.quantity}), the model {model}: "
                f"{away}")
    when = "" if reading.unit == "s" else f" at {spell(reading.time)}"
    return (f"{reading.spot}{when}: read {_value(reading.corrected, reading)}, the model {model}, "
            f"{_too(row.miss, reading.unit)}, {away}")


def _broken(held: Held) -> list[str]:
    marks = [row for row in held.counted if row.reading.one_sided]
    broken = [row for row in marks if not row.agrees]
    if not marks:
        return []
    if not broken:
        return [f"Kept: {_number(len(marks), 'limit')}, of marks that say 'at least' or 'at most'."]
    return [f"Limit passed: {_one(row)}." for row in broken[:MOST_TOLD]]


def _drift(held: Held) -> list[str]:
    windows = held.over_time
    if len(windows) < 2:
        return []
    first, last = windows[0], windows[-1]
    change = last.bias_in_uncertainties - first.bias_in_uncertainties
    if not abs(change) > DRIFT:
        return []
    return [f"It changes with time: the mean miss is {first.bias_in_uncertainties:+.1f} "
            f"uncertainties from {first.name}, {last.bias_in_uncertainties:+.1f} from {last.name}."]


def _furthest(held: Held) -> list[str]:
    worst = held.worst
    if worst is None or not worst.weighted:
        return []
    return [f"Furthest off is line {worst.reading.line}: {_one(worst)}."]


def _again(held: Held) -> list[str]:
    """What to read again, or better."""
    lines, alone = [], []
    for group in held.by_spot:
        rows = [row for row in held.counted if row.reading.spot == group.name
                and row.reading.quantity == group.quantity and row.has_miss]
        odd = _stands_apart(rows)
        if odd is not None:
            lines.append(f"Read again: line {odd.reading.line} stands apart from the other "
                         f"readings of {group.label}; see what was written, and read it once "
                         "more.")
        elif len(rows) == 1 and not rows[0].agrees:
            alone.append(f"{group.label} (line {rows[0].reading.line})")
    if alone:
        lines.append(f"Read again, since one reading alone cannot tell a slip from a fault of the "
                     f"model: {some(alone, '; ')}.")
    lines += _by_emissivity(held)
    close = list(dict.fromkeys(f"{row.reading.spot} ({remark})" for row in held.rows
                               for remark in row.reading.remarks))
    lines += [f"Read closer: {some(close, '; ')}."] if close else []
    unsure = [f"line {row.reading.line} at the {row.reading.spot}" for row in held.rows
              if row.reading.says == UNSURE]
    lines += [f"Try again with a match: {some(unsure)}."] if unsure else []
    return lines


def _stands_apart(rows: list[Compared]) -> Compared | None:
    if len(rows) < ENOUGH:
        return None
    middle = statistics.median(row.weighted for row in rows)
    odd = max(rows, key=lambda row: abs(row.weighted - middle))
    rest = max(abs(row.weighted - middle) for row in rows if row is not odd)
    away = abs(odd.weighted - middle)
    return odd if away > APART and away > 2.0 * rest and not odd.agrees else None


def _by_emissivity(held: Held) -> list[str]:
    """Spots whose uncertainty is mostly that of the emissivity."""
    found: dict[str, float] = {}
    for row in held.rows:
        parts = row.reading.parts
        doubt = parts.get("emissivity", 0.0)
        if doubt > LARGE_K and doubt**2 > 0.5 * row.reading.uncertainty**2:
            found[row.reading.spot] = max(found.get(row.reading.spot, 0.0), doubt)
    if not found:
        return []
    told = [f"{spot} ({doubt:.0f} K)" for spot, doubt in
            sorted(found.items(), key=lambda one: -one[1])]
    return [f"Read better: the emissivity makes most of the uncertainty at {some(told)}; paint a "
            "patch with matt black stove paint while it is cold, and read there."]


def _too(by: float, unit: str) -> str:
    """A miss in words.

    >>> _too(-12.3, "K"), _too(129.0, "s"), _too(0.12, "bar(g)")
    ('12 K too cold', '2 min 9 s too late', '0.12 bar too high')
    """
    over, under = TOO.get(unit, ("too high", "too low"))
    return f"{_size(abs(by), unit)} {over if by > 0.0 else under}"


def _size(size: float, unit: str) -> str:
    if unit == "s":
        return spell(size)
    if unit in ("K", "C"):
        return f"{size:.0f} K" if size >= 1.0 else f"{size:.1f} K"
    short = {"bar(g)": "bar", "%": "points"}.get(unit, unit)
    return f"{size:.2g} {short}".strip() if size < 100.0 else f"{figures(round(size))} {short}"


def _value(value: float, reading: Reading) -> str:
    if reading.unit == "s":
        return spell(value)
    if reading.unit == "C":
        return f"{value:.0f} C"
    return f"{value:.3g} {reading.unit}".strip() if abs(value) < 1000.0 else (
        f"{figures(value)} {reading.unit}")
