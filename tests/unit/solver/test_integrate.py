"""One piece: never beyond its end, every step looked at, other methods when one fails."""

import numpy as np
import pytest

from thermsim.solver import ArraySystem, Settings, Watch, integrate, solve

METHODS = ("LSODA", "BDF", "Radau")
TOLERANCES = np.array([1e-6, 1e-6])
COUPLED = np.array([[-20.0, 1.0], [2.0, -0.5]])


def system_of(rates, names=("T_fire", "flow"), plausible=None):
    made = ArraySystem(rates, names, np.ones((2, 2)), TOLERANCES)
    if plausible:
        made.plausible = plausible
    return made


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("start", [0.0, 6.9, 7.0 - 2e-6])
@pytest.mark.parametrize("scale", [0.0, 1e-9, 1.0])
def test_rates_are_never_asked_beyond_the_end(method, start, scale):
    def rates(t, y):
        assert t <= 7.0
        return COUPLED @ y

    piece = integrate(system_of(rates), scale * np.ones(2), start, 7.0, Settings(method=method))
    assert piece.failure is None
    assert piece.t1 == 7.0


def test_no_step_is_longer_than_allowed():
    piece = integrate(
        system_of(lambda t, y: COUPLED @ y), np.ones(2), 0.0, 100.0, Settings(max_step=0.5)
    )
    assert np.diff(piece.times).max() <= 0.5 + 1e-9


@pytest.mark.parametrize("method", METHODS)
def test_a_rate_that_is_no_number_is_named_with_its_time(method):
    def rates(t, y):
        found = COUPLED @ y
        if t > 3.0:
            found[1] = np.nan
        return found

    solution = solve(system_of(rates), np.ones(2), 10.0, settings=Settings(method=method))
    assert solution.outcome.key == "solver_failed"
    assert "flow" in solution.outcome.detail
    assert "at 3." in solution.outcome.detail
    assert 2.0 < solution.trajectory.t1 <= 3.0 + 1e-9
    assert np.isfinite(solution.trajectory([0.0, 1.0, 2.0])).all()


def test_the_next_method_takes_over_from_the_last_good_state():
    """Rates spoilt for the first method only: the answer is still that of the exact solution."""
    state = {"spoilt": True}

    def rates(t, y):
        if t > 3.0 and state["spoilt"]:
            state["spoilt"] = False
            raise ZeroDivisionError("spoilt once")
        return np.array([-y[0], 1.0])

    piece = integrate(system_of(rates), np.array([1.0, 0.0]), 0.0, 5.0, Settings(rtol=1e-7))
    assert piece.failure is None
    assert len(piece.counts.fallbacks) == 1
    assert "BDF" in piece.counts.fallbacks[0]
    assert "spoilt once" in piece.counts.fallbacks[0]
    np.testing.assert_allclose(piece.y1, [np.exp(-5.0), 5.0], atol=2e-5)


def test_an_implausible_state_is_told_in_its_own_words():
    def plausible(t, y):
        return f"T_fire is {y[0]:.0f}" if y[0] > 2.0 else None

    system = system_of(lambda t, y: np.array([1.0, 0.0]), plausible=plausible)
    solution = solve(system, np.array([0.0, 0.0]), 10.0)
    assert solution.outcome.key == "implausible_state"
    assert "T_fire is" in solution.outcome.detail
    assert solution.trajectory.t1 <= 2.0


def test_running_away_in_finite_time_is_a_failed_solve():
    """dy/dt = y^2 from 1 is 1 / (1 - t): nothing exists at t = 1."""
    system = system_of(lambda t, y: np.array([y[0] ** 2, 0.0]))
    solution = solve(system, np.array([1.0, 0.0]), 2.0, settings=Settings(max_steps=5000))
    assert solution.outcome.key == "solver_failed"
    assert "T_fire" in solution.outcome.detail
    assert solution.trajectory.t1 <= 1.0 + 1e-4


def test_an_interrupted_run_keeps_what_was_done():
    def rates(t, y):
        if t > 3.0:
            raise KeyboardInterrupt
        return COUPLED @ y

    solution = solve(system_of(rates), np.ones(2), 10.0)
    assert solution.outcome.key == "interrupted"
    assert not solution.outcome.complete
    assert 0.5 < solution.trajectory.t1 <= 3.0


def test_a_mistake_in_the_model_is_not_hidden():
    def rates(t, y):
        raise KeyError("no such part")

    with pytest.raises(KeyError):
        integrate(system_of(rates), np.ones(2), 0.0, 1.0, Settings())


def test_tightening_lessens_the_error():
    system = system_of(lambda t, y: np.array([-y[0], y[0]]))
    errors = [
        abs(
            integrate(system, np.array([1.0, 0.0]), 0.0, 3.0, Settings(tighten=by)).y1[0]
            - np.exp(-3.0)
        )
        for by in (1.0, 100.0)
    ]
    assert errors[1] < 0.1 * errors[0]


def test_a_terminal_watch_already_true_ends_at_once_only_if_told_so():
    system = system_of(lambda t, y: np.array([1.0, 0.0]))
    for at_start, end in ((True, 0.0), (False, 2.0)):
        watch = Watch("hot", lambda t, y: y[0], terminal=True, at_start=at_start)
        piece = integrate(system, np.array([1.0, 0.0]), 0.0, 2.0, Settings(), [watch])
        assert piece.t1 == end
        assert (piece.ended_by == "hot") is at_start


def test_progress_is_told_at_most_ten_times_a_second():
    told = []
    solution = solve(
        system_of(lambda t, y: COUPLED @ y),
        np.ones(2),
        100.0,
        settings=Settings(max_step=0.1),
        on_progress=told.append,
    )
    assert solution.counts.steps > 900
    assert 1 <= len(told) < 100
    assert told == sorted(told)
