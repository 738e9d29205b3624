"""Bands by straight lines and by draws: against textbook bands, and where they must part."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from lumped_stove import FITTED

from thermsim.calibrating.bands import Band, in_parts, linear_band, sampled_band, unlike
from thermsim.calibrating.fit import fit
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.next_reading import Candidate, rank_readings
from thermsim.calibrating.question import Question
from thermsim.calibrating.sureness import FOUND, STATED, Sureness, sureness

X = np.array([1.0, 2.0, 3.0, 4.0, 5.0])
Y = np.array([1.1, 1.9, 3.2, 3.9, 5.1])
SLOPE, INTERCEPT, SQUARES, SXX = 1.0, 0.04, 0.072, 10.0
"""of the straight line through these, by hand"""
T_3, Z = 3.182446, 1.959964
"""97.5 %: Student's t with 3 degrees of freedom, and the normal distribution (tables)"""
AT = np.array([0.0, 3.0, 8.0])
MANY = 20_000


def line(error: str) -> Sureness:
    asked = Question((Guess("intercept", 0.0), Guess("slope", 0.5)),
                     lambda v: v[0] + v[1] * X - Y, tuple(map(str, X)))
    return sureness(fit(asked, FITTED), error)


@pytest.mark.parametrize(("error", "times", "size"), [
    (STATED, Z, 1.0), (FOUND, T_3, np.sqrt(SQUARES / 3.0))])
def test_sampled_band_of_a_line_by_the_textbook(error: str, times: float, size: float) -> None:
    """times s sqrt(1/n + (x - mean)^2/Sxx): normal with errors as stated, t with errors found."""
    made = line(error)
    band = sampled_band(made, lambda v: v[0] + v[1] * AT, MANY, 1)
    half = times * size * np.sqrt(0.2 + (AT - 3.0) ** 2 / SXX)
    # the standard error of such a quantile of 20 000 draws is 1 % (normal) or 2 % (t) of it
    assert band.high - (INTERCEPT + SLOPE * AT) == pytest.approx(half, rel=0.06)
    assert (INTERCEPT + SLOPE * AT) - band.low == pytest.approx(half, rel=0.06)


def test_sampled_band_of_a_square_by_hand() -> None:
    """y = x^2 of x normal 0 +- 1 (3 readings of +- sqrt 3 at 0): chi squared with one degree of
    freedom, 0.000982 to 5.0239 between 2.5 and 97.5 % (tables); straight lines give 0 to 0."""
    asked = Question((Guess("x", 0.5),), lambda v: np.repeat(v[0] / np.sqrt(3.0), 3), ("",) * 3)
    made = sureness(fit(asked, FITTED), STATED)
    band = sampled_band(made, lambda v: v**2, MANY, 2)
    assert band.high[0] == pytest.approx(5.0239, rel=0.05)
    assert band.low[0] == pytest.approx(0.000982, abs=3e-4)
    straight = linear_band(made, made.values**2, 2.0 * made.values[:, None])
    assert unlike(straight, band, MANY)[0]


@pytest.mark.parametrize("seed", range(5))
def test_bands_of_a_line_agree_however_they_are_made(seed: int) -> None:
    """Of a hundred draws chance alone moves the ends: that is no disagreement."""
    made = line(STATED)
    rows = np.column_stack([np.ones(3), AT]) * [guess.size for guess in made.guesses]
    straight = linear_band(made, INTERCEPT + SLOPE * AT, rows)
    assert not unlike(straight, sampled_band(made, lambda v: v[0] + v[1] * AT, 100, seed),
                      100).any()


def test_same_seed_same_band() -> None:
    made = line(STATED)
    one, two, other = (sampled_band(made, lambda v: v, 50, seed) for seed in (7, 7, 8))
    assert one.low.tolist() == two.low.tolist()
    assert one.low.tolist() != other.low.tolist()


def test_what_some_draws_lack_is_counted_and_left_out() -> None:
    """Half of all draws lie under the middle; the others are a half normal distribution, of which
    97.5 % lie under 2.2414 (tables: 98.75 % of a normal one)."""
    asked = Question((Guess("x", 0.5),), lambda v: v, ("",))
    made = sureness(fit(asked, FITTED), STATED)
    band = sampled_band(made, lambda v: np.where(v > 0.0, v, np.nan), MANY, 3)
    assert band.lost[0] == pytest.approx(MANY / 2, rel=0.03)
    assert band.high[0] == pytest.approx(2.2414, rel=0.03)


def test_no_band_where_no_draw_has_it() -> None:
    band = sampled_band(line(STATED), lambda v: np.array([np.nan, 1.0]), 20, 1)
    assert np.isnan(band.low[0])
    assert band.low[1] == band.high[1] == 1.0


def test_draws_go_part_by_part_in_order() -> None:
    told: list[tuple[int, int]] = []
    sizes: list[int] = []

    def mapping(function: Any, things: Any) -> Any:
        sizes.append(len(list(things)))
        return map(function, things)

    mapped = in_parts(mapping, lambda done, count: told.append((done, count)), 25)
    assert list(mapped(lambda x: x + 1, range(25))) == list(range(1, 26))
    assert told == [(10, 25), (20, 25), (25, 25)]
    assert sizes == [10, 10, 5]


def test_part_of_a_band() -> None:
    whole = Band(np.arange(4.0), np.arange(4.0), np.arange(4.0), lost=np.arange(4.0))
    assert whole.part(slice(1, 3)).high.tolist() == whole.part(slice(1, 3)).lost.tolist() == [1, 2]


def test_gain_of_a_reading_by_hand() -> None:
    """One number known to +- 1, read once more to +- 1: +- 1/sqrt 2 is left; to +- 2, as by a worse
    instrument: 1/sqrt(1 + 1/4), 89.44 %."""
    made = sureness(fit(Question((Guess("x", 0.5),), lambda v: v, ("",)), FITTED), STATED)
    size = np.array([guess.size for guess in made.guesses])
    best, worse = rank_readings(made, size, [
        Candidate("water", 600.0, 2.0, size, "thermocouple", "K"),
        Candidate("flue", 600.0, 1.0, size, "thermocouple", "K")])
    assert (best.candidate.spot, best.left) == ("flue", pytest.approx(0.5**0.5))
    assert worse.left == pytest.approx(0.894427, rel=1e-5)
