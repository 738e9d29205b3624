"""Looking up states between steps and across jumps, and integrating over steps."""

import numpy as np
import pytest

from thermsim.solver import Act, Agenda, ArraySystem, Effect, Settings, solve
from thermsim.solver.trajectory import GAUSS_POINTS

RISE = np.array([1.0, 0.0])


@pytest.fixture
def falling():
    """y = exp(-t), raised by 1 at 2 s; the second state is time."""
    system = ArraySystem(
        lambda t, y: np.array([-y[0], 1.0]), ["y", "time"], np.eye(2), np.full(2, 1e-9)
    )
    agenda = Agenda([Act(2.0, 0, "raise", lambda t, y: Effect(y + RISE))])
    return solve(system, np.array([1.0, 0.0]), 4.0, agenda, Settings(rtol=1e-9)).trajectory


def exact(t, left=False):
    after = t > 2.0 if left else t >= 2.0
    return np.exp(-t) + np.where(after, np.exp(2.0 - t), 0.0)


@pytest.mark.parametrize("left", [False, True])
def test_states_at_any_times_in_any_order(falling, left):
    times = np.random.default_rng(0).permutation(np.append(np.linspace(0.0, 4.0, 101), 2.0))
    np.testing.assert_allclose(falling(times, left)[:, 0], exact(times, left), atol=1e-7)
    np.testing.assert_allclose(falling(times)[:, 1], times, atol=1e-7)


def test_a_single_time_gives_a_single_state(falling):
    assert falling(1.0).shape == (2,)
    assert falling(2.0)[0] - falling(2.0, left=True)[0] == pytest.approx(1.0, abs=1e-12)


def test_ends_and_edges(falling):
    assert (falling.t0, falling.t1) == (0.0, 4.0)
    edges = falling.step_edges
    assert np.all(np.diff(edges) > 0.0)
    assert 2.0 in edges
    assert len(edges) == falling.steps + 1
    assert falling.restarts == 1
    assert falling.rate_calls > falling.steps
    assert falling.grid(1.5).tolist() == [0.0, 1.5, 3.0, 4.0]


def test_quadrature_over_steps(falling):
    """Integral of y over 0..4: 1 - e^-4 + 1 - e^-2, by hand."""
    times, weights = falling.quadrature_points()
    assert times.shape == weights.shape == (falling.steps, GAUSS_POINTS)
    values = falling(times.ravel())[:, 0].reshape(times.shape)
    expected = 2.0 - np.exp(-4.0) - np.exp(-2.0)
    assert (weights * values).sum() == pytest.approx(expected, abs=1e-7)
    assert weights.sum() == pytest.approx(4.0, rel=1e-14)


def test_a_run_of_no_length_has_its_first_state():
    system = ArraySystem(lambda t, y: -y, ["y"], np.eye(1), np.full(1, 1e-9))
    stop = Act(0.0, 0, "stop", lambda t, y: Effect(stop=True))
    trajectory = solve(system, np.array([3.0]), 4.0, Agenda([stop])).trajectory
    assert trajectory(0.0).tolist() == [3.0]
    assert trajectory.t1 == 0.0
    assert trajectory.restarts == 0
    assert trajectory.grid(1.0).tolist() == [0.0]
    assert trajectory.quadrature_points()[0].shape == (0, GAUSS_POINTS)


def test_a_jump_at_the_very_end_is_kept():
    system = ArraySystem(lambda t, y: 0.0 * y, ["y"], np.eye(1), np.full(1, 1e-9))
    last = Act(4.0, 0, "raise", lambda t, y: Effect(y + 1.0))
    trajectory = solve(system, np.array([3.0]), 4.0, Agenda([last])).trajectory
    assert trajectory(4.0, left=True).tolist() == [3.0]
    assert trajectory(4.0).tolist() == [4.0]
