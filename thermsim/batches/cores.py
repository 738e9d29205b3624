"""Any function over many things on all cores, as `map`: for who must have all answers at once."""

from __future__ import annotations

import os
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
    yield OnCores(workers)


class OnCores:
    """A map over processes that stay for the next call; a pool that died is begun anew."""

    def __init__(self, workers: int) -> None:
        self.workers = workers

    def __call__(self, function: Callable[[Any], Any], things: Iterable[Any]) -> list[Any]:
        """Answers in order. Raises ThermsimError if workers die again and again."""
        from joblib.externals.loky import get_reusable_executor

        held = list(things)
        for _ in range(MOST_DEATHS):
            pool = get_reusable_executor(max_workers=self.workers, timeout=IDLE,
                                         env=dict.fromkeys(ONE_THREAD, "1"))
            try:
                return list(pool.map(partial(work_on, function, os.getpid()), held))
            except deadly():
                continue
        raise ThermsimError(f"the workers died {MOST_DEATHS} times over the same work")
