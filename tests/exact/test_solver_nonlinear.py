"""Cooling by radiation, a stiff reaction, and short pulses in a long run."""

import numpy as np
import pytest

from thermsim.solver import Act, Agenda, ArraySystem, Effect, Settings, solve

SIGMA = 5.670374419e-8  # W/(m2 K4), CODATA 2018
ROBERTSON = np.array([0.04, 1e4, 3e7])  # H. H. Robertson (1966), rates of the three reactions
LOOSE_TO_TIGHT = ("LSODA", "BDF", "Radau")


def radiating(surroundings, capacity_per_area):
    return ArraySystem(
        lambda t, y: -SIGMA * (y**4 - surroundings**4) / capacity_per_area,
        ["T"],
        np.eye(1),
        np.array([0.01]),
    )


def test_radiating_into_cold_space():
    """dT/dt = -k T^4 gives T = (T0^-3 + 3 k t)^(-1/3); Incropera and DeWitt eq. 5.19."""
    capacity, start = 4.0e4, 1300.0
    times = np.linspace(0.0, 3600.0, 50)
    expected = (start**-3 + 3.0 * SIGMA / capacity * times) ** (-1.0 / 3.0)
    solution = solve(radiating(0.0, capacity), np.array([start]), 3600.0)
    assert np.abs(solution.trajectory(times)[:, 0] - expected).max() < 0.1
    tight = solve(
        radiating(0.0, capacity), np.array([start]), 3600.0, settings=Settings(tighten=1e3)
    )
    assert np.abs(tight.trajectory(times)[:, 0] - expected).max() < 1e-3


def test_radiating_to_warm_surroundings():
    """Time to reach a temperature, Incropera and DeWitt eq. 5.18 (from memory):

    t = c / (4 sigma Ts^3) { ln|(Ts + T)/(Ts - T)| + 2 atan(T / Ts) } between the two temperatures.
    """
    surroundings, capacity, start, final = 300.0, 4.0e4, 1300.0, 320.0

    def course(T):
        ratio = abs((surroundings + T) / (surroundings - T))
        return np.log(ratio) + 2.0 * np.arctan(T / surroundings)

    time = capacity / (4.0 * SIGMA * surroundings**3) * (course(final) - course(start))
    solution = solve(radiating(surroundings, capacity), np.array([start]), time)
    assert solution.trajectory(time)[0] == pytest.approx(final, abs=0.02)


def robertson():
    k1, k2, k3 = ROBERTSON

    def rates(t, y):
        first, second, third = k1 * y[0], k2 * y[1] * y[2], k3 * y[1] ** 2
        return np.array([second - first, first - second - third, third])

    pattern = np.array([[1, 1, 1], [1, 1, 1], [0, 1, 0]])
    return ArraySystem(rates, ["A", "B", "C"], pattern, np.array([1e-5, 1e-9, 1e-5]))


@pytest.mark.parametrize("method", LOOSE_TO_TIGHT)
def test_a_stiff_reaction_at_forty_seconds(method):
    """Hairer and Wanner, Solving ODEs II, problem ROBER, t = 40 (from memory; confirmed by
    scipy's Radau at 1e-12): 0.7158270688, 9.185534765e-6, 0.2841637458."""
    expected = [0.7158270688, 9.185534765e-6, 0.2841637458]
    settings = Settings(method=method, tighten=100.0)
    found = solve(robertson(), np.array([1.0, 0.0, 0.0]), 40.0, settings=settings).trajectory(40.0)
    np.testing.assert_allclose(found, expected, rtol=1e-5)
    assert found.sum() == pytest.approx(1.0, abs=1e-12)


def test_a_stiff_reaction_after_three_thousand_years():
    """F. Mazzia and C. Magherini, Test Set for IVP Solvers, problem ROBER, t = 1e11 (from memory):

    0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050.
    """
    expected = [0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050]
    system = robertson()
    system.absolute_tolerances = np.array([1e-12, 1e-18, 1e-6])
    settings = Settings(rtol=1e-7, look_every=np.inf)
    solution = solve(system, np.array([1.0, 0.0, 0.0]), 1e11, settings=settings)
    np.testing.assert_allclose(solution.trajectory(1e11), expected, rtol=1e-3)


