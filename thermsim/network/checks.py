"""Checks of a scenario as a whole: geometry that cannot be, rules on what is not there."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from thermsim.errors import Problem

CHECKS: tuple[Callable[[Any], Iterable[Problem]], ...] = ()
