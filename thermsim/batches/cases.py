"""Axes and named cases become the firings of a batch, in a fixed order."""

from __future__ import annotations

import itertools
import warnings
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from thermsim.batches.axes import Axis, split_number
from thermsim.batches.declared import GRID, IN_STEP, SOBOL


@dataclass(frozen=True)
class Case:
    """One firing: its place in the order, its columns, and the changes that make it."""

    number: int
    name: str
    columns: tuple[tuple[str, Any], ...]
    changes: tuple[str, ...]

    @property
    def label(self) -> str:
        """How it is called in messages."""
        told = ", ".join(f"{key} {value}" for key, value in self.columns if value is not None)
        return self.name or told or "the base"


def points(axes: Sequence[Axis], combine: str, sample: Any) -> Iterator[tuple[str, ...]]:
    """The values of all axes, a tuple a firing."""
    if combine == GRID:
        yield from itertools.product(*(axis.values for axis in axes))
    elif combine == IN_STEP:
        yield from zip(*(axis.values for axis in axes), strict=True)
    else:
        for row in draws(len(axes), int(sample["count"]), sample["how"], int(sample["seed"])):
            yield tuple(axis.at(float(share)) for axis, share in zip(axes, row, strict=True))


def draws(dimensions: int, count: int, how: str, seed: int) -> Any:
    """Points that fill the unit cube, (count, dimensions), by scipy.stats.qmc."""
    from scipy.stats import qmc

    if how == SOBOL:
        with warnings.catch_warnings():  # that only powers of two are balanced
            warnings.simplefilter("ignore", UserWarning)
            return qmc.Sobol(dimensions, scramble=True, seed=seed).random(count)
    return qmc.LatinHypercube(dimensions, seed=seed).random(count)


def make_cases(axes: Sequence[Axis], combine: str, sample: Any, named: Sequence[Any],
               common: Sequence[str]) -> list[Case]:
    """All firings: the combinations in the order of the axes, then the named cases."""
    made: list[Case] = []
    headers = [axis.column for axis in axes]
    for values in points(axes, combine, sample) if axes else ():
        changes = [f"{name} = {value}" for axis, value in zip(axes, values, strict=True)
                   for name in axis.fields]
        columns = zip(headers, map(number_in, axes, values), strict=True)
        made.append(Case(len(made), "", _named(columns, named, ""), (*common, *changes)))
    for given in named:
        empty = [(header, None) for header in headers]
        made.append(Case(len(made), given["name"], _named(empty, named, given["name"]),
                         (*common, *(given["changes"] or ()))))
    return made


def number_in(axis: Axis, value: str) -> Any:
    """A value as it stands in its column: a number where the axis has a unit or plain numbers."""
    if axis.numbers is None and axis.ends is None:
        return value
    pair = split_number(value)
    return float(pair[0]) if pair else value


def _named(columns: Any, named: Sequence[Any], name: str) -> tuple[tuple[str, Any], ...]:
    """The axes' columns, led by that of names where the batch has named cases."""
    return ((("case", name),) if named else ()) + tuple(columns)
