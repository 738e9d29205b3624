"""Figures written as files: a PNG and an SVG, the same bytes for the same figure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.figure import Figure

from thermsim.plots.small_png import write_small
from thermsim.plots.style import DOTS_PER_INCH

ENDINGS = ("png", "svg")
SMALL_DOTS_PER_INCH = 130
"""of pictures of which a command writes a dozen"""
PNG_COMPRESSION = 1
"""of zlib; harder costs time and saves little"""
SAVED_AS: Any = {"svg.hashsalt": "thermsim", "svg.fonttype": "path", "hatch.linewidth": 0.6}
"""settings under which figures are made and written: the same run gives the same bytes"""


def write_figure(figure: Figure, folder: Path, name: str) -> list[Path]:
    """Write a figure as NAME.png and NAME.svg; gives the paths. Call it under `SAVED_AS`."""
    paths = [write_picture(figure, folder, name), folder / f"{name}.{ENDINGS[1]}"]
    figure.savefig(paths[1], metadata={"Date": None})
    return paths


def write_picture(figure: Figure, folder: Path, name: str) -> Path:
    """Write a figure as NAME.png alone; gives the path. Call it under `SAVED_AS`."""
    path = folder / f"{name}.{ENDINGS[0]}"
    figure.savefig(path, dpi=DOTS_PER_INCH, pil_kwargs={"compress_level": PNG_COMPRESSION})
    return path


def write_pictures(makers: Mapping[str, Callable[[], Figure]], folder: Path,
                   small: bool = False) -> list[Path]:
    """Make and write each figure as PNG by the name of its file; gives the paths.

    small: of few colours, a third of the size, where there are many.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with rc_context(SAVED_AS):
        if small:
            paths = [folder / f"{name}.{ENDINGS[0]}" for name in makers]
            for path, make in zip(paths, makers.values(), strict=True):
                write_small(make(), path, SMALL_DOTS_PER_INCH)
            return paths
        return [write_picture(make(), folder, name) for name, make in makers.items()]
