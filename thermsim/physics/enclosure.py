"""Radiation among any number of grey surfaces round a clear gas."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import kernel
from thermsim.physics.linear_system import solve_small


@kernel
def radiosities(
    emitted: NDArray[np.float64],
    emissivity: NDArray[np.float64],
    view: NDArray[np.float64],
    work: NDArray[np.float64],
    J: NDArray[np.float64],
) -> None:
    """Fill J, what leaves each of n surfaces [W/m2]: J_i = e_i E_i + (1 - e_i) sum F_ij J_j.

    emitted: E = sigma T^4 [W/m2]. emissivity: 0 stands for an insulated surface, which sends back
    what it gets whatever it is like (its E is its J). view[i, j]: F_ij, rows sum to 1; work: n x n
    of scratch. At least one surface has emissivity over 0.
    Source: Incropera 6e sect. 13.3 (eqs 13.19 to 13.21).
    """
    n = emitted.shape[0]
    for i in range(n):
        J[i] = emissivity[i] * emitted[i]
        for j in range(n):
            work[i, j] = -(1.0 - emissivity[i]) * view[i, j]
        work[i, i] += 1.0
    solve_small(work, J, n)


@kernel
def net_radiation(
    surface: int, area: float, view: NDArray[np.float64], J: NDArray[np.float64]
) -> float:
    """Give the net heat that leaves a surface by radiation [W]: A_i sum F_ij (J_i - J_j)."""
    total = 0.0
    for j in range(J.shape[0]):
        total += view[surface, j] * (J[surface] - J[j])
    return area * total
