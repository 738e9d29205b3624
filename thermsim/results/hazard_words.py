"""The hazards of a run in a few lines, from the records that its summary holds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

BEYOND = "beyond the limit"
VERDICTS = (BEYOND, "near the limit", "cannot tell", "within the limit")
SHOWN = 4


def told_of_hazards(summary: Mapping[str, Any]) -> list[str]:
    """How many checks stand where, and the gravest that are beyond their limit."""
    held = summary.get("hazards")
    if not held:
        return []
    counts = [(sum(one["verdict"] == verdict for one in held), verdict) for verdict in VERDICTS]
    lines = [f"Hazards: {', '.join(f'{n} {verdict}' for n, verdict in counts)} "
             "(`thermsim hazards` tells each with its limit and source)."]
    gravest = [one for one in held if one["verdict"] == BEYOND]
    lines += [f"Beyond its limit, {one['part']}: {one['says']}." for one in gravest[:SHOWN]]
    if len(gravest) > SHOWN:
        lines.append(f"And {len(gravest) - SHOWN} more beyond their limit.")
    return [line.replace("..", ".") for line in lines]
