"""How the readings of each firing are met, one firing apart from the other, held out or fitted."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from thermsim.calibrating.findings import Findings
from thermsim.calibrating.from_file import Calibration
from thermsim.calibrating.quality import LARGE

Floats = NDArray[np.float64]
MOST_LARGE = 3
"""misses of a firing that are told one by one"""


@dataclass(frozen=True)
class Held:
    """Readings kept out of the fit: how they are met before and with what was found."""

    before: Floats
    now: Floats

    def sentence(self) -> str:
        """Both in one sentence."""
        return (f"{len(self.now)} readings were held out: missed by {rms(self.before):.2g} stated "
                f"errors before, by {rms(self.now):.2g} with what was found (root mean square).")


@dataclass(frozen=True)
class Missed:
    """One reading: how far it is missed, in its stated errors, before and now.

    number: its place among the readings of its firing.
    """

    firing: str
    number: int
    spot: str
    label: str
    before: float
    now: float
    held_out: bool


@dataclass(frozen=True)
class Group:
    """Readings that belong together: root mean square before and now, mean of the misses before
    and now, all in stated errors; a limit that is kept counts as met."""

    firing: str
    spot: str
    held_out: bool
    count: int
    before: float
    now: float
    bias_before: float
    bias: float
    largest: tuple[Missed, ...]


def rms(misses: Sequence[float] | Floats) -> float:
    """Root mean square.

    >>> rms([3.0, 4.0, 0.0, 0.0])
    2.5
    """
    return math.sqrt(sum(one * one for one in misses) / len(misses))


def missed(calibration: Calibration, found: Findings, held: Held | None) -> tuple[Missed, ...]:
    """Every reading of every firing, in the order of the files."""
    before = found.before.misses if found.before is not None else np.full(
        len(found.fit.misses), np.nan)
    fitted = iter(zip(before, found.fit.misses, strict=True))
    kept_out = iter(() if held is None else zip(held.before, held.now, strict=True))
    made = []
    for one in calibration.firings:
        for k, (spot, label) in enumerate(zip(one.readings.spots, one.readings.labels,
                                              strict=True)):
            out = calibration.is_held_out(one.name, spot)
            was, now = next(kept_out if out else fitted)
            made.append(Missed(one.name, k, spot, label, float(was), float(now), out))
    return tuple(made)


def by_firing(rows: Sequence[Missed]) -> list[Group]:
    """A group for each firing; two where it is held out in part."""
    return _grouped(rows, lambda one: (one.firing, one.held_out, ""))


def by_spot(rows: Sequence[Missed]) -> list[Group]:
    """A group for each spot of each firing."""
    return _grouped(rows, lambda one: (one.firing, one.held_out, one.spot))


def _grouped(rows: Sequence[Missed], key: object) -> list[Group]:
    assert callable(key)
    order = {one: k for k, one in enumerate(dict.fromkeys(key(row) for row in rows))}
    made = []
    for own, some in groupby(sorted(rows, key=lambda row: order[key(row)]), key=key):
        held = list(some)
        far = sorted(held, key=lambda row: -abs(row.now))
        made.append(Group(own[0], own[2], own[1], len(held), rms([row.before for row in held]),
                          rms([row.now for row in held]),
                          float(np.mean([row.before for row in held])),
                          float(np.mean([row.now for row in held])),
                          tuple(row for row in far if abs(row.now) >= LARGE)[:MOST_LARGE]
                          or tuple(far[:1])))
    return made


def tell_apart(rows: Sequence[Missed], held: Held | None) -> Iterator[str]:
    """Of several firings each by itself; of what was held out all, and spot by spot."""
    groups = by_firing(rows)
    fitted = [one for one in groups if not one.held_out]
    if len(groups) > 1:
        yield from (_of_firing(one) for one in fitted)
    if held is None:
        return
    yield held.sentence()
    for one in (one for one in groups if one.held_out):
        if len(groups) > 1:
            yield _of_firing(one)
        spots = [spot for spot in by_spot(rows) if spot.held_out and spot.firing == one.firing]
        told = ", ".join(f"{spot.spot} {spot.before:.2g} before and {spot.now:.2g} now "
                         f"({spot.count})" for spot in spots)
        yield f"Held out of {one.firing}, by spot, with how many were read: {told}."


def _of_firing(one: Group) -> str:
    far = "; ".join(f"{row.label} {row.now:+.2g}" for row in one.largest)
    kept = ", held out" if one.held_out else ""
    return (f"{one.firing}{kept}: {one.count} readings, missed by {one.before:.2g} stated errors "
            f"before, {one.now:.2g} now (root mean square); in the mean {one.bias_before:+.2g} "
            f"before, {one.bias:+.2g} now. Furthest off: {far}.")


def apart_lines(rows: Sequence[Missed]) -> Iterator[tuple[str, ...]]:
    """A header and a row for each firing and each of its spots, for a terminal."""
    yield ("", "readings", "before", "now", "mean before", "mean now", "furthest off")
    for one in by_firing(rows):
        yield _line(one, one.firing + (", held out" if one.held_out else ""))
        for spot in by_spot(rows):
            if spot.firing == one.firing and spot.held_out == one.held_out:
                yield _line(spot, f"  {spot.spot}")


def _line(one: Group, name: str) -> tuple[str, ...]:
    return (name, str(one.count), f"{one.before:.2f}", f"{one.now:.2f}",
            f"{one.bias_before:+.2f}", f"{one.bias:+.2f}",
            f"{one.largest[0].label}, {one.largest[0].now:+.1f}")
