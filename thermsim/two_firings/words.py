"""Two firings told apart, in sentences and tables of text."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from thermsim.comparing.rows import Row
from thermsim.readings.lines import shown
from thermsim.results.moments import spell
from thermsim.two_firings.apart import Apart, Told
from thermsim.two_firings.doubts import BOTH, LIMIT, Doubt
from thermsim.two_firings.groups import CIRCUMSTANCES, DAY, FEEDING, PLANT, WOOD
from thermsim.two_firings.parts import CHANGE, COVERAGE, MOMENT, REST, Share

NAMES = {MOMENT: "read at another moment", DAY: "the day", WOOD: "the wood",
         FEEDING: "how it was fed", CHANGE: "the change", REST: "not explained"}
GROUPS = {PLANT: "Changed on the plant", DAY: "The day", WOOD: "The wood",
          FEEDING: "How it was filled and fed"}
WHOSE = ("the first firing", "the second firing")
MOST_INPUTS = 6
WELL = 0.5
"""of a doubt's standard uncertainty that is left where the readings tell it"""
ODD = 0.05
"""chance under which misses are more than the instruments explain"""
ENDS = 0.98
"""of the limits, from which on a value stands at their end"""
MOST_TOLD = 6
LEAST_S = 0.5
"""under which nothing moved"""
CAUTION = (
    "Bands are meant to hold 19 of 20: what the scenarios doubt and what the instruments miss, "
    "after both firings' readings were used. What the model leaves out is in them only as far as "
    "it shows in misses. Two firings are few: a third, with the change undone, would tell more "
    "than any sum.")


def tell(apart: Apart) -> list[str]:
    """Everything in sentences, the tables apart."""
    first, second = apart.firings
    lines = [f"{_called(first)} and {_called(second)}: what changed, and why", ""]
    lines += list(_inputs(apart))
    for one in headlines(apart):
        lines += ["", *_event(one, apart.plant_changed)]
    lines += ["", *_verdict(apart), *_unexplained(apart), *_sharper(apart), *_known(apart),
              *_fit(apart), *_left_out(apart), "", CAUTION]
    return lines


def _called(firing: object) -> str:
    name, remarks = str(getattr(firing, "name", "")), str(getattr(firing, "remarks", ""))
    return f"{name} ({remarks})" if remarks else name


def _inputs(apart: Apart) -> Iterator[str]:
    """What differs between the two, by group."""
    for group in (PLANT, *CIRCUMSTANCES):
        rows = apart.changed[group]
        if not rows:
            yield f"{GROUPS[group]}: {_same(group, apart)}."
            continue
        some = "; ".join(_input(row) for row in rows[:MOST_INPUTS])
        more = f"; and {len(rows) - MOST_INPUTS} more" if len(rows) > MOST_INPUTS else ""
        yield f"{GROUPS[group]}: {some}{more}."


def _same(group: str, apart: Apart) -> str:
    if group == PLANT:
        return "nothing, as the log has it"
    if group == WOOD:
        return ("the same pile" if apart.same_pile
                else "written the same; taken as another pile with a doubt of its own")
    return "written the same"


def _input(row: Row) -> str:
    return f"{row.name} {row.texts[0]} -> {row.texts[1]}"


def headlines(apart: Apart) -> list[Told]:
    """Events but for what was done by hand, the last first: boiling before the draught."""
    events = [one for one in apart.told if one.is_event]
    seen = [one for one in events if not (one.pairs[0].second.happening
                                          and one.pairs[0].second.happening.deed)]
    return sorted(seen, key=lambda one: -one.pairs[0].second.corrected)


def _event(one: Told, changed: bool) -> Iterator[str]:
    """An event, and its parts one below another."""
    yield (f"{one.name[:1].upper()}{one.name[1:]} came {moved(one.measured.value)} (read to "
           f"{spell(one.measured.band)}). Of that:")
    for part, share in one.parts.items():
        if part == REST or is_nothing(share) or (part == CHANGE and not changed):
            continue
        expected = (f"; the model by itself expected {moved(one.expected)}"
                    if part == CHANGE and abs(one.expected) >= LEAST_S else "")
        yield f"  {NAMES[part]}: {moved(share.value)} +- {spell(share.band)}{expected}"
    rest = one.parts[REST]
    more = "more than the readings' errors" if one.unexplained else "within the readings' errors"
    yield f"  {NAMES[REST]}: {moved(rest.value)}, {more}"


def moved(seconds: float) -> str:
    """By how much a moment moved.

    >>> moved(-159.0), moved(12.2), moved(0.2)
    ('2 min 39 s sooner', '12 s later', 'not moved')
    """
    if abs(seconds) < LEAST_S:
        return "not moved"
    return f"{spell(abs(seconds))} {'sooner' if seconds < 0.0 else 'later'}"


def is_nothing(share: Share) -> bool:
    return share.value == 0.0 and share.error == 0.0


def _verdict(apart: Apart) -> Iterator[str]:
    """Whether the change is told apart, and how it did beside what was expected."""
    if not apart.plant_changed:
        yield ("Nothing was changed on the plant, as the log has it: all differences are put to "
               "day, wood and feeding.")
        return
    times = apart.times
    told = [one for one in apart.told
            if abs(one.change.value) > max(one.change.band, one.measured.band)]
    between = f"{times.value:.2g} +- {times.band:.1g} times what the model expects of it"
    if abs(times.value) <= times.band:
        yield (f"Over all spots the change did {between}: the readings cannot tell it from no "
               "change at all.")
    else:
        yield (f"Over all spots the change did {between}: it is told apart from day, wood and "
               f"feeding, at {len(told)} of {len(apart.told)} spots and events by itself.")


