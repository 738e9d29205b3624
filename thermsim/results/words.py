"""What came of a firing, in plain words for the person who builds it; numbers stand after."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from thermsim.results.advice import change_first
from thermsim.results.cautions import TOUCH_C, fitting, plain, too_hot_outside
from thermsim.results.cooling_words import told_of_cooling
from thermsim.results.hazard_words import told_of_hazards
from thermsim.results.moments import Door, computed, door_shut, spell, water_poured
from thermsim.results.pressure_words import gravest, told_of_pressure
from thermsim.results.shares import shares_by_destination
from thermsim.results.steam_words import told_of_steam

if TYPE_CHECKING:
    import pandas as pd

Summary = Mapping[str, Any]
HOTTEST_SHOWN = 3
SMALL_SHARE = 0.03
"""shares of the heat below this are told together"""


def tell(
    summary: Summary, events: pd.DataFrame, ledger: pd.DataFrame,
    series: pd.DataFrame | None = None,
) -> list[str]:
    """The story of a firing, a sentence or two a line, in the order a builder asks.

    Does it draw; was the door shut in time; when does it boil; where did the heat go; what gets
    hot; what to change first; cautions. The series adds how warm the flue was at the door.
    """
    door = door_shut(summary, events, series)
    span = computed(summary, series)
    within = "the time computed" if span is None else f"the {spell(span)} computed"
    parts = [
        *gravest(summary),
        _outcome(summary),
        _draught(summary, within),
        _door(summary, door),
        _smoke(summary),
        _boil(summary, events, within),
        _steam(summary),
        *told_of_pressure(summary),
        _engine(summary),
        *told_of_steam(summary, events),
        _air(summary),
        _heat(ledger),
        _hottest(summary),
        _outside(summary),
        *told_of_cooling(summary),
        *told_of_hazards(summary),
        change_first(summary, door, ledger),
    ]
    lines = [part for part in parts if part]
    lines += [f"Note: {warning}" for warning in summary.get("warnings") or []]
    known = list(dict.fromkeys([*(summary.get("cautions") or []), *fitting(summary)]))
    return lines + [f"Caution: {caution}" for caution in known]


def _outcome(summary: Summary) -> str:
    sentence = str(summary.get("outcome_sentence") or "").strip()
    advice = str(summary.get("advice") or "").strip()
    return " ".join(text for text in (_stopped(sentence), _stopped(advice)) if text)


def _stopped(sentence: str) -> str:
    return sentence if not sentence or sentence[-1] in ".!?" else f"{sentence}."


def _draught(summary: Summary, within: str) -> str:
    since, peak = summary.get("draught_established_s"), summary.get("draught_peak_Pa")
    strength = "" if peak is None else f" The chimney pulled with up to {peak:.1f} Pa at its foot."
    if since is None:
        return (f"It did not come to draw steadily in {within}: there were never two "
                f"minutes on end with every opening taking air in.{strength}")
    when = "from the start" if since < 1.0 else f"from {spell(since)}"
    ended = summary.get("fire_ended_s")
    cold = (f" The fire was out after {spell(ended)}: what drew from then on was the warmth left."
            if summary.get("outcome") == "smothered" and ended else "")
    return (f"It draws: {when} every opening took air in, for two minutes or more on end."
            f"{strength}{cold}")


def _door(summary: Summary, door: Door | None) -> str:
    if door is None:
        return ""
    name = plain(door.name)
    if door.too_soon:
        after = "the draught never settled afterwards"
        if door.smoke_after > 0.0:
            after = f"smoke came out for {spell(door.smoke_after)} afterwards"
        if door.died:
            after = "the fire went out within minutes"
        return f"The {name} was shut too soon, at {spell(door.time)}{_flue(door)}: {after}."
    held = f"The {name} was shut at {spell(door.time)}{_flue(door)}, and the draught held."
    if door.turned:
        opening, seconds = door.turned
        held += f" The flow in the {plain(opening)} turned inward {_after(seconds)} shutting it."
    return held


def _flue(door: Door) -> str:
    return "" if door.flue is None else f" with {door.flue:.0f} C at the chimney foot"


def _after(seconds: float) -> str:
    return f"{spell(seconds)} after" if seconds >= 0.5 else "upon"


def _smoke(summary: Summary) -> str:
    seconds, grams = summary.get("smoke_from_openings_s"), summary.get("smoke_from_openings_g")
    if not seconds:
        return "No smoke to speak of came out of the openings."
    amount = "" if grams is None else f", {_figure(grams)} g in all"
    return f"Smoke came out of the openings for {spell(seconds)}{amount}."


def _boil(summary: Summary, events: pd.DataFrame, within: str) -> str:
    boils = summary.get("time_to_boil_s")
    if boils is not None:
        begin = "the water was poured in" if water_poured(events) else "lighting"
        return f"It boiled {spell(boils)} after {begin}."
    if summary.get("water_heat_share") is None:
        return f"There was no drum, so nothing boiled in {within}."
    if summary.get("outcome") == "fired_dry":
        return f"There was no water in it, so nothing boiled in {within}."
    return f"It did not boil in {within}."


def _steam(summary: Summary) -> str:
    rate = summary.get("evaporation_rate_kg_per_h")
    if rate is not None:
        return f"It then raised {rate:.1f} kg of steam an hour."
    if summary.get("time_to_boil_s") is not None:
        return "It did not boil long enough to name an hourly rate of steam."
    return ""


def _engine(summary: Summary) -> str:
    power, ran = summary.get("indicated_power_W"), summary.get("engine_ran_s")
    if ran is None:
        return ""
    if power is None:
        return "The engine never ran."
    steam = summary["steam_to_engine_kg"]
    return (f"The engine ran for {spell(ran)} and gave {_figure(power)} W at its piston in the "
            f"mean (its own friction takes from that); it took {_figure(3600.0 * steam / ran)} kg "
            f"of steam an hour, {_figure(summary['steam_kg_per_kWh'])} kg for each kWh.")


def _air(summary: Summary) -> str:
    ratio = summary.get("air_ratio_mean")
    if ratio is None:
        return ""
    return f"Air to the fire: air ratio {ratio:.1f} (1 = just enough)."


def _heat(ledger: pd.DataFrame) -> str:
    """Where the heat went: shares over a few per cent by name, the rest together."""
    shares = shares_by_destination(ledger)
    large = [(says, share) for says, share in shares if share >= SMALL_SHARE]
    if not large:
        return ""
    rest = sum(share for _, share in shares) - sum(share for _, share in large)
    told = [f"{100 * share:.0f} % {says}" for says, share in large]
    if rest > SMALL_SHARE / 2:
        told.append(f"{100 * rest:.0f} % the rest")
    return f"Where the heat of the wood burnt went: {', '.join(told)}."


def _hottest(summary: Summary) -> str:
    peaks = {part: peak for part, peak in (summary.get("peak_temperature_C") or {}).items()
             if peak is not None}
    hottest = sorted(peaks.items(), key=lambda one: -one[1])[:HOTTEST_SHOWN]
    if not hottest:
        return ""
    told = ", ".join(f"{plain(part)} {peak:.0f} C" for part, peak in hottest)
    return f"Hottest parts: {told}."


def _outside(summary: Summary) -> str:
    hot = too_hot_outside(summary)
    if not summary.get("outside_surface_peak_C"):
        return ""
    if not hot:
        return f"No outside surface passed {TOUCH_C:.0f} C."
    told = ", ".join(f"{plain(part)} {peak:.0f} C" for part, peak in hot[:HOTTEST_SHOWN])
    more = f" and {len(hot) - HOTTEST_SHOWN} more" if len(hot) > HOTTEST_SHOWN else ""
    return f"Too hot to touch outside: {told}{more}."


def _figure(value: float) -> str:
    """Two or three figures, never an exponent."""
    if abs(value) >= 100.0:
        return f"{value:.0f}"
    return f"{value:.1f}" if abs(value) >= 1.0 else f"{value:.2g}"


NUMBERS = (
    ("draught established", "draught_established_s", "time", ""),
    ("strongest draught at the chimney foot", "draught_peak_Pa", "number", "Pa"),
    ("hottest flue at the chimney foot", "flue_temperature_peak_C", "whole", "C"),
    ("smoke from openings, time", "smoke_from_openings_s", "time", ""),
    ("smoke from openings, amount", "smoke_from_openings_g", "number", "g"),
    ("time to boil", "time_to_boil_s", "time", ""),
    ("steam raised", "evaporation_rate_kg_per_h", "number", "kg/h"),
    ("highest pressure", "peak_pressure_bar_gauge", "number", "bar(g)"),
    ("safety valve opened", "safety_valve_open_s", "time", ""),
    ("heat into water and steam", "water_heat_share", "share", "%"),
    ("heat lost up the chimney", "flue_loss_share", "share", "%"),
    ("wood burnt", "fuel_burnt_kg", "number", "kg"),
    ("heat released", "heat_released_J", "energy", "MJ"),
    ("strongest fire", "peak_firepower_W", "power", "kW"),
    ("air ratio (1 = just enough)", "air_ratio_mean", "number", ""),
    ("flue gas lets water drop below", "water_dew_point_C", "whole", "C"),
    ("heat not accounted for", "ledger_error", "share", "%"),
    ("solving took", "solve_seconds", "number", "s"),
)
"""(words, key of the summary, kind, unit shown)"""
TOO_SHORT = "boiled too short a time to tell"
_SCALES = {"number": 1.0, "share": 100.0, "energy": 1e-6, "power": 1e-3}


def numbers(summary: Summary) -> list[tuple[str, str]]:
    """The figures of the summary in a fixed order, with 'did not happen' where one is null."""
    shown = [(says, _shown(summary.get(key), kind, unit)) for says, key, kind, unit in NUMBERS]
    if _steam(summary) and summary.get("evaporation_rate_kg_per_h") is None:
        return [(says, TOO_SHORT if says == "steam raised" else text) for says, text in shown]
    return shown


def _shown(value: float | None, kind: str, unit: str) -> str:
    if value is None:
        return "did not happen"
    if kind == "time":
        return spell(value)
    text = f"{value:.0f}" if kind == "whole" else _figure(value * _SCALES[kind])
    return f"{text} {unit}".strip()
