"""How a sweep goes, on the error stream: a bar on a terminal, plain lines elsewhere."""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Any

EVERY = 10.0
"""seconds between plain lines"""
MINUTE, HOUR = 60.0, 3600.0


def clock(seconds: float) -> str:
    """A span of time as a person says it.

    >>> clock(8.2), clock(95.0), clock(5400.0)
    ('8 s', '1 min 35 s', '1 h 30 min')
    """
    whole = round(seconds)
    if whole < MINUTE:
        return f"{whole} s"
    if whole < HOUR:
        return f"{whole // 60} min {whole % 60} s"
    return f"{whole // 3600} h {whole % 3600 // 60} min"


class SweepProgress:
    """Says first how many firings and how long, then how far it has come."""

    class Enough(Exception):
        """Only the plan was wanted."""

    def __init__(self, cases: int, only_plan: bool = False) -> None:
        self.cases = cases
        self.only_plan = only_plan
        self.total = 0
        self.ended = 0
        self.begun = 0.0
        self.told_at = 0.0
        self._bar: Any = None
        self._task: Any = None

    def __enter__(self) -> SweepProgress:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 where: TracebackType | None) -> None:
        if self._bar is not None:
            self._bar.stop()

    def loading(self, number: int) -> None:
        """A case is being read: told only where reading takes long."""
        now = time.perf_counter()
        self.told_at = self.told_at or now
        if now - self.told_at > EVERY:
            self.told_at = now
            self.say(f"Reading: {number} of {self.cases} cases.")

    def planned(self, plan: Any, estimate: Any) -> None:
        """The number of firings, why they are needed, and how long they should take."""
        self.total = len(plan.jobs)
        for line in plan_lines(plan, estimate, self.cases):
            self.say(line)
        if self.only_plan:
            raise self.Enough
        self.begun = self.told_at = time.perf_counter()
        if self.total and sys.stderr is not None and sys.stderr.isatty():
            self._show()

    def done(self, number: int, record: dict[str, Any]) -> None:
        """A case has ended."""
        self.ended += 1
        if self._bar is not None:
            self._bar.update(self._task, completed=self.ended, left=self.left())
            return
        now = time.perf_counter()
        if now - self.told_at > EVERY or self.ended == self.total:
            self.told_at = now
            self.say(f"{self.ended} of {self.total} fired, {clock(now - self.begun)} gone"
                     + (f", about {self.left()} left." if self.ended < self.total else "."))

    def left(self) -> str:
        """Time left, from those fired so far."""
        gone = time.perf_counter() - self.begun
        return clock(gone / max(self.ended, 1) * (self.total - self.ended))

    def say(self, text: str) -> None:
        """One line beside the bar."""
        if self._bar is not None:
            self._bar.console.print(text, highlight=False)
        else:
            print(text, file=sys.stderr, flush=True)

    def _show(self) -> None:
        from rich.console import Console
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

        self._bar = Progress(
            TextColumn("firing"), BarColumn(), MofNCompleteColumn(),
            TextColumn("{task.fields[left]} left"), console=Console(file=sys.stderr),
            transient=True)
        self._task = self._bar.add_task("firing", total=self.total, left="?")
        self._bar.start()


def plan_lines(plan: Any, estimate: Any, cases: int) -> list[str]:
    """What will be done, before it is."""
    todo, kept = len(plan.jobs), cases - len(plan.jobs)
    lines = [f"{cases} cases: {todo} to fire"
             + (f", {kept} kept from before or not to be fired." if kept else ".")]
    lines += [f"  {count} {why}" for why, count in plan.reasons.items() if kept or len(
        plan.reasons) > 1 or not why.startswith("not fired")]
    if todo and estimate.seconds is not None:
        lines.append(f"About {clock(estimate.seconds)}, from {estimate.measured} firings measured.")
    elif todo:
        lines.append("No firing is measured yet: the first ones will tell how long it takes.")
    return lines
