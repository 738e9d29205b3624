"""How a search for a speed goes, on the error stream: a line that changes, or plain lines."""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence
from types import TracebackType
from typing import Any

from thermsim.cli.sweep_progress import EVERY, clock


class SpeedProgress:
    """Says which speeds are being fired, and how many have been."""

    def __init__(self) -> None:
        self.ended = 0
        self.begun = self.told_at = time.perf_counter()
        self._status: Any = None

    def __enter__(self) -> SpeedProgress:
        if sys.stderr is not None and sys.stderr.isatty():
            from rich.console import Console

            self._status = Console(file=sys.stderr).status("Reading the scenario")
            self._status.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 where: TracebackType | None) -> None:
        if self._status is not None:
            self._status.stop()
        elif error is None and self.ended:
            self.say(f"{self.ended} fired, {clock(time.perf_counter() - self.begun)} gone.")

    def watcher(self) -> Any:
        """Whom the search tells."""
        from thermsim.batches.engine_speed import SpeedWatcher

        return SpeedWatcher(self.trying, self.done, self.say)

    def trying(self, speeds: Sequence[float]) -> None:
        """These speeds [1/min] are fired next."""
        words = f"Firing at {' and '.join(f'{speed:.4g}' for speed in speeds)} turns a minute"
        if self._status is not None:
            self._status.update(f"{words} ({self.ended} fired before)")
            return
        now = time.perf_counter()
        if not self.ended or now - self.told_at > EVERY:
            self.told_at = now
            self.say(f"{words}.")

    def done(self, trial: object) -> None:
        """A firing has ended."""
        self.ended += 1

    def say(self, text: str) -> None:
        """One line beside what changes."""
        if self._status is not None:
            self._status.console.print(text, highlight=False)
        else:
            print(text, file=sys.stderr, flush=True)