def _unexplained(apart: Apart) -> Iterator[str]:
    """Where more is left than the readings' errors make."""
    odd = sorted((one for one in apart.told if one.unexplained),
                 key=lambda one: -abs(one.parts[REST].value) / one.parts[REST].error)
    if odd:
        some = ", ".join(f"{one.name} ({difference(one.parts[REST].value, one.unit)})"
                         for one in odd[:MOST_TOLD])
        yield f"Not explained by any of these: {some}."


def _sharper(apart: Apart) -> Iterator[str]:
    """What it would help most to know, for the first headline."""
    one = next((one for one in headlines(apart) if one.change.error > 0.0), None)
    if one is None or one.sharpest is None or not apart.plant_changed:
        return
    doubt, share = one.sharpest
    yield (f"Known exactly, {doubt.path} of {_whose(doubt)} would leave "
           f"{100 * math.sqrt(1.0 - min(share, 1.0)):.0f} % of the change's band at {one.name}: "
           "measure it next time.")


def _whose(doubt: Doubt) -> str:
    return "both" if doubt.firing == BOTH else WHOSE[doubt.firing]


def _known(apart: Apart) -> Iterator[str]:
    """What the readings tell of what was doubted, and what stands at the end of its limits."""
    left = apart.found.covariance.diagonal()**0.5
    well = [k for k, _ in enumerate(apart.doubts) if left[k] < WELL]
    well.sort(key=lambda k: -abs(float(apart.found.x[k])))
    for k in well[:MOST_TOLD]:
        doubt, at = apart.doubts[k], float(apart.found.x[k])
        yield (f"By the readings {doubt.path} of {_whose(doubt)} was "
               f"{doubt.banded_text(at, COVERAGE * float(left[k]))} (written {doubt.fact.text}).")
    ends = [doubt for k, doubt in enumerate(apart.doubts)
            if abs(apart.found.x[k]) > ENDS * LIMIT]
    if ends:
        some = ", ".join(f"{doubt.path} of {_whose(doubt)}" for doubt in ends[:MOST_TOLD])
        yield (f"At the end of what is written: {some}. Either the doubt is written too narrow, or "
               "something else is not as written.")


def _fit(apart: Apart) -> Iterator[str]:
    """How well both firings are met."""
    found = apart.found
    if found.chance < ODD:
        yield (f"The readings are missed by {found.widened:.2g} times their stated errors: "
               "something is not as written, or not in the model. Their errors are taken so much "
               "larger, and bands may still be too narrow. Calibrate first, or write a doubt "
               "beside what is not sure.")


def _left_out(apart: Apart) -> Iterator[str]:
    """Readings that were not used, pairs that could not be told, readings without another."""
    for firing, reading in apart.slips:
        yield (f"Left out: {reading.spot} at {spell(reading.time)} of {WHOSE[firing]}, "
               f"{shown(reading.value, reading.unit)}: far from all others. A slip, or something "
               "that the model lacks.")
    for pair, why in apart.untold:
        if not why.startswith("one of both"):
            yield f"Not told: {pair.second.spot} at {spell(pair.second.time)}: {why}."
    if apart.alone:
        yield (f"{len(apart.alone)} readings have none of the other firing about the same moment; "
               "they were used, but tell no difference.")


def difference(value: float, unit: str) -> str:
    """A difference with its sign and unit.

    >>> difference(-3.04, "C"), difference(95.0, "s")
    ('-3.0 K', '+1 min 35 s')
    """
    return shown(value, "K" if unit == "C" else unit, "+")


def spot_rows(apart: Apart) -> Iterator[tuple[str, ...]]:
    """A header and a row a spot: the difference read, and its parts with their bands."""
    parts = [part for part in (MOMENT, *CIRCUMSTANCES, CHANGE)
             if any(not is_nothing(one.parts[part]) for one in _spots(apart))
             and (part != CHANGE or apart.plant_changed)]
    expected = ("expected",) if CHANGE in parts else ()
    yield ("", "readings", "differs by", *(NAMES[part] for part in parts), *expected, NAMES[REST])
    for one in _spots(apart):
        unit = "K" if one.unit == "C" else one.unit
        places = _places(one.measured.band)
        cells = [_banded(one.parts[part], places) for part in parts]
        more = (_number(one.expected, places),) if expected else ()
        odd = " !" if one.unexplained else ""
        yield (f"{one.name} [{unit}]", str(len(one.pairs)), _banded(one.measured, places), *cells,
               *more, _number(one.parts[REST].value, places) + odd)


def _spots(apart: Apart) -> Sequence[Told]:
    return [one for one in apart.told if not one.is_event]


def _banded(share: Share, places: int) -> str:
    if is_nothing(share):
        return "0"
    return f"{_number(share.value, places)} \u00b1 {share.band:.{places}f}"


def _places(band: float) -> int:
    """Decimals that show two figures of a band.

    >>> _places(2.13), _places(0.062), _places(62.3)
    (1, 3, 0)
    """
    return min(max(1 - math.floor(math.log10(band)), 0), 3) if band > 0.0 else 1


def _number(value: float, places: int) -> str:
    return f"{value:+.{places}f}"
