"""One input as written and as meant."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Leaf:
    """An input: the text for people, what it means (two with the same meaning are the same), and
    the ends of the doubt it was written with, which no run uses.

    Of a quantity also its value [SI], the unit it is written in with factor and offset, and whether
    that has a zero of its own (a temperature), so that ratios say nothing.
    """

    text: str
    meaning: Any
    doubt: tuple[Any, ...] = ()
    value: Any = None
    unit: str = ""
    factor: float = 1.0
    offset: float = 0.0
    with_zero: bool = False
