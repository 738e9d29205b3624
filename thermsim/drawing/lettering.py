"""Lettering on the sheet: how wide a text is, and labels pushed apart in a column."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from matplotlib.font_manager import FontProperties
from matplotlib.textpath import text_to_path

LABEL_POINTS = 7.0
SIZE_POINTS = 6.5
TITLE_POINTS = 10.0
MM_A_POINT = 25.4 / 72.0
LINE_MM = LABEL_POINTS * MM_A_POINT * 1.25

_FONT = FontProperties(family="DejaVu Sans")


@lru_cache(maxsize=4096)
def text_mm(text: str, points: float = LABEL_POINTS) -> float:
    """Width of a line of text on the sheet [mm]."""
    _FONT.set_size(points)
    width, _, _ = text_to_path.get_text_width_height_descent(text, _FONT, ismath=False)
    return float(width) * MM_A_POINT


HINTED = 1.05
"""width of letters set on whole dots over their outlines', at most"""
BOLD = 1.16
"""width of bold letters over plain ones, at most"""


def wrapped(text: str, room: float, points: float = LABEL_POINTS) -> list[str]:
    """A text in lines no wider than `room` [mm], broken at plain spaces."""
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_mm(longer, points) > room:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def pushed_apart(wanted: Sequence[float], sizes: Sequence[float], low: float,
                 high: float) -> list[float]:
    """Middles near those wanted, things of these sizes not overlapping, between low and high.

    >>> pushed_apart([5.0, 5.0], [2.0, 2.0], 0.0, 5.5)
    [2.5, 4.5]
    """
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    stacks: list[list[int]] = []
    for i in order:
        stacks.append([i])
        while len(stacks) > 1 and _foot(stacks[-1], wanted, sizes, low, high) < \
                _foot(stacks[-2], wanted, sizes, low, high) + _tall(stacks[-2], sizes):
            stacks[-2:] = [stacks[-2] + stacks[-1]]
    found = [0.0] * len(wanted)
    for stack in stacks:
        edge = _foot(stack, wanted, sizes, low, high)
        for i in stack:
            found[i] = edge + sizes[i] / 2
            edge += sizes[i]
    return found


def _tall(stack: Sequence[int], sizes: Sequence[float]) -> float:
    return sum(sizes[i] for i in stack)


def _foot(stack: Sequence[int], wanted: Sequence[float], sizes: Sequence[float], low: float,
          high: float) -> float:
    tall = _tall(stack, sizes)
    middle = sum(wanted[i] for i in stack) / len(stack)
    return max(low, min(high - tall, middle - tall / 2))
