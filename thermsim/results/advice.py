"""What to change first: one sentence, only where the figures of the run give the reason."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from thermsim.results.moments import Door, spell
from thermsim.results.shares import BODY, losses_by_part, shares_by_destination

if TYPE_CHECKING:
    import pandas as pd

ENOUGH_AIR = 1.2
"""below this air ratio a wood fire leaves much unburnt (common practice, no source)"""
MUCH_AIR = 3.5
"""above this air ratio cold air carries much of the heat away (common practice, no source)"""
SHORT = 0.1
"""share of a fire's time without enough oxygen from which on air may be why it went out"""
WORTH_CHANGING = 0.10
"""a loss of a smaller share of the heat is not worth the first change"""
MUCH_STORED = 0.25
"""a body that holds more than this share of the heat at the end is heavy for a short firing"""
CURES = {
    "casing": "a blanket round the casing, or a thicker one",
    "firebox": "a blanket or lining round the firebox",
    "drum": "a blanket on the part of the drum that stands outside",
    "unburnt": "more air at the fire, drier or thinner wood, or smaller charges",
    "flue_gas": "a narrower gap, closer baffles or a longer drum, as long as it still draws",
    "chimney": "a blanket round the chimney, which also helps it draw",
    "drying_wood": "drier wood",
    "smoke": "a longer wait before the ash door is shut, or a taller chimney",
}
"""losses by the word their ledger row begins with, and what lessens them"""


def change_first(summary: Mapping[str, Any], door: Door | None, ledger: pd.DataFrame) -> str:
    """The first change worth trying, with its reason; empty if no figure gives one."""
    told = (_door_first(door) or _fuel_first(summary) or _draught_first(summary)
            or _air_first(summary)
            or _body_first(summary, ledger) or _loss_first(ledger))
    return f"What to change first: {told}" if told else ""


def _door_first(door: Door | None) -> str:
    if door is None or not door.too_soon:
        return ""
    hotter = ("when the flue is hotter" if door.flue is None
              else f"when the flue at the chimney foot is well over {door.flue:.0f} C")
    return (f"leave the {door.name.replace('_', ' ')} open for longer than {spell(door.time)}: "
            f"shut it {hotter}.")


def _fuel_first(summary: Mapping[str, Any]) -> str:
    """A fire that went out and was hardly ever short of air: draught is no cure."""
    ended = summary.get("fire_ended_s")
    if summary.get("outcome") != "smothered" or not ended:
        return ""
    if float(summary.get("oxygen_short_s") or 0.0) > SHORT * float(ended):
        return ""
    return (f"a fire that catches: it went out after {spell(float(ended))} with air enough. Drier "
            "or thinner sticks, laid closer, or more kindling.")


def _draught_first(summary: Mapping[str, Any]) -> str:
    if summary.get("draught_established_s") is None:
        return ("the draught, since it never held: a taller or warmer chimney, a wider gap, "
                "or fewer baffles.")
    return ""


def _air_first(summary: Mapping[str, Any]) -> str:
    ratio = summary.get("air_ratio_mean")
    if ratio is None:
        return ""
    if ratio < ENOUGH_AIR:
        return (f"more air at the fire: its air ratio was {ratio:.1f} (1 = just enough), and below "
                f"{ENOUGH_AIR} much leaves unburnt.")
    if ratio > MUCH_AIR:
        return (f"less air, or more wood at a time: the air ratio was {ratio:.1f} "
                "(1 = just enough), and the surplus only carries heat away.")
    return ""


def _body_first(summary: Mapping[str, Any], ledger: pd.DataFrame) -> str:
    """A heavy body, if it holds more than any one part loses and there was water to boil."""
    if summary.get("outcome") == "fired_dry":
        return ""
    held = dict(shares_by_destination(ledger)).get(BODY, 0.0)
    if held < MUCH_STORED or held < max(losses_by_part(ledger).values(), default=0.0):
        return ""
    return (f"the hot body still held {100 * held:.0f} % of the heat at the end: thinner plate "
            "or insulating brick inside the firebox boils sooner; so does firing again while warm.")


def _loss_first(ledger: pd.DataFrame) -> str:
    """The largest loss, outside surfaces of one part taken together."""
    losses = losses_by_part(ledger)
    if not losses:
        return ""
    part, share = max(losses.items(), key=lambda one: one[1])
    if part not in CURES or share < WORTH_CHANGING:
        return ""
    name = {"flue_gas": "flue gas carries away", "unburnt": "unburnt gas carries away",
            "smoke": "smoke carries away", "drying_wood": "drying of the wood takes",
            }.get(part, f"outside of the {part} loses")
    return f"the {name} {100 * share:.0f} % of the heat: {CURES[part]}."
