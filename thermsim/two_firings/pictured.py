"""Figures of two firings told apart: what is drawn, handed to the plots."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from thermsim.plots.figure_files import write_pictures
from thermsim.plots.two_firings import Bar, parts_figure, steps_figure
from thermsim.two_firings.apart import Apart, Told
from thermsim.two_firings.parts import CHANGE, PARTS, REST
from thermsim.two_firings.words import NAMES, headlines, is_nothing

READ = "read"
A_SHEET = 10
"""spots on a sheet"""
SHORT = {READ: "the whole, as read"} | NAMES


def save_apart_figures(apart: Apart, folder: Path) -> list[Path]:
    """Write all figures as PNG; gives the paths."""
    names = " and ".join(one.name for one in apart.firings)
    makers: dict[str, Callable[[], Any]] = {}
    heads = headlines(apart)
    if heads:
        makers["event"] = partial(steps_figure, f"{_capital(heads[0].name)} \u00b7 {names}",
                                  heads[0].name, bars_of(heads[0], apart.plant_changed))
    spots = [one for one in apart.told if one.unit == "C"]
    sheets = [spots[k:k + A_SHEET] for k in range(0, len(spots), A_SHEET)]
    for number, sheet in enumerate(sheets, 1):
        rows = [(f"{one.name} ({len(one.pairs)})", bars_of(one, apart.plant_changed))
                for one in sheet]
        count = f" {number}/{len(sheets)}" if len(sheets) > 1 else ""
        makers[f"spots_{number}"] = partial(
            parts_figure, f"Spots{count} \u00b7 {names}", "K", rows, SHORT)
    return write_pictures(makers, folder, small=True)


def bars_of(one: Told, changed: bool) -> list[Bar]:
    """The whole, then its parts; without those that are nothing, and the change if none was made.
    """
    made = [Bar(READ, SHORT[READ], one.measured.value, one.measured.band)]
    return made + [Bar(part, SHORT[part], one.parts[part].value, one.parts[part].band)
                   for part in PARTS if (changed or part != CHANGE)
                   and (part == REST or not is_nothing(one.parts[part]))]


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
