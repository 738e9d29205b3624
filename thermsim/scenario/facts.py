"""What is known of each value of a scenario: measured, assumed or unknown, and how well."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

MEASURED = "measured"
"""written by the person, plainly or with a doubt"""
ASSUMED = "assumed"
"""not written: the default"""
UNKNOWN = "unknown"
"""written 'unknown': the default with its spread"""


@dataclass(frozen=True)
class Fact:
    """One value with its doubt and where it comes from.

    `low` and `high` are None for what is no quantity (a choice, a text). `source` is the
    declaration's source of a default; for a measured value it is empty, `file` and `line` say
    where it is written.
    """

    path: str
    value: Any
    low: float | None
    high: float | None
    text: str
    unit: str
    kind: str
    status: str
    source: str
    file: str
    line: int | None

    @property
    def doubtful(self) -> bool:
        """Has a spread."""
        return self.low is not None and self.high is not None and self.low < self.high
