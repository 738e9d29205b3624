"""The fit: bounds, priors, losses, sides, starts that fail, models with noise."""

from __future__ import annotations

import threading
from typing import Any

import numpy as np
import pytest
from lumped_stove import FITTED, MIDDLE, guesses, planted, question, temperature

from thermsim.calibrating.differences import EXACT, SIMULATED, SIMULATED_FINE, slopes
from thermsim.calibrating.fit import NOT_FOLLOWED, NoFit, fit, fit_at
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.losses import ABOVE, BELOW, BOTH
from thermsim.calibrating.question import Question, Settings
from thermsim.errors import SolverError

ONE = Settings(steps=EXACT, fine_steps=EXACT, starts=1, rough=1e-10, closest=1e-10, secants=0)


def of_readings(readings: Any, guess: Guess, **more: Any) -> Question:
    """Readings of one number, each with an error of 1."""
    held = np.array(readings, dtype=float)
    return Question((guess,), lambda values: values[0] - held,
                    tuple(f"reading {k}" for k in range(len(held))), **more)


def test_prior_and_readings_meet_at_their_weighted_mean() -> None:
    """Held 0 +- 1, four readings of 5 +- 1: 20/5."""
    done = fit(of_readings([5.0] * 4, Guess("level", 0.0, -9.0, 9.0, 0.0, 1.0)), ONE)
    assert done.values[0] == pytest.approx(4.0, abs=1e-8)


def test_stays_within_bounds() -> None:
    done = fit(of_readings([5.0] * 4, Guess("level", 0.0, -1.0, 2.0)), ONE)
    assert done.values[0] == pytest.approx(2.0, abs=1e-6)


def test_a_slip_moves_a_robust_fit_little() -> None:
    """Nine readings about 1 and a slip at 101: the mean goes to 11, Huber's stays by 2/9."""
    readings = [1.0] * 9 + [101.0]
    guess = Guess("level", 0.0, -200.0, 200.0)
    plain = fit(of_readings(readings, guess), ONE)
    robust = fit(of_readings(readings, guess), Settings(**{**vars(ONE), "loss": "huber"}))
    assert plain.values[0] == pytest.approx(11.0, abs=1e-6)
    # sum of psi is 0: 9 (m - 1) = width, with width 2
    assert robust.values[0] == pytest.approx(1.0 + 2.0 / 9.0, abs=1e-5)


@pytest.mark.parametrize(("sides", "expected"), [
    ((BOTH, BOTH, BOTH), 4.0),
    # 'at least 6' is met by 6 or more only; 'at most' readings of 3 pull down where above
    ((BOTH, BOTH, ABOVE), 3.0),
    ((BOTH, BOTH, BELOW), 4.0),
])
def test_one_sided_readings(sides: tuple[int, ...], expected: float) -> None:
    """Readings 3, 3 and a limit of 6: under it 'at most 6' says nothing, 'at least 6' pulls."""
    done = fit(of_readings([3.0, 3.0, 6.0], Guess("level", 3.5, -9.0, 9.0), sides=sides), ONE)
    assert done.values[0] == pytest.approx(expected, abs=1e-6)


def hollows(values: Any) -> Any:
    """Weight (x^2 - 1)^2 + (0.1 (x + 1))^2: a shallow hollow near 1, the deepest, nought, at -1."""
    return np.array([values[0] ** 2 - 1.0, 0.1 * (values[0] + 1.0)])


def test_several_starts_find_the_deepest_hollow() -> None:
    asked = Question((Guess("x", 1.5, -2.0, 2.0),), hollows, ("one", "two"))
    assert fit(asked, ONE).values[0] > 0.9
    done = fit(asked, Settings(**{**vars(ONE), "starts": 8}))
    assert done.values[0] == pytest.approx(-1.0, abs=1e-6)
    assert len(done.ends) == 8


def test_starts_are_followed_at_once() -> None:
    """Two fits that each wait for the other end only if they run at the same time."""
    both = threading.Barrier(2, timeout=20.0)
    met: set[int] = set()

    def watch(start: int, evaluations: int, weight: float) -> None:
        if start not in met:
            met.add(start)
            both.wait()

    asked = Question((Guess("x", 1.5, -2.0, 2.0),), hollows, ("one", "two"))
    done = fit(asked, Settings(**{**vars(ONE), "starts": 2, "at_once": 2}), watch=watch)
    assert met == {0, 1}
    assert not any(end.failed for end in done.ends)


