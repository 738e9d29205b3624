"""How far a run has come, told on the error stream: only to a terminal, only after two seconds."""

from __future__ import annotations

import sys
import threading
from types import TracebackType
from typing import Any

PATIENCE = 2.0
"""seconds of silence before anything is shown"""
COMPILING = "Compiling the model for this machine, once: about a minute"
RUNNING = "Computing the firing"
_SECONDS_A_MINUTE = 60.0


class Progress:
    """A line with a bar while the work under it lasts; silent where no one is watching.

    Works from a timer of its own, since compiling calls nothing back.
    """

    def __init__(self, until: float, compiling: bool, patience: float = PATIENCE) -> None:
        self.until = until
        self.words = COMPILING if compiling else RUNNING
        self.patience = patience
        self.time = 0.0
        self._bar: Any = None
        self._task: Any = None
        self._lock = threading.Lock()
        self._timer: threading.Timer | None = None
        self._over = False

    def __enter__(self) -> Progress:
        if sys.stderr is not None and sys.stderr.isatty():
            if self.words == COMPILING:
                print(f"{COMPILING}.", file=sys.stderr, flush=True)
            self._timer = threading.Timer(self.patience, self._show)
            self._timer.daemon = True
            self._timer.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        where: TracebackType | None,
    ) -> None:
        if self._timer is not None:
            self._timer.cancel()
        with self._lock:
            self._over = True
            if self._bar is not None:
                self._bar.stop()
                self._bar = None

    def at(self, time: float, *_: object) -> None:
        """The firing has come to this time [s]; cheap, called at every step."""
        self.time = time
        if self._bar is not None and self._lock.acquire(blocking=False):
            try:
                self._move()
            finally:
                self._lock.release()

    def _show(self) -> None:
        """Begin the bar, from the timer's thread."""
        from rich.console import Console
        from rich.progress import BarColumn, SpinnerColumn, TextColumn, TimeElapsedColumn
        from rich.progress import Progress as Bar

        with self._lock:
            if self._over:
                return
            bar = Bar(
                SpinnerColumn(),
                TextColumn("{task.description}"),
                BarColumn(),
                TextColumn("{task.fields[clock]}"),
                TimeElapsedColumn(),
                console=Console(file=sys.stderr),
                transient=True,
            )
            self._task = bar.add_task(self.words, total=self.until, clock="")
            bar.start()
            self._bar = bar
            self._move()

    def _move(self) -> None:
        if self._bar is None:
            return
        if self.time > 0.0:
            minutes = self.time / _SECONDS_A_MINUTE
            self._bar.update(self._task, completed=self.time, description=RUNNING,
                             clock=f"{minutes:.0f} of {self.until / _SECONDS_A_MINUTE:.0f} min")
