"""Small linear systems, solved in place."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from thermsim.kernel import kernel


@kernel
def solve_small(A: NDArray[np.float64], b: NDArray[np.float64], n: int) -> None:
    """Solve A x = b for the first n rows and columns, n small: x stands in b, A is used up.

    Elimination, the largest of a column's rest exchanged into its row. Source: Golub and Van Loan,
    Matrix Computations, sect. 3.4 (from memory).
    """
    for i in range(n):
        best = i
        for r in range(i + 1, n):
            if abs(A[r, i]) > abs(A[best, i]):
                best = r
        if best != i:
            for c in range(n):
                A[i, c], A[best, c] = A[best, c], A[i, c]
            b[i], b[best] = b[best], b[i]
        for r in range(i + 1, n):
            part = A[r, i] / A[i, i]
            for c in range(i, n):
                A[r, c] -= part * A[i, c]
            b[r] -= part * b[i]
    for i in range(n - 1, -1, -1):
        for c in range(i + 1, n):
            b[i] -= A[i, c] * b[c]
        b[i] /= A[i, i]
