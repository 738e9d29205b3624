"""Exit codes, and how an error is told: a line each, no traceback."""

from __future__ import annotations

import os
import sys
import traceback

from thermsim.errors import ResultsError, ScenarioError, SolverError, ThermsimError

DONE = 0
"""the command did its work; for a run any physical outcome, smothered or dry included"""
UNEXPECTED = 1
"""a fault of the program"""
BEYOND_A_LIMIT = 1
"""of `hazards`: something is beyond its limit; a fault of the program says so in words"""
BAD_INPUT = 2
"""the scenario, a change, a path or an argument; nothing was run and nothing written"""
SOLVER_FAILED = 3
INTERRUPTED = 130
"""as shells count it: 128 and the number of the interrupt signal"""

DEBUG = "THERMSIM_DEBUG"


def complain(*lines: str) -> None:
    """Write lines to the error stream."""
    for line in lines:
        print(line, file=sys.stderr)


def tell_error(error: Exception) -> int:
    """Tell an error in a line for each problem; the exit code that belongs to it."""
    if os.environ.get(DEBUG):
        traceback.print_exception(error)
    if isinstance(error, ScenarioError):
        complain(*map(str, error.problems))
        return BAD_INPUT
    if isinstance(error, SolverError):
        complain(f"thermsim: {error}")
        return SOLVER_FAILED
    if isinstance(error, (ResultsError, ThermsimError)):
        complain(f"thermsim: {error}")
        return BAD_INPUT
    if isinstance(error, OSError):
        complain(f"thermsim: {error.filename or 'reading or writing'}: {error.strerror or error}")
        return BAD_INPUT
    kind = type(error).__name__
    what = " ".join(str(error).split()) or "no more is known"
    complain(
        f"thermsim: this should not have happened ({kind}: {what}); "
        f"set {DEBUG}=1 and run it again to see where."
    )
    return UNEXPECTED
