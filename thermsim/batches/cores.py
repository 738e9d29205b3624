"""Any function over many things on all cores, as `map`: for who must have all answers at once."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any

from thermsim.batches.pool import MOST_DEATHS, deadly, work_on
from thermsim.errors import ThermsimError

Mapping = Callable[[Callable[[Any], Any], Iterable[Any]], Iterable[Any]]
IDLE = 300
"""seconds after which workers without work leave"""
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "OMP_NUM_THREADS")


@contextmanager
def on_cores(workers: int) -> Iterator[Mapping]:
    """A map over so many processes; `map` itself for one. May be called from several threads."""
    if workers == 1:
        yield map
        return
    with OnCores(workers) as mapping:
        yield mapping


class OnCores:
    """A map over processes that stay for the next call; a pool that died is begun anew.

    The pool is its own, not the one that joblib keeps for sweeps, which would take it for theirs.
    """

    def __init__(self, workers: int) -> None:
        self.workers = workers
        self._pool: Any = None
        self._lock = threading.Lock()

    def __enter__(self) -> OnCores:
        return self

    def __exit__(self, *_: object) -> None:
        if self._pool is not None:
            self._pool.shutdown(wait=True, kill_workers=True)
            self._pool = None

    def __call__(self, function: Callable[[Any], Any], things: Iterable[Any]) -> list[Any]:
        """Answers in order. Raises ThermsimError if workers die again and again."""
        held = list(things)
        for _ in range(MOST_DEATHS):
            pool = self._living()
            try:
                return list(pool.map(partial(work_on, function, os.getpid()), held))
            except deadly():
                self._bury(pool)
        raise ThermsimError(f"the workers died {MOST_DEATHS} times over the same work")

    def _living(self) -> Any:
        from joblib.externals.loky import ProcessPoolExecutor

        with self._lock:
            if self._pool is None:
                self._pool = ProcessPoolExecutor(self.workers, timeout=IDLE,
                                                 env=dict.fromkeys(ONE_THREAD, "1"))
            return self._pool

    def _bury(self, pool: Any) -> None:
        """Forget a dead pool, once, whichever thread sees it first."""
        with self._lock:
            if self._pool is pool:
                pool.shutdown(wait=False, kill_workers=True)
                self._pool = None
