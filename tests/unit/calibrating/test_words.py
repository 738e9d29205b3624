"""What is told: what can be told, what cannot, how well readings are met, what is left."""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest
from lumped_stove import FITTED, MIDDLE, planted, question, temperature

from thermsim.calibrating.findings import findings
from thermsim.calibrating.fit import fit, fit_at
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.losses import LOSSES, loss_of
from thermsim.calibrating.quality import count_runs
from thermsim.calibrating.question import Question, Settings
from thermsim.calibrating.sureness import STATED
from thermsim.calibrating.told import what_is_told
from thermsim.calibrating.words import tell
from thermsim.calibrating.written import guesses_table, record


def sum_only() -> Question:
    """Readings see a + b and c; nothing sees d."""
    held = tuple(Guess(name, 0.0, -9.0, 9.0, 0.0, 1.0) for name in "abcd")
    return Question(held, lambda v: np.array([10.0 * (v[0] + v[1]), 0.5 * v[2]]), ("one", "two"))


def test_what_readings_can_tell_at_all() -> None:
    told = what_is_told(fit_at(sum_only(), FITTED, np.zeros(4)))
    # singular values: 10 sqrt(2) along (1, 1)/sqrt(2), 0.5 along c, 0 along a - b and d
    assert sorted(one.seen for one in told.combinations) == pytest.approx(
        [0.0, 0.0, 0.5, 10.0 * np.sqrt(2.0)], abs=1e-9)
    # a: half of it lies along a + b, known to 1/sqrt(201), half along a - b, not known at all
    assert told.left[:2] == pytest.approx([np.sqrt(0.5 / 201.0 + 0.5)] * 2)
    assert told.left[2:] == pytest.approx([1.0 / np.sqrt(1.25), 1.0])
    said = told.sentences()
    assert "Raising a and lowering b at once" in " ".join(said) or (
        "Raising b and lowering a at once" in " ".join(said))
    assert said[2] == "c: the readings tell little; 89 % of the doubt held beforehand stays."
    assert said[3] == "d: no reading sees it; it stays what it was."


def test_without_anything_held_what_is_not_seen_is_not_told() -> None:
    asked = sum_only()
    free = tuple(Guess(one.name, 0.0, -9.0, 9.0) for one in asked.guesses)
    told = what_is_told(fit_at(Question(free, asked.misses, asked.labels), FITTED, np.zeros(4)))
    assert np.isinf(told.left[[0, 1, 3]]).all()
    assert np.isfinite(told.left[2])


def test_sentences_of_guesses() -> None:
    before = fit_at(question(planted(7), 7), FITTED, MIDDLE)
    found = findings(fit(question(planted(7), 7), FITTED), before, STATED)
    said = tell(found)
    low, high = found.sure.intervals[1]
    assert said[1] == (f"loss: was 25, now {found.sure.values[1]:.4g}, between {low:.4g} and "
                       f"{high:.4g} (95 %).")
    assert any(one.startswith("Squared misses of 25 readings: ") for one in said)
    assert any("as the instruments explain" in one for one in said)


def test_a_bound_is_told() -> None:
    asked = Question((Guess("gap", 0.0, -1.0, 1.0),), lambda v: np.repeat(v, 3) - 5.0, ("",) * 3)
    said = tell(findings(fit(asked, FITTED), error=STATED))
    assert any(one.startswith("gap stands at its upper bound, 1") for one in said)


def test_misses_that_stick_together_are_told() -> None:
    """A straight line through a curve: one sign, then the other, then the first again."""
    x = np.linspace(-1.0, 1.0, 21)
    asked = Question((Guess("a", 0.0, -9, 9), Guess("b", 0.0, -9, 9)),
                     lambda v: (v[0] + v[1] * x - 3.0 * x**2) / 0.5, tuple(map(str, x)),
                     ("flue",) * 21)
    found = findings(fit(asked, FITTED))
    assert found.quality.spots[0].runs is not None
    assert found.quality.spots[0].runs.found == 3
    assert any(one.startswith("flue: misses of one sign stick together") for one in tell(found))


def test_runs_by_hand() -> None:
    """Five of each sign: 6 expected, variance 50 times 40 over 100 times 9."""
    runs = count_runs(np.array([1.0, -1.0] * 5))
    assert (runs.found, runs.expected) == (10, 6.0)
    assert runs.spread == pytest.approx(np.sqrt(50.0 * 40.0 / 900.0))
    assert not runs.sticking


def test_too_large_misses_and_single_ones_are_told() -> None:
    asked = question(MIDDLE, 3)
    slipped = Question(asked.guesses, lambda v: asked.misses(v) - 40.0 * (np.arange(25) == 12),
                       asked.labels)
    said = " ".join(tell(findings(fit(slipped, FITTED), error=STATED)))
    assert "more than the instruments explain" in said
    assert "lump at 1860 s: computed" in said


def test_too_small_misses_are_told() -> None:
    said = " ".join(tell(findings(fit(question(MIDDLE, 3, error=0.3), FITTED), error=STATED)))
    assert "they are stated large" in said


def test_starts_that_failed_and_fits_not_at_rest_are_told() -> None:
    asked = question(MIDDLE, 3)

    def misses(values: Any) -> Any:
        if values[1] > 30.0:
            raise ValueError("it went out")
        return asked.misses(values)

    broken = Question(asked.guesses, misses, asked.labels)
    said = tell(findings(fit(broken, Settings(**{**vars(FITTED), "starts": 12})), error=STATED))
    assert any(one.startswith("Starts that failed, ") and "it went out" in one for one in said)
    assert any(one.startswith("12 starts, ") for one in said)


def test_numbers_are_those_of_the_words_and_json_takes_them() -> None:
    found = findings(fit(question(MIDDLE, 3), FITTED), error=STATED, profiled=True)
    told = json.loads(json.dumps(record(found), allow_nan=False))
    assert told["guesses"][0]["now"] == pytest.approx(found.sure.values[0])
    assert np.array(told["covariance"]["rows"]) == pytest.approx(found.sure.covariance)
    table = guesses_table(found)
    assert {"guess", "was", "now", "low", "high", "profile_low"} <= set(table.columns)
    assert table["profile_low"][1] == pytest.approx(table["low"][1], rel=0.02)


@pytest.mark.parametrize("name", LOSSES)
def test_losses_begin_as_squares_and_their_slopes_are_right(name: str) -> None:
    """rho(z) = z for small z; rho' against differences of rho."""
    loss = loss_of(name, 4, 2.0)
    z = np.array([1e-6, 0.5, 3.0, 50.0])
    made = loss(z)
    assert made[0, 0] == pytest.approx(1e-6, rel=1e-4)
    step = 1e-5
    assert made[1] == pytest.approx((loss(z + step)[0] - loss(z - step)[0]) / (2 * step), rel=1e-4)
    assert made[2] == pytest.approx((loss(z + step)[1] - loss(z - step)[1]) / (2 * step),
                                    rel=1e-3, abs=1e-9)


def test_the_lump_meets_its_own_equation() -> None:
    """C dx/dt = P (1 - exp(-t/tau)) - U x, by differences."""
    times, step = np.array([200.0, 900.0, 2500.0]), 0.01
    capacity, loss, tau, air = MIDDLE
    rate = (temperature(MIDDLE, times + step) - temperature(MIDDLE, times - step)) / (2 * step)
    given = 6000.0 * (1.0 - np.exp(-times / tau)) - loss * (temperature(MIDDLE, times) - air)
    assert capacity * rate == pytest.approx(given, rel=1e-6)
