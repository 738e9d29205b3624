"""Coloured differences against matrices written down by hand."""

import numpy as np
from scipy import sparse
from scipy.linalg import expm

from thermsim.solver import ArraySystem, ColouredJacobian, colour_columns, integrate, jacobian_of
from thermsim.solver.jacobian import KeptJacobian
from thermsim.solver.system import Settings

UNSYMMETRIC = np.array([[-500.0, 0.0, 0.0], [400.0, -2.0, 0.0], [7.0, 1.0, -0.1]])


def linear(matrix, tolerance=1e-6):
    n = len(matrix)
    names = [f"state {i}" for i in range(n)]
    return ArraySystem(lambda t, y: matrix @ y, names, matrix != 0, np.full(n, tolerance))


def test_tridiagonal_needs_three_colours():
    """Curtis, Powell and Reid (1974): a band of width w needs w groups."""
    band = sparse.diags([1.0, 1.0, 1.0], [-1, 0, 1], shape=(50, 50))
    colours, count = colour_columns(band)
    assert count == 3
    rows = [colours[np.flatnonzero(row)] for row in band.toarray()]
    assert all(len(set(row.tolist())) == len(row) for row in rows)


def test_columns_without_dependents_are_skipped():
    colours, count = colour_columns(np.array([[True, False], [True, False]]))
    assert count == 1
    assert colours.tolist() == [0, -1]


def test_rows_are_rates_and_columns_states():
    found = ColouredJacobian(linear(UNSYMMETRIC))(0.0, np.array([1.0, 2.0, 3.0]))
    np.testing.assert_allclose(found, UNSYMMETRIC, rtol=1e-7, atol=1e-7)
    assert found.flags.c_contiguous


def test_lsoda_gets_the_matrix_the_right_way_round():
    """Transposed, the same run takes several times the Jacobians."""
    plain = linear(UNSYMMETRIC)
    right = integrate(plain, np.ones(3), 0.0, 10.0, Settings())

    class Turned(ColouredJacobian):
        def __call__(self, t, y):
            return np.ascontiguousarray(super().__call__(t, y).T)

    wrong = integrate(plain, np.ones(3), 0.0, 10.0, Settings(),
                      jacobian=KeptJacobian(Turned(plain)))
    assert right.counts.jacobians * 2 < wrong.counts.jacobians


def test_linear_totals_are_kept_to_rounding():
    """Where w.f = 0 exactly, w.J = 0: heat passed on by a stiff nonlinear chain, w capacities."""
    n = 40
    capacity = np.logspace(0, 5, n)

    def rates(t, y):
        passed = 3.0 * (y[:-1] - y[1:]) + 1e-7 * (y[:-1] ** 4 - y[1:] ** 4)
        gained = np.zeros(n)
        gained[:-1] -= passed
        gained[1:] += passed
        return gained / capacity

    pattern = sparse.diags([1.0, 1.0, 1.0], [-1, 0, 1], shape=(n, n))
    system = ArraySystem(rates, [str(i) for i in range(n)], pattern, np.full(n, 0.01))
    jacobian = ColouredJacobian(system)(0.0, np.linspace(1500.0, 300.0, n))
    scale = capacity @ np.abs(jacobian)
    assert np.max(np.abs(capacity @ jacobian) / scale) < 1e-9
    assert ColouredJacobian(system).colours == 3


def test_increments_suit_small_and_large_states():
    """d(m^2)/dm at 1e-3 kg/s and d(E^2)/dE at 1e7 J, tolerances 1e-7 and 100."""
    y = np.array([1e-3, 1e7])
    system = ArraySystem(lambda t, y: y**2, ["m", "E"], np.eye(2), np.array([1e-7, 100.0]))
    found = ColouredJacobian(system)(0.0, y)
    np.testing.assert_allclose(np.diag(found), 2.0 * y, rtol=2e-5)


def test_a_system_may_do_all_differences_in_one_call():
    class Together:
        names = ("a", "b", "c")
        pattern = UNSYMMETRIC != 0
        absolute_tolerances = np.full(3, 1e-6)
        uncontrolled = np.zeros(0, dtype=np.int64)

        def rates(self, t, y):
            return UNSYMMETRIC @ y

        def plausible(self, t, y):
            return None

        def colour_rates(self, t, y, groups, steps):
            return np.array(
                [
                    self.rates(t, y + np.where(groups == c, steps, 0.0))
                    for c in range(max(groups) + 1)
                ]
            )

    found = jacobian_of(Together())(0.0, np.array([1.0, 2.0, 3.0]))
    np.testing.assert_allclose(found, UNSYMMETRIC, rtol=1e-7, atol=1e-7)


def test_summands_of_a_dense_row_need_fewer_colours():
    """A total over all states: its summands are differenced and added into its row."""
    n = 12
    weights = np.arange(1.0, n)

    class WithTotal:
        names = tuple(str(i) for i in range(n))
        pattern = np.vstack([np.eye(n)[:-1], np.append(np.ones(n - 1), 0.0)]) != 0
        absolute_tolerances = np.full(n, 1e-6)
        uncontrolled = np.array([n - 1])
        difference_pattern = np.vstack([np.eye(n)[:-1], np.eye(n)[:-1]])
        difference_rows = np.concatenate([np.arange(n - 1), np.full(n - 1, n - 1)])

        def rates(self, t, y):
            return np.append(-weights * y[:-1], weights @ y[:-1])

        def difference_rates(self, t, y):
            return np.concatenate([-weights * y[:-1], weights * y[:-1]])

        def plausible(self, t, y):
            return None

    jacobian = ColouredJacobian(WithTotal())
    assert jacobian.colours == 1
    assert colour_columns(WithTotal.pattern)[1] == n - 1
    expected = np.zeros((n, n))
    expected[np.arange(n - 1), np.arange(n - 1)] = -weights
    expected[-1, :-1] = weights
    np.testing.assert_allclose(jacobian(0.0, np.ones(n)), expected, rtol=1e-6, atol=1e-9)


def test_a_supplied_jacobian_is_used_and_counted():
    system = linear(UNSYMMETRIC)
    system.jacobian = lambda t, y: UNSYMMETRIC.copy()
    piece = integrate(system, np.ones(3), 0.0, 10.0, Settings())
    assert piece.counts.jacobians > 0
    np.testing.assert_allclose(piece.y1, expm(10.0 * UNSYMMETRIC) @ np.ones(3), atol=1e-4)