def test_a_start_that_fails_is_told_and_not_fatal() -> None:
    def misses(values: Any) -> Any:
        if values[0] > 1.0:
            raise SolverError("the water boiled away")
        return hollows(values)

    asked = Question((Guess("x", 1.5, -2.0, 2.0),), misses, ("one", "two"))
    done = fit(asked, Settings(**{**vars(ONE), "starts": 6}))
    assert done.ends[0].failed
    assert "the water boiled away" in done.ends[0].how
    assert done.values[0] == pytest.approx(-1.0, abs=1e-6)
    with pytest.raises(NoFit, match="the water boiled away"):
        fit(asked, ONE)


def test_a_trial_that_fails_shortens_the_step() -> None:
    """The full step from 5 would go to -20, where nothing can be computed."""
    def misses(values: Any) -> Any:
        if values[0] < 0.0:
            raise ValueError("no fire")
        return np.array([np.exp(0.2 * values[0]) - 1.2])

    asked = Question((Guess("x", 40.0, -100.0, 100.0),), misses, ("one",))
    assert fit(asked, ONE).values[0] == pytest.approx(5.0 * np.log(1.2), abs=1e-6)


def test_only_the_best_starts_are_followed() -> None:
    asked = Question((Guess("x", 1.5, -2.0, 2.0),), hollows, ("one", "two"))
    done = fit(asked, Settings(**{**vars(ONE), "starts": 6, "followed": 2}))
    assert [end.how == NOT_FOLLOWED for end in done.ends].count(True) == 4
    assert sum(end.followed for end in done.ends) == 2


def test_columns_go_through_the_map_together() -> None:
    calls: list[int] = []

    def mapping(function: Any, things: Any) -> Any:
        held = list(things)
        calls.append(len(held))
        return map(function, held)

    fit_at(question(MIDDLE, 1), FITTED, MIDDLE, mapping)
    assert calls == [2 * len(MIDDLE)]


def noisy(values: Any) -> Any:
    """The lump as a solver gives it: right to 1e-5 of some hundred kelvin, and ragged."""
    clean = temperature(values)
    ragged = np.sin(1e7 * np.sum(values / MIDDLE) + np.arange(len(clean)))
    return (clean + 1e-5 * 300.0 * ragged) / 1.5


def test_steps_that_suit_a_solver_see_through_its_noise() -> None:
    """Short steps, which suit a formula, give slopes that are noise."""
    held = guesses()
    clean = slopes(lambda v: temperature(v) / 1.5, held, MIDDLE, temperature(MIDDLE) / 1.5, EXACT)
    size = np.abs(clean.rows).max(axis=0)
    for steps, wrong in ((SIMULATED, 0.06), (SIMULATED_FINE, 0.01)):
        made = slopes(noisy, held, MIDDLE, noisy(MIDDLE), steps)
        assert (np.abs(made.rows - clean.rows) / size).max() < wrong
    bad = slopes(noisy, held, MIDDLE, noisy(MIDDLE), EXACT)
    assert (np.abs(bad.rows - clean.rows) / size).max() > 0.5


def test_fit_of_a_noisy_model_comes_to_rest_within_its_errors() -> None:
    truth = planted(5)
    read = temperature(truth) / 1.5 + np.random.default_rng(5).standard_normal(25)
    asked = Question(guesses(), lambda values: noisy(values) - read, ("",) * 25)
    rough = fit(asked, Settings(starts=3))
    exact = fit(question(truth, 5), FITTED)
    assert rough.rest is not None
    assert rough.rest.rested
    spread = np.array([guess.spread for guess in guesses()])
    assert (np.abs(rough.values - exact.values) < 0.1 * spread).all()
    assert rough.evaluations < 80


def test_a_jump_counts_by_its_flatter_side() -> None:
    """A step of 20 errors just beside the point is no slope of 200."""
    def misses(values: Any) -> Any:
        return np.array([2.0 * values[0] + (20.0 if values[0] > 0.01 else 0.0), values[0]])

    held = (Guess("x", 0.0, -9.0, 9.0, 0.0, 1.0),)
    made = slopes(misses, held, np.zeros(1), misses(np.zeros(1)), SIMULATED_FINE)
    assert made.rows[:, 0] == pytest.approx([2.0, 1.0])
    assert made.jumps.tolist() == [True, False]


def test_slopes_at_a_bound_and_beside_a_failure_take_the_other_side() -> None:
    def misses(values: Any) -> Any:
        if values[1] > 1.0:
            raise SolverError("no")
        return np.array([3.0 * values[0], 4.0 * values[1]])

    held = (Guess("a", 1.0, 0.0, 1.0), Guess("b", 1.0, 0.0, 2.0))
    at = np.array([1.0, 1.0])
    made = slopes(misses, held, at, misses(at), SIMULATED)
    size = np.array([one.size for one in held])
    assert made.rows / size == pytest.approx(np.diag([3.0, 4.0]))
