"""Carbon monoxide: the room against its own differential equation, needs against guidelines."""

from __future__ import annotations

import csv
import math
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from scipy.integrate import quad, solve_ivp

from thermsim.physics import carbon_monoxide as law

known = settings(max_examples=30, deadline=None, derandomize=True)
WORDS = Path(__file__).parents[2] / "references" / "hazards_words.csv"


@known
@given(some.floats(1e-8, 1e-5), some.floats(5.0, 200.0), some.floats(0.0, 10.0),
       some.floats(60.0, 30000.0), some.floats(0.0, 1e-4), some.floats(0.0, 1e-5))
def test_room_beside_the_integrated_equation(source: float, volume: float, hourly: float,
                                             t: float, start: float, outside: float) -> None:
    n = hourly / 3600
    run = solve_ivp(lambda _, C: source / volume - n * (C - outside), (0.0, t), [start],
                    rtol=1e-10, atol=1e-16, dense_output=True)
    expected = run.y[0, -1]
    assert law.room_monoxide(source, volume, n, t, start, outside) == pytest.approx(expected, 1e-6)
    mean = quad(lambda s: run.sol(s)[0], 0.0, t)[0] / t
    assert law.mean_monoxide(source, volume, n, t, start, outside) == pytest.approx(mean, 1e-4)


def test_mean_has_no_jump_where_its_series_begins() -> None:
    t = 3600.0
    below, above = (law.mean_monoxide(1e-6, 30.0, x * 1e-4 / t, t) for x in (0.9999, 1.0001))
    assert above == pytest.approx(below, rel=1e-6)


@known
@given(some.floats(1e-7, 1e-4), some.floats(5.0, 200.0), some.sampled_from(list(law.GUIDELINES)))
def test_air_change_meets_the_guideline(source: float, volume: float, which: str) -> None:
    duration, limit = law.GUIDELINES[which]
    n = law.air_change_needed(source, volume, limit, duration)
    if n == 0.0:
        assert law.mean_monoxide(source, volume, 0.0, duration) <= limit
        return
    assert law.mean_monoxide(source, volume, n, duration) == pytest.approx(limit, rel=1e-6)
    assert law.leak_allowed(volume, n, limit, duration) == pytest.approx(source, rel=1e-6)


def test_time_to_a_level() -> None:
    """1 mg/s in 30 m3, shut: 100 mg/m3 after 3000 s. At 1 an hour it stands at 120 in the end."""
    assert law.time_to_concentration(1e-6, 30.0, 0.0, 100e-6) == pytest.approx(3000.0)
    assert law.time_to_concentration(1e-6, 30.0, 1 / 3600, 121e-6) == math.inf
    t = law.time_to_concentration(1e-6, 30.0, 1 / 3600, 100e-6)
    assert law.room_monoxide(1e-6, 30.0, 1 / 3600, t) == pytest.approx(100e-6)
    assert law.time_to_concentration(0.0, 30.0, 0.0, 100e-6) == math.inf


def test_effects_as_printed() -> None:
    """The levels of the table, and that death is named from 1600 ppm on."""
    with WORDS.open(newline="", encoding="utf-8") as file:
        (row,) = [row for row in csv.DictReader(file) if row["id"] == "S05"]
    printed = [float(re.match(r"\s*(\d+)", part)[1])  # type: ignore[index]
               for part in row["value"].split(";")]
    assert [level for level, _ in law.EFFECTS] == printed
    deadly = min(level for level, part in zip(printed, row["value"].split(";"), strict=True)
                 if "death" in part)
    assert [level for level, words in law.EFFECTS if "death" in words] == [
        level for level in printed if level >= deadly]
    assert law.effect(150.0) is None
    assert "death within 1 to 2 hours" in (law.effect(1700.0) or "")


def test_yields_are_ordered() -> None:
    for made in law.YIELDS.values():
        assert made.low < made.usual < made.high
    usual = [made.usual for made in law.YIELDS.values()]
    assert usual == sorted(usual)
