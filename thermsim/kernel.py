"""The only door to numba: `kernel` compiles a law, `table` makes rows that it can read.

Compiled code is kept on disk in a folder keyed by a hash of every source file it comes from,
because numba's own cache looks only at the edited file and would go on using old callees.
With the environment variable NUMBA_DISABLE_JIT=1 everything runs as plain Python (tests do so).
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from types import CodeType
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

COMPILED = ("kernel.py", "physics/*.py", "parts/*.py", "network/balance.py",
            "network/ledger.py", "network/system.py")
"""sources with compiled functions; only these may use `kernel` or `entry`"""
Law = TypeVar("Law", bound=Callable[..., Any])


def _sources_hash() -> str:
    """Hash of all sources that are compiled, so that any edit gives a fresh cache folder."""
    digest = hashlib.sha256()
    package = Path(__file__).parent
    for folder in COMPILED:
        for source in sorted(package.glob(folder)):
            digest.update(source.read_bytes())
    return digest.hexdigest()[:16]


def cache_folder() -> Path:
    """The folder holding compiled code for exactly these sources."""
    home = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    folder = Path(home) / "thermsim" / _sources_hash()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / f"writable-{os.getpid()}"
        probe.touch()
        probe.unlink()
    except OSError:
        folder = Path(tempfile.gettempdir()) / f"thermsim-{os.getuid()}" / _sources_hash()
        folder.mkdir(parents=True, exist_ok=True)
    return folder


def compiled_before() -> bool:
    """Whether exactly these sources were compiled on this machine already."""
    return any(cache_folder().glob("**/*.nbi"))


import numba  # noqa: E402

# set here and not by the environment, which numba reads only once: another package may have
# imported it before
numba.config.CACHE_DIR = str(cache_folder())  # type: ignore[attr-defined]

# our loops run over a few rows with calls in them: nothing to vectorise, and looking for it took
# a tenth of the compilation
numba.config.LOOP_VECTORIZE = 0  # type: ignore[attr-defined]

PLAIN = bool(numba.config.DISABLE_JIT)  # type: ignore[attr-defined]


# No reference counts: they were a third of a right-hand side, whose kernels only look at tables
# that their caller holds. So a kernel makes no arrays of its own (numba refuses it).
_HOW: dict[str, Any] = {
    "error_model": "numpy", "fastmath": {"contract", "nsz"}, "_nrt": False,
    "no_cfunc_wrapper": True,
}


def _compile(law: Any, **more: Any) -> Any:
    how: dict[str, Any] = {**_HOW, **more}
    return numba.njit(**how)(law)


def kernel(law: Law) -> Law:
    """Compile a pure function of floats and tables; division by zero gives inf, as numpy does.

    Compiled into whatever calls it; not kept on disk by itself. One that takes a whole plant is
    called by other kernels only and gets no door for Python, which dies if it calls it (tests use
    `opened`): opening all the tables at such a door took longer to compile than the kernel.
    """
    code: CodeType = law.__code__
    inner = "plant" in code.co_varnames[:code.co_argcount]
    compiled: Law = _compile(law, no_cpython_wrapper=inner)
    return compiled


def plain(law: Law) -> Law:
    """The law as plain Python, for whole arrays of numbers at once."""
    made: Law = getattr(law, "py_func", law)
    return made


def part_of(law: Law) -> Law:
    """As `kernel`, but written into its one caller before compiling.

    numba optimises a function anew, with all that it calls, for each level of callers; for the
    large ones at the top this saves such levels.
    """
    compiled: Law = _compile(law, inline="always")
    return compiled


@cache
def opened(law: Law) -> Law:
    """A kernel that takes a plant, compiled anew with a door for Python; for tests."""
    if PLAIN:
        return law
    compiled: Law = _compile(law.py_func)  # type: ignore[attr-defined]
    return compiled


def entry(law: Law) -> Law:
    """As `kernel`, for the functions that Python itself calls in a run: kept on disk."""
    compiled: Law = _compile(law, cache=True)
    return compiled


def direct(law: Law) -> Law:
    """The code of an entry that has run once, without numba's look at each argument's type.

    Saves a fifth of a call with a plant's tables. The types must be those of the first call.
    """
    if PLAIN:
        return law
    compiled: Law = law.get_overload(law.signatures[0])  # type: ignore[attr-defined]
    return compiled


def table(row_type: np.dtype[Any], rows: int) -> NDArray[Any]:
    """Zeroed rows with named columns, read as `rows[i].name` in compiled and plain code alike."""
    made = np.zeros(rows, dtype=row_type)
    return np.asarray(made).view(np.recarray) if PLAIN else made
