"""Figures written as files: a PNG and an SVG, the same bytes for the same figure."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from matplotlib.figure import Figure

from thermsim.plots.style import DOTS_PER_INCH

ENDINGS = ("png", "svg")
PNG_COMPRESSION = 1
"""of zlib; harder costs time and saves little"""
SAVED_AS: Any = {"svg.hashsalt": "thermsim", "svg.fonttype": "path", "hatch.linewidth": 0.6}
"""settings under which figures are made and written: the same run gives the same bytes"""


def write_figure(figure: Figure, folder: Path, name: str) -> list[Path]:
    """Write a figure as NAME.png and NAME.svg; gives the paths. Call it under `SAVED_AS`."""
    paths = [folder / f"{name}.{ending}" for ending in ENDINGS]
    figure.savefig(paths[0], dpi=DOTS_PER_INCH, pil_kwargs={"compress_level": PNG_COMPRESSION})
    figure.savefig(paths[1], metadata={"Date": None})
    return paths
