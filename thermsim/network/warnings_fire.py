"""Warnings about fire, wood and firing, and about where the model is thin."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from thermsim.errors import QuantityError
from thermsim.network.design_flow import ICE
from thermsim.network.firing import Deed, parse_deed
from thermsim.network.written import mm
from thermsim.physics.validity import TWO_WAY

WET = 0.25
"""moisture over which wood smokes and hardly lights: EN ISO 17225-5 sells firewood up to 25 %"""
HOT_FIRE = 600.0
"""gas [C] of a hot fire under the feed; common practice, no source"""


def fire_warnings(tree: Any) -> Iterator[str]:
    """All warnings about wood, fire, firing and the model's reach."""
    for part in (wood, fire, firing, reach):
        yield from part(tree)


def wood(tree: Any) -> Iterator[str]:
    """Wood too wet to burn well."""
    moisture = tree["wood"]["moisture"]
    if moisture > WET:
        yield (f"Wood of {100 * moisture:.0f} % moisture is wet: over {100 * WET:.0f} % it smokes, "
               "lights slowly and leaves tar.")


def fire(tree: Any) -> Iterator[str]:
    """The burning zone, and a given fire without heat."""
    box, given = tree["firebox"], tree["fire"]
    if given["kind"] == "sticks" and given["burning_depth"] > 0.6 * box["height"]:
        yield (f"A burning depth of {mm(given['burning_depth'])} in a firebox "
               f"{mm(box['height'])} high is taken as {mm(0.6 * box['height'])}.")
    if given["kind"] == "given" and max(p["heat"] for p in given["heat"]) <= 0.0:
        yield "The given fire releases 0 W at all its points: nothing will warm up."


def deeds(tree: Any) -> Iterator[tuple[Any, Deed]]:
    """Every deed of the firing that can be read, with its entry."""
    for entry in tree["firing"]:
        for text in entry["do"]:
            try:
                yield entry, parse_deed(text)
            except QuantityError:
                continue  # told by the checks


def firing(tree: Any) -> Iterator[str]:
    """A fire never lit, wood never added, things that come too late."""
    until, kind = tree["outputs"]["until"], tree["fire"]["kind"]
    done = list(deeds(tree))
    kinds = [deed.kind for _, deed in done]
    if kind == "sticks" and "light" not in kinds:
        yield "The firing holds 0 times 'light the fire': the sticks stay cold."
    if kind == "sticks" and "add" not in kinds:
        yield (f"The firing adds 0 kg of wood: only the {1e3 * tree['fire']['kindling']:.0f} g of "
               "kindling burns.")
    if kind != "sticks" and "add" in kinds:
        yield (f"The firing adds wood {kinds.count('add')} times, which changes nothing in a fire "
               f"of kind '{kind}'.")
    for entry, deed in done:
        if entry["at"] is not None and entry["at"] > until:
            yield (f"'{deed.text}' at {entry['at'] / 60:.4g} min comes after the end of the firing "
                   f"at {until / 60:.4g} min.")


def reach(tree: Any) -> Iterator[str]:
    """Where the model says more than was measured, or leaves something out."""
    air = tree["day"]["air"]
    ratio = 2.0 * (HOT_FIRE + ICE - air) / (HOT_FIRE + ICE + air)
    level = [name for name, o in tree["openings"].items()
             if o["faces"] == "up" and o["width"] * o["height"] > 0.0]
    if level and tree["fire"]["kind"] != "none":
        yield (f"Gas exchanged both ways through {_names(level)} over a fire at {HOT_FIRE:.0f} C "
               f"has a density difference of {ratio:.1f} of the mean; the law was measured up to "
               f"{TWO_WAY.high}: smoke and air there are extrapolated.")


def _names(names: list[str]) -> str:
    quoted = [f"'{name}'" for name in names]
    return " and ".join([", ".join(quoted[:-1]), quoted[-1]] if len(quoted) > 1 else quoted)
