"""One outline of each plate as SVG at 1:1, in millimetres, with a check line of 100 mm."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path as FilePath
from xml.sax.saxutils import escape

from thermsim.making.flat_shapes import Point, round_of
from thermsim.making.pieces import Piece, mm

CHECK_MM = 100.0
MARGIN_MM, ROW_MM = 15.0, 6.0
LETTER_MM = 2.4
"""mean width of a letter of the text"""
DIMENSION_MM, TICK_MM = 8.0, 3.0
ACROSS_MM = 18.0
"""left of the outline: the dimension across"""
STYLE = """
.cut { fill: none; stroke: black; stroke-width: 0.35 }
.mark { fill: none; stroke: black; stroke-width: 0.25; stroke-dasharray: 3 2 }
.thin { fill: none; stroke: black; stroke-width: 0.18 }
text { font-family: sans-serif; font-size: 4px; fill: black }
"""


def file_name(piece: Piece) -> str:
    """Name of a piece's file.

    >>> from thermsim.making.flat_shapes import rectangle
    >>> file_name(Piece("drum end, dished", "drum", "mild steel", 0.004, 7850.0, rectangle(1, 1)))
    'drum_end_dished.svg'
    """
    return re.sub(r"[^\w]+", "_", piece.name).strip("_").lower() + ".svg"


def write_outlines(pieces: Sequence[Piece], folder: FilePath) -> list[FilePath]:
    """Write an SVG a plate; gives the paths."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for piece in pieces:
        path = folder / file_name(piece)
        path.write_text(outline_svg(piece), encoding="utf-8")
        paths.append(path)
    return paths


def outline_svg(piece: Piece) -> str:
    """The outline of a piece as the text of an SVG, millimetres on paper as on the plate."""
    long, wide = (1000.0 * side for side in piece.size)
    words = piece_words(piece)
    text_wide = max(len(line) for line in words) * LETTER_MM
    left, top = MARGIN_MM + ACROSS_MM, MARGIN_MM
    width = max(left + long, left + CHECK_MM, MARGIN_MM + text_wide) + MARGIN_MM
    foot = top + wide + DIMENSION_MM + TICK_MM + ROW_MM
    height = foot + (len(words) + 2) * ROW_MM + MARGIN_MM
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}">',
        f"<title>{escape(words[0])}</title>",
        f"<style>{STYLE}</style>",
        f'<rect x="0" y="0" width="{width:.3f}" height="{height:.3f}" fill="white"/>',
        _shape(piece.outline, "cut", left, top + wide, "outline"),
    ]
    for number, hole in enumerate(piece.holes, 1):
        lines.append(_shape(hole.path, "mark" if hole.marked else "cut", left, top + wide,
                            f"hole_{number}"))
        x, y = left + 1000.0 * hole.middle[0], top + wide - 1000.0 * hole.middle[1]
        lines.append(_line(x - TICK_MM, y, x + TICK_MM, y))
        lines.append(_line(x, y - TICK_MM, x, y + TICK_MM))
        lines.append(_text(x + 1.0, y - 1.0, str(number)))
    lines += _dimensions(piece, left, top, long, wide)
    lines += [_text(MARGIN_MM, foot + (k + 1) * ROW_MM, line) for k, line in enumerate(words)]
    lines += _check_line(MARGIN_MM, foot + (len(words) + 2) * ROW_MM)
    lines.append("</svg>")
    return "\n".join(lines) + "\n"


def piece_words(piece: Piece) -> list[str]:
    """Name, plate, what is done with it, and its holes, a line each."""
    words = [f"{piece.name}: {piece.material} {mm(piece.thickness)} mm, {piece.number} off"
             + (", pressure part" if piece.pressure else "")]
    words += [line for line in (piece.then, piece.note) if line]
    if piece.holes:
        words.append("holes, middles from the left lower corner of what is drawn:")
    for number, hole in enumerate(piece.holes, 1):
        said = " (marked only)" if hole.marked else ""
        words.append(f"{number}  {hole.name} {hole.words} at {mm(hole.middle[0])} along, "
                     f"{mm(hole.middle[1])} up{said}")
    return words


def _shape(path: Sequence[Point], style: str, left: float, base: float, name: str) -> str:
    circle = round_of(path)
    if circle is not None:
        (x, y), radius = circle
        return (f'<circle id="{name}" class="{style}" cx="{left + 1000.0 * x:.3f}" '
                f'cy="{base - 1000.0 * y:.3f}" r="{1000.0 * radius:.3f}"/>')
    points = " L ".join(f"{left + 1000.0 * x:.3f} {base - 1000.0 * y:.3f}" for x, y in path)
    return f'<path id="{name}" class="{style}" d="M {points} Z"/>'


def _line(x1: float, y1: float, x2: float, y2: float, style: str = "thin", name: str = "") -> str:
    named = f'id="{name}" ' if name else ""
    return (f'<line {named}class="{style}" x1="{x1:.3f}" y1="{y1:.3f}" x2="{x2:.3f}" '
            f'y2="{y2:.3f}"/>')


def _text(x: float, y: float, text: str, turned: bool = False, middle: bool = False) -> str:
    turn = f' transform="rotate(-90 {x:.3f} {y:.3f})"' if turned else ""
    anchor = ' text-anchor="middle"' if middle else ""
    return f'<text x="{x:.3f}" y="{y:.3f}"{anchor}{turn}>{escape(text)}</text>'


def _dimensions(piece: Piece, left: float, top: float, long: float, wide: float) -> list[str]:
    """Length below and width at the left, with ticks."""
    below, aside = top + wide + DIMENSION_MM, left - DIMENSION_MM
    lines = [_line(left, below, left + long, below), _line(aside, top, aside, top + wide)]
    lines += [_line(x, below - TICK_MM, x, below + TICK_MM) for x in (left, left + long)]
    lines += [_line(aside - TICK_MM, y, aside + TICK_MM, y) for y in (top, top + wide)]
    lines.append(_text(left + long / 2.0, below - 1.0, mm(piece.size[0]), middle=True))
    lines.append(_text(aside - 1.0, top + wide / 2.0, mm(piece.size[1]), True, True))
    return lines


def _check_line(x: float, y: float) -> list[str]:
    return [
        _line(x, y, x + CHECK_MM, y, "cut", "check_line"),
        *(_line(at, y - TICK_MM, at, y + TICK_MM, "cut") for at in (x, x + CHECK_MM)),
        _text(x + TICK_MM, y - 1.5, "this line is 100 mm long if printed at 1:1"),
    ]
