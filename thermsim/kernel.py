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
from pathlib import Path
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


import numba  # noqa: E402

# set here and not by the environment, which numba reads only once: another package may have
# imported it before
numba.config.CACHE_DIR = str(cache_folder())  # type: ignore[attr-defined]

PLAIN = bool(numba.config.DISABLE_JIT)  # type: ignore[attr-defined]


_HOW: dict[str, Any] = {"error_model": "numpy", "fastmath": {"contract", "nsz"}}


def kernel(law: Law) -> Law:
    """Compile a pure function of floats and tables; division by zero gives inf, as numpy does.

    Compiled into whatever calls it; not kept on disk by itself.
    """
    compiled: Law = numba.njit(**_HOW)(law)
    return compiled


def entry(law: Law) -> Law:
    """As `kernel`, for the functions that Python itself calls in a run: kept on disk."""
    compiled: Law = numba.njit(cache=True, **_HOW)(law)
    return compiled


def table(row_type: np.dtype[Any], rows: int) -> NDArray[Any]:
    """Zeroed rows with named columns, read as `rows[i].name` in compiled and plain code alike."""
    made = np.zeros(rows, dtype=row_type)
    return np.asarray(made).view(np.recarray) if PLAIN else made
