"""Plain aligned columns that read the same on a terminal, in a pipe and in a file."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

GUTTER = 2


def columns(rows: Iterable[Sequence[str]], indent: int = GUTTER) -> list[str]:
    """Rows of texts as lines whose columns stand under each other.

    >>> columns([("drum", "250 mm"), ("gap", "25 mm")])
    ['  drum  250 mm', '  gap   25 mm']
    """
    kept = [tuple(row) for row in rows]
    if not kept:
        return []
    widths = [max(len(row[i]) for row in kept if i < len(row)) for i in range(max(map(len, kept)))]
    space = " " * GUTTER
    lines = []
    for row in kept:
        cells = [text.ljust(width) for text, width in zip(row, widths, strict=False)]
        lines.append((" " * indent + space.join(cells)).rstrip())
    return lines
