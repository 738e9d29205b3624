"""How sure: by hand, by textbook formulas, and by profiles where lines do not hold."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from lumped_stove import FITTED, planted, question

from thermsim.calibrating.bands import draw_guesses, linear_band, sampled_band
from thermsim.calibrating.differences import EXACT
from thermsim.calibrating.fit import Fit, fit
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.losses import ABOVE
from thermsim.calibrating.next_reading import Candidate, rank_readings
from thermsim.calibrating.profile import profile
from thermsim.calibrating.question import Question, Settings
from thermsim.calibrating.sureness import FOUND, LARGER, STATED, sureness

X = np.array([1.0, 2.0, 3.0, 4.0, 5.0])
Y = np.array([1.1, 1.9, 3.2, 3.9, 5.1])
"""a straight line worked by hand: slope 1.0, intercept 0.04, misses .06 -.14 .16 -.14 .06"""
SLOPE, INTERCEPT, SQUARES, SXX = 1.0, 0.04, 0.072, 10.0
T_3 = 3.182446
"""Student's t, 97.5 %, 3 degrees of freedom (tables)"""


def line(error: float = 1.0, **more: Any) -> Question:
    guess = (Guess("intercept", 0.0), Guess("slope", 0.5))
    return Question(guess, lambda v: (v[0] + v[1] * X - Y) / error, tuple(map(str, X)), **more)


@pytest.fixture
def fitted() -> Fit:
    return fit(line(), FITTED)


def test_straight_line_by_hand(fitted: Fit) -> None:
    made = sureness(fitted)
    s = np.sqrt(SQUARES / 3.0)
    assert fitted.values == pytest.approx([INTERCEPT, SLOPE])
    assert made.freedom == pytest.approx(3.0)
    assert made.standard_errors == pytest.approx([s * np.sqrt(0.2 + 9.0 / SXX), s / np.sqrt(SXX)])
    assert made.correlation[0, 1] == pytest.approx(-3.0 / np.sqrt(0.2 * SXX + 9.0))
    assert made.intervals[1] == pytest.approx(SLOPE + np.array([-1, 1]) * T_3 * s / np.sqrt(SXX),
                                              rel=1e-6)


def test_error_as_found_as_stated_or_the_larger() -> None:
    small, large = fit(line(1.0), FITTED), fit(line(0.01), FITTED)
    assert sureness(small, STATED).standard_errors[1] == pytest.approx(1.0 / np.sqrt(SXX))
    assert sureness(small, LARGER).error == 1.0
    found = np.sqrt(SQUARES / 3.0) / 0.01
    assert sureness(large, LARGER).error == pytest.approx(found)
    assert sureness(large, FOUND).error == pytest.approx(found)


def test_what_is_held_narrows_as_more_readings_would() -> None:
    """Held 0 +- 1 and four readings of +- 1: 1/sqrt(5)."""
    asked = Question((Guess("level", 0.0, -9, 9, 0.0, 1.0),),
                     lambda v: v[0] - np.array([1.0, 2.0, 3.0, 2.0]), ("a", "b", "c", "d"))
    made = sureness(fit(asked, FITTED), STATED)
    assert made.standard_errors[0] == pytest.approx(1.0 / np.sqrt(5.0))
    # 4 readings, of which the level uses 4/5
    assert made.freedom == pytest.approx(4.0 - 0.8)


def test_limits_that_are_kept_are_no_readings() -> None:
    asked = Question((Guess("level", 2.0, -9, 9),),
                     lambda v: v[0] - np.array([1.0, 2.0, 3.0, 8.0]), ("a", "b", "c", "d"),
                     sides=(0, 0, 0, ABOVE))
    assert sureness(fit(asked, FITTED)).freedom == pytest.approx(2.0)


def test_what_nothing_tells_has_no_standard_error() -> None:
    asked = Question((Guess("a", 1.0, 0, 2), Guess("b", 1.0, 0, 2), Guess("c", 1.0, 0, 2)),
                     lambda v: np.array([v[0] + v[1] - 2.0, v[2] - 1.0, v[2] - 1.1]), ("", "", ""))
    made = sureness(fit(asked, FITTED), STATED)
    assert made.untold == (True, True, False)
    assert np.isinf(made.standard_errors[:2]).all()
    assert made.standard_errors[2] == pytest.approx(np.sqrt(0.5))


def test_at_a_bound() -> None:
    asked = Question((Guess("a", 0.0, -1.0, 1.0),), lambda v: v - 5.0, ("",))
    made = sureness(fit(asked, FITTED), STATED)
    assert made.at_bound == ("high",)
    assert made.intervals[0, 1] == 1.0


