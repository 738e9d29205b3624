"""How a search for a speed goes, on the error stream."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from thermsim.cli.status_line import StatusLine


class SpeedProgress(StatusLine):
    """Says which speeds are being fired, and how many have been."""

    def __init__(self) -> None:
        super().__init__("Reading the scenario")

    def watcher(self) -> Any:
        """Whom the search tells."""
        from thermsim.batches.engine_speed import SpeedWatcher

        return SpeedWatcher(self.trying, self.done, self.say)

    def trying(self, speeds: Sequence[float]) -> None:
        """These speeds [1/min] are fired next."""
        words = f"Firing at {' and '.join(f'{speed:.4g}' for speed in speeds)} turns a minute"
        self.tell(words, f"{self.ended} fired before", at_once=not self.ended)

    def done(self, trial: object) -> None:
        """A firing has ended."""
        self.ended += 1
