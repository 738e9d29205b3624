"""Gap and baffle spacing: a best value inside for the time to boil, worse on the narrow side."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

Fired = Callable[..., Any]
GAPS = (10, 15, 22, 30, 42, 60)
"""[mm]"""
SPACINGS = (50, 75, 110, 150, 225, 450)
"""[mm]; the last is as long as the drum: no baffle at all"""


def times(fired: Fired, path: str, sizes: tuple[int, ...]) -> list[float]:
    """Time to boil [s] at each size, infinite if it does not boil."""
    found = []
    for size in sizes:
        boil = fired("cold_start", f"{path} = {size} mm").answers["time_to_boil_s"]
        found.append(math.inf if boil is None else boil)
    return found


def assert_one_best_inside(boil: list[float]) -> None:
    """Falls to its least value, then rises; the least is at neither end."""
    best = boil.index(min(boil))
    assert 0 < best < len(boil) - 1, boil
    falling, rising = boil[:best + 1], boil[best:]
    assert falling == sorted(falling, reverse=True), boil
    assert rising == sorted(rising), boil


@pytest.mark.parametrize(("path", "sizes"), [("drum.gap", GAPS),
                                             ("drum.baffle_spacing", SPACINGS)])
def test_one_best_value_and_worse_on_the_narrow_side(fired: Fired, path: str,
                                                     sizes: tuple[int, ...]) -> None:
    """Sizes a like factor apart either way of the best: the narrow one loses more."""
    boil = times(fired, path, sizes)
    assert_one_best_inside(boil)
    best = boil.index(min(boil))
    factor = min(sizes[best] / sizes[0], sizes[-1] / sizes[best])
    narrow = min(i for i, size in enumerate(sizes) if sizes[best] / size <= 1.05 * factor)
    wide = max(i for i, size in enumerate(sizes) if size / sizes[best] <= 1.05 * factor)
    assert boil[narrow] - boil[best] > boil[wide] - boil[best], boil


def test_narrow_means_less_air_a_rich_fire_and_no_draught(fired: Fired) -> None:
    closed, narrow, best = (fired("cold_start", f"drum.gap = {gap} mm") for gap in GAPS[:1]
                            + GAPS[1:2] + GAPS[3:4])
    assert narrow.answers["air_ratio_mean"] < 1.0 < best.answers["air_ratio_mean"]
    assert narrow.answers["draught_peak_Pa"] < best.answers["draught_peak_Pa"]
    assert narrow.answers["smoke_from_openings_g"] > best.answers["smoke_from_openings_g"]
    assert closed.answers["outcome"] in ("never_drew", "smothered")
    assert closed.answers["draught_established_s"] is None
