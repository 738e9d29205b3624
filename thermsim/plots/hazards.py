"""The margins of all checks as hatched bars, and the chimney's draught against what it needs.

No colours: how a thing stands is told by words and hatching, so that a grey print says the same.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Patch

from thermsim.plots.figure_files import SAVED_AS, write_figure
from thermsim.plots.style import DOTS_PER_INCH, SMALL_POINTS, TEXT_POINTS, TITLE_POINTS, plain

Record = Mapping[str, Any]
BEYOND, NEAR, WITHIN = "beyond the limit", "near the limit", "within the limit"
LOOKS = {BEYOND: ("xxxx", "#BBBBBB"), NEAR: ("////", "#DDDDDD"), WITHIN: ("", "#F2F2F2")}
"""hatching and grey by verdict"""
DRAUGHT = "flue.draught"
SHOWN = 2.5
"""shares of a limit over this are cut off there, with their figure written"""
INCHES_A_BAR, INCHES_ROUND, INCHES_WIDE = 0.24, 2.9, 10.0
LABEL, SENTENCE = 52, 120


def hazards_figure(records: Sequence[Record], title: str) -> Figure:
    """Bars of every check with a number, those with least to spare on top; the draught below."""
    bars = [one for one in records if one["verdict"] in LOOKS and (
        one["share_of_limit"] is not None or one["verdict"] == BEYOND)]
    order = list(LOOKS)
    bars.sort(key=lambda one: (order.index(one["verdict"]), -_share(one)))
    tall = INCHES_ROUND + INCHES_A_BAR * max(len(bars), 3)
    figure = Figure(figsize=(INCHES_WIDE, tall), dpi=DOTS_PER_INCH, facecolor="white")
    figure.text(0.02, 1.0 - 0.12 / tall, title, fontsize=TITLE_POINTS, weight="bold", va="top")
    untold = sum(one["verdict"] == "cannot tell" for one in records)
    figure.text(0.02, 1.0 - 0.38 / tall, f"{len(records)} checks; {untold} cannot be told and have "
                "no bar. A calculation, no approval.", fontsize=SMALL_POINTS, va="top")
    axis = figure.add_axes((0.36, 1.75 / tall, 0.6, 1.0 - 2.65 / tall))
    _margins(axis, bars)
    draught = next((one for one in records if one["check"] == DRAUGHT), None)
    if draught is not None:
        figure.text(0.02, 1.12 / tall, "\n".join(textwrap.wrap(str(draught["says"]), SENTENCE)),
                    fontsize=TEXT_POINTS, va="top")
        _draught(figure.add_axes((0.36, 0.36 / tall, 0.6, 0.22 / tall)), draught)
    return figure


def _share(one: Record) -> float:
    """Share of the limit; what has no limit it could keep counts as more than all."""
    return float("inf") if one["share_of_limit"] is None else float(one["share_of_limit"])


def _margins(axis: Axes, bars: Sequence[Record]) -> None:
    plain(axis)
    axis.grid(False, axis="y")
    for k, one in enumerate(bars):
        hatch, grey = LOOKS[one["verdict"]]
        share = _share(one)
        axis.barh(k, min(share, SHOWN), 0.72, color=grey, edgecolor="black", hatch=hatch,
                  linewidth=0.6)
        if share > SHOWN:
            words = "no limit it could keep" if share == float("inf") else f"{share:.3g} times"
            axis.text(SHOWN - 0.03, k, words, ha="right", va="center", fontsize=SMALL_POINTS,
                      bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0})
    axis.axvline(1.0, color="black", linewidth=1.6)
    axis.set_xlim(0.0, SHOWN)
    axis.set_ylim(max(len(bars), 1) - 0.4, -0.6)
    axis.set_yticks(range(len(bars)), [_label(one) for one in bars], fontsize=SMALL_POINTS)
    axis.set_xlabel("share of the limit that is used (1 = at the limit)", fontsize=TEXT_POINTS)
    looks = [Patch(facecolor=grey, edgecolor="black", hatch=hatch, linewidth=0.6, label=verdict)
             for verdict, (hatch, grey) in LOOKS.items()]
    axis.legend(handles=looks, loc="lower right", bbox_to_anchor=(1.0, 1.0),
                ncols=len(LOOKS), frameon=False, fontsize=SMALL_POINTS)


SUBJECTS = {"surfaces": "touch", "materials": "service", "pressure": "pressure",
            "low_water": "water", "smoke": "air", "relief": "steam"}


def _label(one: Record) -> str:
    subject = SUBJECTS.get(str(one["check"]).split(".")[0], "")
    text = f"{one['part']}{f' ({subject})' if subject else ''}"
    return textwrap.shorten(text, LABEL, placeholder=" ...")


def _draught(axis: Axes, one: Record) -> None:
    """One bar: the draught there, hatched, and a mark where it is enough."""
    there, needed = float(one["found"]), float(one["limit"])
    plain(axis)
    axis.grid(False)
    axis.barh(0, there, 0.8, color="#DDDDDD", edgecolor="black", hatch="////", linewidth=0.6)
    axis.axvline(needed, color="black", linewidth=2.0)
    axis.set_xlim(0.0, 1.15 * max(there, needed))
    axis.set_yticks([0], ["draught there; needed at the mark"], fontsize=SMALL_POINTS)
    axis.set_xlabel("Pa at the chimney foot", fontsize=SMALL_POINTS, labelpad=1.0)


def save_hazards(records: Sequence[Record], title: str, folder: Path) -> list[Path]:
    """Write the figure as hazards.png and hazards.svg."""
    with rc_context(SAVED_AS):
        return write_figure(hazards_figure(records, title), folder, "hazards")
