"""Mishaps as bars on a scale of time: from the mishap to each harm that it brings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from thermsim.plots.figure_files import SAVED_AS, write_figure
from thermsim.plots.style import (
    BLUE,
    DOTS_PER_INCH,
    GREEN,
    GREY,
    ORANGE,
    PURPLE,
    SIZE_INCHES,
    SKY,
    SMALL_POINTS,
    TEXT_POINTS,
    VERMILION,
    plain,
    write_title,
)

NAME = "mishaps"
LOOKS: dict[str, tuple[str, str]] = {
    "over_pressure": (VERMILION, "xxx"), "drum_too_hot": (ORANGE, "///"), "dry": (BLUE, "..."),
    "low_water": (SKY, "---"), "wall_too_hot": (PURPLE, "\\\\\\"), "smoke": (GREY, "|||"),
    "surface": (GREEN, "ooo"), "fire_out": ("#FFFFFF", ""),
}
"""colour and hatching by harm"""
LEAST_S = 0.05
"""where the scale of time begins; what comes sooner is drawn as long as this and a little"""
TICKS = ((0.1, "0.1 s"), (1.0, "1 s"), (10.0, "10 s"), (60.0, "1 min"), (600.0, "10 min"),
         (3600.0, "1 h"), (36000.0, "10 h"))
BAR_HIGH, GAP_HIGH = 1.0, 0.9
INCHES_A_BAR = 0.24
LEFT, WIDE = 0.27, 0.70


@dataclass(frozen=True)
class Bar:
    """One harm: its key, seconds after the mishap, what stands beside its bar."""

    harm: str
    seconds: float
    label: str


def draw_mishaps(axis: Axes, mishaps: Sequence[tuple[str, Sequence[Bar]]], watch: float) -> Axes:
    """Bars by mishap, from the top down; one without a harm says so."""
    y = 0.0
    places, names = [], []
    for name, bars in mishaps:
        first = y
        for bar in sorted(bars, key=lambda one: one.seconds):
            _bar(axis, y, bar, watch)
            y -= BAR_HIGH
        if not bars:
            axis.text(LEAST_S * 1.2, y, f"nothing new within {watch / 60.0:.0f} min",
                      fontsize=SMALL_POINTS, va="center", style="italic")
            y -= BAR_HIGH
        places.append(0.5 * (first + y + BAR_HIGH))
        names.append(name)
        y -= GAP_HIGH
        axis.axhline(y + 0.5 * (GAP_HIGH + BAR_HIGH), color="#CCCCCC", linewidth=0.6)
    plain(axis)
    axis.set_xscale("log")
    axis.set_xlim(LEAST_S, watch * 1.02)
    shown = [(at, text) for at, text in TICKS if at <= watch * 1.02]
    axis.set_xticks([at for at, _ in shown], [text for _, text in shown])
    axis.set_xticks([], minor=True)
    axis.set_ylim(y + 0.5 * BAR_HIGH, BAR_HIGH)
    axis.set_yticks(places, names)
    axis.grid(False, axis="y")
    axis.set_xlabel("time after the mishap", fontsize=TEXT_POINTS)
    return axis


def _bar(axis: Axes, y: float, bar: Bar, watch: float) -> None:
    colour, hatch = LOOKS[bar.harm]
    end = max(bar.seconds, LEAST_S * 1.3)
    axis.barh(y, end - LEAST_S, height=0.82 * BAR_HIGH, left=LEAST_S, facecolor=colour,
              edgecolor="black", hatch=hatch, linewidth=0.8, alpha=0.999)
    late = end > 0.02 * watch
    axis.annotate(bar.label, (end, y), (-4 if late else 4, 0), textcoords="offset points",
                  va="center", ha="right" if late else "left", fontsize=SMALL_POINTS,
                  bbox={"boxstyle": "square,pad=0.12", "facecolor": "white",
                        "edgecolor": "none"} if late else None)


def save_mishap_bars(mishaps: Sequence[tuple[str, Sequence[Bar]]], watch: float, title: str,
                     folder: Path) -> list[Path]:
    """Write the figure as PNG and SVG; gives the paths."""
    rows = sum(max(len(bars), 1) + GAP_HIGH for _, bars in mishaps)
    high = max(INCHES_A_BAR * rows + 1.3, 3.0)
    with rc_context(SAVED_AS):
        figure = Figure(figsize=(SIZE_INCHES[0], high), dpi=DOTS_PER_INCH, facecolor="white")
        draw_mishaps(figure.add_axes((LEFT, 0.6 / high, WIDE, 1.0 - 1.15 / high)), mishaps, watch)
        write_title(figure, title)
        return write_figure(figure, folder, NAME)