class Feeding:
    """Something fed in at a rate that acts switch or ramp; the state is what has come in."""

    def __init__(self):
        self.base, self.slope, self.since = 0.0, 0.0, 0.0

    def rates(self, t, y):
        return np.array([self.base + self.slope * (t - self.since)])

    def system(self):
        return ArraySystem(self.rates, ["fed"], np.zeros((1, 1)), np.array([1e-5]))

    def set(self, base, slope, jumps=()):
        def apply(t, y):
            self.base, self.slope, self.since = base, slope, t
            return Effect(jumps=tuple(t + jump for jump in jumps))

        return apply


@pytest.mark.parametrize("method", LOOSE_TO_TIGHT)
def test_a_pulse_of_five_seconds_in_an_hour(method):
    """0.2 kg/s for 5 s is 1 kg."""
    feeding = Feeding()
    acts = [
        Act(1800.0, 0, "begin", feeding.set(0.2, 0.0)),
        Act(1805.0, 1, "end", feeding.set(0.0, 0.0)),
    ]
    settings = Settings(method=method)
    solution = solve(feeding.system(), np.zeros(1), 3600.0, Agenda(acts), settings)
    assert solution.trajectory.pieces[-1].y1[0] == pytest.approx(1.0, abs=1e-5)
    assert solution.trajectory(1800.0)[0] == 0.0


def test_a_ramp_announced_by_one_act():
    """A triangle of base 5 s and height 0.4 kg/s is 1 kg; its top and end are announced kinks."""

    def rates(t, y):
        return np.array([0.16 * max(0.0, min(t - 1800.0, 1805.0 - t))])

    system = ArraySystem(rates, ["fed"], np.zeros((1, 1)), np.array([1e-5]))
    act = Act(1800.0, 0, "throw in", lambda t, y: Effect(jumps=(t + 2.5, t + 5.0)))
    solution = solve(system, np.zeros(1), 3600.0, Agenda([act]))
    assert solution.trajectory(3600.0)[0] == pytest.approx(1.0, abs=1e-5)
    assert solution.trajectory.restarts == 3


def test_totals_of_a_stiff_nonlinear_chain_close_to_rounding():
    """Heat radiated and conducted down a chain into a counted loss, charges thrown in."""
    n, surroundings = 12, 290.0
    capacity = np.logspace(1, 5, n)

    def rates(t, y):
        T = y[:n]
        passed = 20.0 * (T[:-1] - T[1:]) + 2e-9 * (T[:-1] ** 4 - T[1:] ** 4)
        lost = 2e-8 * (T[-1] ** 4 - surroundings**4)
        fed = 5000.0 * (1.0 + np.sin(t / 30.0))
        gained = np.append(-passed, -lost)
        gained[1:] += passed
        gained[0] += fed
        return np.concatenate([gained / capacity, [lost, fed]])

    pattern = np.zeros((n + 2, n + 2))
    band = np.arange(n)
    pattern[band, band] = 1
    pattern[band[1:], band[:-1]] = pattern[band[:-1], band[1:]] = 1
    pattern[n, n - 1] = 1
    names = [f"T{i}" for i in range(n)] + ["lost", "fed"]
    system = ArraySystem(rates, names, pattern, np.full(n + 2, 0.01), np.array([n, n + 1]))
    y0 = np.append(np.full(n, surroundings), [0.0, 0.0])
    acts = [Act(600.0, 0, "throw in", lambda t, y: Effect(y + np.eye(n + 2)[3] * 40.0))]
    solution = solve(system, y0, 3600.0, Agenda(acts))
    end = solution.trajectory(3600.0)
    stored = (end[:n] - surroundings) @ capacity - 40.0 * capacity[3]
    assert abs(stored + end[n] - end[n + 1]) < 1e-10 * end[n + 1]
    by_hand = 5000.0 * (3600.0 + 30.0 * (1.0 - np.cos(120.0)))
    assert end[n + 1] == pytest.approx(by_hand, rel=1e-4)
