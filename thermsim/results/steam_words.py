"""The steam's way in plain words: what reached the engine, the tubes' walls, water in the line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from thermsim.results.cautions import plain
from thermsim.results.moments import lit_at, spell

if TYPE_CHECKING:
    import pandas as pd

Summary = Mapping[str, Any]
HOT, DRY = 2.0, 0.995
"""superheat [K] and dryness from which on steam is told as hot, or as dry"""
SPILLS = 1e-3
"""water in the line [kg] from which on it is told"""
OVER, SHORT = "tube over its limit", 10.0
"""event; seconds over a limit that are not told"""
PASCALS_A_BAR, GRAMS = 1e5, 1e3


def told_of_steam(summary: Summary, events: pd.DataFrame) -> list[str]:
    """What the steam's way brought, a sentence or two each; empty for a plant without one."""
    told = [_arrives(summary), _water(summary), _nozzle(summary), _feed(summary)]
    return [*_walls(summary, events), *(one for one in told if one)]


def _arrives(summary: Summary) -> str:
    """How hot and dry the engine's steam was."""
    T, dry = summary.get("steam_to_engine_C"), summary.get("steam_to_engine_dryness_fraction")
    if T is None or dry is None:
        return ""
    over = summary.get("superheat_at_engine_K") or 0.0
    begin = f"Steam reached the engine at {T:.0f} C in the mean"
    if over > HOT:
        return f"{begin}, dry and {over:.0f} K over its boiling point."
    if dry >= DRY:
        return f"{begin}, just dry."
    return f"{begin}, wet: {100 * (1 - dry):.0f} % of it was water."


def _walls(summary: Summary, events: pd.DataFrame) -> list[str]:
    """How hot the tubes got: those over their limit first, a line each."""
    peaks = summary.get("tube_wall_peak_C") or {}
    limits = summary.get("tube_wall_limit_C") or {}
    seconds = summary.get("tube_over_limit_s") or {}
    hot = [name for name in peaks if (seconds.get(name) or 0.0) > SHORT]
    idle = summary.get("tube_over_limit_idle_s") or {}
    told = [_too_hot(name, peaks[name], limits[name], seconds[name], idle.get(name) or 0.0, events)
            for name in hot]
    fine = [f"{plain(name)} {peak:.0f} C" + (f" (limit {limits[name]:.0f} C)"
                                             if name in limits else "")
            for name, peak in peaks.items() if name not in hot]
    return [*told, f"Hottest walls of tubes: {', '.join(fine)}."] if fine else told


def _too_hot(name: str, peak: float, limit: float, seconds: float, idle: float,
             events: pd.DataFrame) -> str:
    """A tube over what its material stands: when, and what to do about it."""
    first = events[(events["event"] == OVER) & (events["where"] == name)]["time_s"]
    zero = lit_at(events)
    since = f", first {spell(float(first.min()) - zero)} after lighting" if len(first) else ""
    text = (f"The wall of the {plain(name)} got up to {peak:.0f} C; its material stands "
            f"{limit:.0f} C in long service, and it was over that for {spell(seconds)}{since}.")
    further = "put it further down the gas's way, or make it of a better steel"
    if idle <= SHORT:
        return f"{text} {further[0].upper()}{further[1:]}."
    start = ("with no flow a tube follows the gas: start the engine before the fire is fierce, or "
             "put the tube further down the gas's way")
    if seconds - idle <= SHORT:
        return f"{text} Nothing flowed through it then, and {start}."
    return (f"{text} For {spell(idle)} of that nothing flowed through it, and {start}. It was too "
            f"hot with steam flowing, too: {further}.")


def _water(summary: Summary) -> str:
    """Water that lay in the line when the engine was started."""
    water = summary.get("water_in_line_at_start_kg")
    if water is None or water < SPILLS:
        return ""
    return (f"{GRAMS * water:.0f} g of water lay in the steam line when the engine was started. "
            "Drain it first: water in the cylinder breaks it.")


def _nozzle(summary: Summary) -> str:
    """What the blast nozzle gave and cost."""
    draught, cost = summary.get("blast_draught_Pa"), summary.get("nozzle_back_pressure_Pa")
    if draught is None or cost is None:
        return ""
    whole = summary.get("back_pressure_bar_gauge")
    of = "" if whole is None else f", of {whole:.2g} bar(g) in all"
    return (f"While the engine ran, the blast nozzle added {draught:.2g} Pa to the chimney's "
            f"draught in the mean and cost {cost / PASCALS_A_BAR:.2g} bar of back pressure{of}.")


def _feed(summary: Summary) -> str:
    """How warm the feed came behind its coils."""
    warm = summary.get("feed_warmed_to_C")
    return "" if warm is None else f"The feed was warmed to {warm:.0f} C in the mean."