def test_profile_of_a_line_is_its_interval(fitted: Fit) -> None:
    made = sureness(fitted)
    found = profile(fitted, made, 1)
    half = made.quantile * made.standard_errors[1]
    assert [found.low, found.high] == pytest.approx(list(made.intervals[1]), abs=0.03 * half)


def test_profile_of_a_curve_by_hand() -> None:
    """(b^2 - 4)/0.5 rises by z^2 at sqrt(4 +- 0.5 z); error as stated."""
    asked = Question((Guess("b", 1.5, 0.0, 9.0),),
                     lambda v: np.repeat((v[0] ** 2 - 4.0) / 0.5 / np.sqrt(40.0), 40), ("",) * 40)
    done = fit(asked, FITTED)
    made = sureness(done, STATED)
    found = profile(done, made, 0)
    ends = np.sqrt(4.0 + np.array([-1, 1]) * 0.5 * made.quantile)
    assert [found.low, found.high] == pytest.approx(list(ends), abs=0.01)


def test_profile_that_does_not_close_is_open() -> None:
    """1 - exp(-b) hardly changes above 4: a bound closes it, no reading does."""
    asked = Question((Guess("b", 2.0, 0.0, 6.0),),
                     lambda v: np.repeat((1.0 - np.exp(-v[0]) - 0.95) / 0.1, 5), ("",) * 5)
    done = fit(asked, FITTED)
    found = profile(done, sureness(done, STATED), 0)
    assert found.high is None
    assert found.low is not None
    assert found.low < done.values[0]


def test_best_next_reading_is_that_which_a_fit_with_it_shows() -> None:
    """Rank-one update against inverting anew with the row added."""
    made = sureness(fit(question(planted(1), 1), FITTED), STATED)
    rng = np.random.default_rng(4)
    rows, errors = rng.normal(size=(6, 4)) * 5.0, rng.uniform(0.5, 3.0, 6)
    answer = np.array([1.0, -0.5, 0.2, 0.1])
    ranked = rank_readings(made, answer, [Candidate(f"spot {k}", 60.0 * k, errors[k], rows[k])
                                          for k in range(6)])
    inverse = np.linalg.inv(made.scaled)
    spreads = {f"spot {k}": float(np.sqrt(answer @ np.linalg.inv(
        inverse + np.outer(rows[k], rows[k]) / errors[k] ** 2) @ answer)) for k in range(6)}
    assert [gain.candidate.spot for gain in ranked] == sorted(spreads, key=spreads.__getitem__)
    assert [gain.spread for gain in ranked] == pytest.approx(sorted(spreads.values()))


def test_band_of_a_line_by_the_textbook(fitted: Fit) -> None:
    """s t sqrt(1/n + (x - mean)^2/Sxx)."""
    made = sureness(fitted)
    size = np.array([guess.size for guess in fitted.guesses])
    at = np.array([0.0, 3.0, 8.0])
    rows = np.column_stack([np.ones(3), at]) * size
    band = linear_band(made, INTERCEPT + SLOPE * at, rows)
    half = T_3 * np.sqrt(SQUARES / 3.0) * np.sqrt(0.2 + (at - 3.0) ** 2 / SXX)
    assert band.high - band.middle == pytest.approx(half, rel=1e-5)
    assert band.middle - band.low == pytest.approx(half, rel=1e-5)


def test_sampled_band_meets_the_linear_one() -> None:
    done = fit(question(planted(2), 2), FITTED)
    made = sureness(done, STATED)
    drawn = draw_guesses(made, 4000, 1)
    assert np.cov(drawn.T)[0, 0] ** 0.5 == pytest.approx(made.standard_errors[0], rel=0.05)
    band = sampled_band(made, lambda values: values[:1], 4000, 1)
    half = 1.96 * made.standard_errors[0]
    assert band.high[0] - band.low[0] == pytest.approx(2.0 * half, rel=0.05)


def test_draws_keep_to_the_bounds_and_failures_are_told() -> None:
    asked = Question((Guess("a", 0.1, 0.0, 1.0),), lambda v: v - 0.05, ("",))
    made = sureness(fit(asked, Settings(steps=EXACT, fine_steps=EXACT, starts=1)), STATED)
    drawn = draw_guesses(made, 200, 3)
    assert ((drawn >= 0.0) & (drawn <= 1.0)).all()

    def predict(values: Any) -> Any:
        if values[0] > 0.9:
            raise ValueError("no fire")
        return values

    band = sampled_band(made, predict, 200, 3)
    assert len(band.failed) == int((drawn > 0.9).sum()) > 0
    assert "no fire" in band.failed[0]
