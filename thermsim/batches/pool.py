"""Workers: cases are handed out by joblib, on this machine's cores or on a cluster.

A worker that is killed takes the whole pool of its cores with it; what was done is kept, and the
rest is begun anew. A case that kills its worker again and again is given up.
"""

from __future__ import annotations

import os
import signal
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from typing import Any, Protocol

from thermsim.batches.job import failed, fire_case
from thermsim.errors import ThermsimError

PROCESSES, DASK = "processes", "dask"
BACKENDS = (PROCESSES, DASK)
MOST_DEATHS = 3
"""times that the workers may die without one case more done"""
LOOK_EVERY = 1.0
"""seconds between a worker's looks whether its parent lives"""
Done = Callable[[int, str, dict[str, Any]], None]


class Numbered(Protocol):
    """What can be handed to a worker: it travels as text, and is known by number and key."""

    @property
    def number(self) -> int:
        """Its place among the jobs."""

    @property
    def key(self) -> str:
        """What its record is kept under."""


Task = Callable[[Any, str | None], tuple[int, str, dict[str, Any]]]
"""what a worker does with a job: as `fire_case`"""


def run_jobs(jobs: Sequence[Numbered], workers: int, backend: str, scheduler: str | None,
             store: str | None, done: Done, say: Callable[[str], None],
             task: Task = fire_case) -> None:
    """Do the task with all jobs; `done` is told of each as it ends, in any order."""
    left = {job.number: job for job in jobs}
    deaths = 0
    while left:
        before = len(left)
        try:
            with _workers(backend, workers, scheduler):
                for number, key, record in _results(list(left.values()), workers, backend, store,
                                                     task):
                    left.pop(number, None)
                    done(number, key, record)
            return
        except deadly() as death:
            deaths = deaths + 1 if len(left) == before else 1
            say(f"A worker died ({type(death).__name__}): {len(left)} firings are taken up anew.")
        if deaths >= MOST_DEATHS:
            for number, job in left.items():
                done(number, job.key, failed("failed", f"its worker died {deaths} times"))
            return


def _results(jobs: Sequence[Numbered], workers: int, backend: str, store: str | None,
             task: Task) -> Iterator[tuple[int, str, dict[str, Any]]]:
    """Ends of the jobs as they come."""
    if workers == 1 and backend == PROCESSES:
        yield from (task(job, store) for job in jobs)
        return
    from joblib import Parallel, delayed

    calls = [delayed(work)(task, job, store, os.getpid()) for job in jobs]
    if backend == DASK:  # a cluster's disks may not be this one's: the records come back instead
        calls = [delayed(task)(job, None) for job in jobs]
    yield from Parallel(n_jobs=workers, return_as="generator_unordered", batch_size=1,
                        pre_dispatch="3*n_jobs")(calls)


_firing = threading.Lock()


def work(task: Task, job: Numbered, store: str | None,
         parent: int) -> tuple[int, str, dict[str, Any]]:
    """The task, in a process that ends when the one that started it is gone."""
    _watch(parent)
    with _firing:
        return task(job, store)


def work_on(function: Callable[[Any], Any], parent: int, thing: Any) -> Any:
    """One thing of many, in a process that ends when the one that started it is gone."""
    _watch(parent)
    with _firing:
        return function(thing)


@cache
def _watch(parent: int) -> None:
    """Begin to look, once, whether the parent still lives.

    An interrupt at the terminal reaches every process: the parent alone answers it and ends the
    workers, which would else leave in the midst of compiled code and say so at length.
    """
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_leave_after, args=(parent,), daemon=True).start()


def _leave_after(parent: int) -> None:
    """End this process once the parent is gone and no firing is in hand.

    Workers would wait five minutes for more work from a parent that was killed.
    """
    while os.getppid() == parent or not _firing.acquire(blocking=False):
        time.sleep(LOOK_EVERY)
    os._exit(0)


@contextmanager
def _workers(backend: str, workers: int, scheduler: str | None) -> Iterator[None]:
    """The surroundings in which joblib finds its workers; one thread of linear algebra each."""
    if backend == PROCESSES:
        if workers == 1:
            yield
            return
        from joblib import parallel_config

        with parallel_config(backend="loky", inner_max_num_threads=1):
            yield
        return
    try:
        from distributed import Client
        from joblib import parallel_config
    except ImportError:
        raise ThermsimError("the backend 'dask' needs the extra of that name: install "
                            "thermsim[dask]") from None
    try:
        client = Client(scheduler, timeout=10)
    except (OSError, TimeoutError, ValueError) as error:
        raise ThermsimError(f"no scheduler answers at {scheduler}: {error}") from None
    with client, parallel_config(backend="dask"):
        yield


def deadly() -> tuple[type[BaseException], ...]:
    """What is raised where workers die."""
    from joblib.externals.loky.process_executor import BrokenProcessPool, TerminatedWorkerError

    return (TerminatedWorkerError, BrokenProcessPool)


def cores() -> int:
    """Cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else (
        os.cpu_count() or 1)
