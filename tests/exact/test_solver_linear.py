"""A linear network of temperatures, a flow and pure totals against the matrix exponential."""

import numpy as np
import pytest
from scipy.linalg import expm

from thermsim.solver import Act, Agenda, ArraySystem, Effect, Event, Settings, solve

AMBIENT = 285.0
CAPACITY = np.array([40.0, 900.0, 2.0e4, 8.0e4])  # J/K: a gas, a plate, a wall, water
JOINING = np.array([35.0, 60.0, 90.0])  # W/K from each node to the next
LOSS = 6.0  # W/K from the third node to outside
HEAT = 9000.0  # W into the first
BUOYANCY, RESISTANCE, INERTIA = 0.01, 2.0e3, 150.0  # Pa/K, Pa s/kg, 1/m
CARRIED = 4.0e5  # W s/kg taken from the first node by the flow
NAMES = ["gas", "plate", "wall", "water", "flow", "total lost", "total in"]
END = 3600.0


def network():
    """Matrix and constant part of dy/dt = A y + b."""
    A, b = np.zeros((7, 7)), np.zeros(7)
    for i, h in enumerate(JOINING):
        A[i, [i, i + 1]] += np.array([-h, h]) / CAPACITY[i]
        A[i + 1, [i, i + 1]] += np.array([h, -h]) / CAPACITY[i + 1]
    A[2, 2] -= LOSS / CAPACITY[2]
    b[2] += LOSS * AMBIENT / CAPACITY[2]
    b[0] += HEAT / CAPACITY[0]
    A[0, 4] -= CARRIED / CAPACITY[0]
    A[4, 0], A[4, 4], b[4] = (
        BUOYANCY / INERTIA,
        -RESISTANCE / INERTIA,
        -BUOYANCY * AMBIENT / INERTIA,
    )
    A[5, 2], A[5, 4], b[5] = LOSS, CARRIED, -LOSS * AMBIENT
    b[6] = HEAT
    return A, b


def exact(A, b, y0, t):
    """Matrix exponential of the system with a constant appended."""
    wide = np.zeros((8, 8))
    wide[:7, :7], wide[:7, 7] = A, b
    return (expm(wide * t) @ np.append(y0, 1.0))[:7]


@pytest.fixture
def system():
    A, b = network()
    tolerances = np.array([0.01, 0.01, 0.01, 0.01, 1e-7, 1.0, 1.0])
    return ArraySystem(
        lambda t, y: A @ y + b, NAMES, A != 0, tolerances, uncontrolled=np.array([5, 6])
    )


START = np.array([AMBIENT] * 4 + [0.0, 0.0, 0.0])
HOT = np.array([0.0, 0.0, 50.0, 0.0, 0.0, 0.0, 0.0])


@pytest.mark.parametrize("method", ["LSODA", "BDF", "Radau"])
def test_against_the_matrix_exponential(system, method):
    A, b = network()
    solution = solve(system, START, END, settings=Settings(method=method))
    times = np.concatenate([[0.0], np.geomspace(0.01, END, 150)])
    found = solution.trajectory(times)
    expected = np.array([exact(A, b, START, t) for t in times])
    assert np.abs(found[:, :4] - expected[:, :4]).max() < 0.1
    assert np.abs(found[:, 4] - expected[:, 4]).max() < 1e-6
    assert 0.001 < expected[-1, 4] < 0.01
    assert expected[-1, 0] > 400.0


def test_across_a_jump(system):
    A, b = network()
    act = Act(900.0, 0, "hot stone", lambda t, y: Effect(y + HOT))
    found = solve(system, START, END, Agenda([act]), Settings(tighten=100.0)).trajectory(END)
    before = exact(A, b, START, 900.0) + HOT
    np.testing.assert_allclose(found[:4], exact(A, b, before, END - 900.0)[:4], atol=0.002)


def test_totals_outside_the_error_control_close_to_rounding(system):
    """Heat in = heat stored + heat lost, although nobody controls the error of the totals."""
    solution = solve(system, START, END)
    states = solution.trajectory(np.linspace(0.0, END, 200))
    stored = (states[:, :4] - AMBIENT) @ CAPACITY
    np.testing.assert_allclose(states[:, 6], HEAT * np.linspace(0.0, END, 200), rtol=1e-12)
    assert np.abs(stored + states[:, 5] - states[:, 6]).max() < 1e-10 * HEAT * END


def test_totals_do_not_shorten_the_steps(system):
    with_totals = solve(system, START, END).counts.steps
    A, b = network()
    bare = ArraySystem(
        lambda t, y: A[:5, :5] @ y + b[:5],
        NAMES[:5],
        A[:5, :5] != 0,
        system.absolute_tolerances[:5],
    )
    assert with_totals <= 1.05 * solve(bare, START[:5], END).counts.steps


@pytest.mark.parametrize("tighten", [1.0, 100.0])
def test_an_event_is_found_at_its_moment(system, tighten):
    """The plate passes 320 K and the wall 300 K; moments by halving the matrix exponential."""
    A, b = network()
    marks = {"plate": (1, 320.0), "wall": (2, 300.0)}
    events = [
        Event(name, lambda t, y, i=i, mark=mark: y[i] - mark) for name, (i, mark) in marks.items()
    ]
    agenda = Agenda(events=events)
    solve(system, START, END, agenda, Settings(tighten=tighten))
    for name, (i, mark) in marks.items():
        low, high = 0.0, END
        while high - low > 1e-6:
            middle = 0.5 * (low + high)
            low, high = (middle, high) if exact(A, b, START, middle)[i] < mark else (low, middle)
        assert agenda.time_of(name) == pytest.approx(high, abs=0.1)


def test_the_error_falls_with_the_tolerance(system):
    A, b = network()
    expected = exact(A, b, START, 300.0)[:4]
    errors = []
    for rtol in (1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8):
        settings = Settings(rtol=rtol, tighten=1.0)
        system.absolute_tolerances = np.array([1e3, 1e3, 1e3, 1e3, 1e-2, 1, 1]) * rtol
        errors.append(
            np.abs(
                solve(system, START, 300.0, settings=settings).trajectory(300.0)[:4] - expected
            ).max()
        )
    slope = np.polyfit(np.arange(6), -np.log10(errors), 1)[0]
    assert 0.6 < slope < 1.4
    assert errors[-1] < 1e-3
