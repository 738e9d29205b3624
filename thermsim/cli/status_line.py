"""What is being fired, on the error stream: a changing line on a terminal, else plain lines."""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Any, Self

from thermsim.cli.sweep_progress import EVERY, clock


class StatusLine:
    """Counts firings and tells what goes on; `first` is what it begins with."""

    def __init__(self, first: str) -> None:
        self.first = first
        self.ended = 0
        self.begun = self.told_at = time.perf_counter()
        self._status: Any = None

    def __enter__(self) -> Self:
        if sys.stderr is not None and sys.stderr.isatty():
            from rich.console import Console

            self._status = Console(file=sys.stderr).status(self.first)
            self._status.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 where: TracebackType | None) -> None:
        if self._status is not None:
            self._status.stop()
        elif error is None and self.ended:
            self.say(f"{self.ended} fired, {self.gone()} gone.")

    def gone(self) -> str:
        """Time since it began."""
        return clock(time.perf_counter() - self.begun)

    def tell(self, words: str, so_far: str, at_once: bool = False) -> None:
        """What goes on; a plain line now and then, or at once."""
        if self._status is not None:
            self._status.update(f"{words} ({so_far})")
            return
        now = time.perf_counter()
        if at_once or now - self.told_at > EVERY:
            self.told_at = now
            self.say(f"{words}.")

    def say(self, text: str) -> None:
        """One line beside what changes."""
        if self._status is not None:
            self._status.console.print(text, highlight=False)
        else:
            print(text, file=sys.stderr, flush=True)
