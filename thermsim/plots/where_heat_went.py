"""Where the heat went: a bar for each row of the ledger, as a share of the fuel's heat."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pandas as pd
from matplotlib.axes import Axes

from thermsim.plots.columns import in_words
from thermsim.plots.style import BLUE, GREY, ORANGE, SKY, SMALL_POINTS, TEXT_POINTS, plain

PER_CENT = 100.0
MOST_BARS = 18
SMALLEST_SHARE = 0.001
GROUP_STEP, SUM_HIGH, BAR_HIGH = 1.6, 0.72, 0.5
HEAD_ROOM = 1.12
ONE_DECIMAL_BELOW = 10.0
NOTHING = "No fuel was put in: there is no heat to share out."


@dataclass(frozen=True)
class Group:
    """A group of ledger rows: its key, its heading, colour and hatching."""

    key: str
    says: str
    colour: str
    hatch: str


GROUPS = (
    Group("useful", "to the water", BLUE, ""),
    Group("stored", "stored in the plant", SKY, "///"),
    Group("lost", "lost", ORANGE, "xx"),
)


@dataclass(frozen=True)
class Bar:
    """A bar: its label, share of the fuel's heat and group."""

    label: str
    share: float
    group: Group


def draw_where_heat_went(ledger: pd.DataFrame, axis: Axes) -> Axes:
    """Draw the ledger's bars on `axis`, each group under its own sum."""
    plain(axis)
    axis.grid(False, axis="y")
    y, ticks, names = 0.0, [], []
    sums = {}
    for group in GROUPS:
        bars = bars_of(ledger, group)
        if not bars:
            continue
        total = sum(bar.share for bar in bars)
        sums[group.key] = total
        ticks.append(y)
        names.append(f"{group.says}, together")
        _draw_bar(axis, y, Bar(group.says, total, group), whole=True)
        for bar in bars:
            y += 1.0
            ticks.append(y)
            names.append(bar.label)
            _draw_bar(axis, y, bar, whole=False)
        y += GROUP_STEP
    if not ticks:
        axis.set_axis_off()
        axis.text(0.0, 0.0, NOTHING, fontsize=TEXT_POINTS)
        return axis
    axis.set_yticks(ticks, names, fontsize=SMALL_POINTS)
    for label, name in zip(axis.get_yticklabels(), names, strict=True):
        label.set_fontweight("bold" if name.endswith(", together") else "normal")
    axis.set_ylim(y - GROUP_STEP / 2, -GROUP_STEP / 2)
    axis.axvline(0.0, color=GREY, linewidth=0.9)
    low, high = axis.get_xlim()
    axis.set_xlim(min(low, 0.0), max(high, 1.0) * HEAD_ROOM)
    axis.set_xlabel(f"share of the heat in the fuel, %   (all together {_all(sums)})",
                    fontsize=TEXT_POINTS)
    return axis


def bars_of(ledger: pd.DataFrame, group: Group) -> list[Bar]:
    """The bars of a group, largest first; the very small ones as one."""
    rows = ledger[ledger["group"] == group.key]
    bars = []
    for row in rows.to_dict("records"):
        share = float(row["share_of_fuel"])
        label = row.get("label")
        text = label if isinstance(label, str) and label else in_words(str(row["row"]))
        if np.isfinite(share):
            bars.append(Bar(text, share, group))
    bars.sort(key=lambda bar: -abs(bar.share))
    room = max(1, MOST_BARS * max(1, len(bars)) // max(1, len(ledger)))
    shown = [bar for bar in bars if abs(bar.share) >= SMALLEST_SHARE][:max(room, 3)]
    rest = [bar for bar in bars if bar not in shown]
    if len(rest) == 1:
        return shown + rest
    if rest:
        shown.append(Bar(f"{len(rest)} smaller ones", sum(bar.share for bar in rest), group))
    return shown


def _draw_bar(axis: Axes, y: float, bar: Bar, whole: bool) -> None:
    share = bar.share * PER_CENT
    if whole:
        axis.barh(y, share, height=SUM_HIGH, facecolor=bar.group.colour, edgecolor="black",
                  linewidth=0.8, hatch=bar.group.hatch)
    else:
        axis.barh(y, share, height=BAR_HIGH, facecolor="white", edgecolor=bar.group.colour,
                  linewidth=1.2, hatch=bar.group.hatch)
    axis.annotate(_per_cent(share), (max(share, 0.0), y), xytext=(4, 0),
                  textcoords="offset points", va="center", fontsize=SMALL_POINTS,
                  fontweight="bold" if whole else "normal")


def _per_cent(share: float) -> str:
    return f"{share:.1f} %" if abs(share) < ONE_DECIMAL_BELOW else f"{share:.0f} %"


def _all(sums: dict[str, float]) -> str:
    return f"{sum(sums.values()) * PER_CENT:.1f} %"
