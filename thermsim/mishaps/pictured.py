"""Mishaps as the figure's bars: what each brings that would not come without it."""

from __future__ import annotations

from pathlib import Path
from textwrap import fill

from thermsim.mishaps.harms import HARMS
from thermsim.mishaps.moments import told_time
from thermsim.mishaps.worst import Judged, Outlook
from thermsim.plots.mishap_bars import Bar, save_mishap_bars

NAME_WIDE = 36
"""letters in a line beside the axis"""


def bars_of(judged: Judged) -> list[Bar]:
    """The harms that count, each with its time and place."""
    worst = judged.worst
    if worst is None:
        return []
    return [Bar(one.harm, one.new, f"{HARMS[one.harm]}, {told_time(one.new)}"
                + (f" ({one.where.replace('_', ' ')})" if one.harm == "smoke" else ""))
            for one in worst.harms if one.new is not None]


def save_mishap_figure(outlook: Outlook, folder: Path) -> list[Path]:
    """Write the figure; mishaps that were not looked at are left out."""
    shown = [(fill(f"{one.mishap.name}, {one.worst.moment.words}", NAME_WIDE), bars_of(one))
             for one in outlook.mishaps if one.worst is not None]
    return save_mishap_bars(shown, outlook.watch_s,
                            f"Mishaps at their worst moment · {outlook.title}", folder)
