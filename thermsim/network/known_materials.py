"""Materials that a layer may name, with what checks need of them at once.

The full data stand in `physics/material_data`; to import it the compiler has to be loaded, which
takes longer than reading a file should. That the two agree is tested.
"""

from __future__ import annotations

from typing import Any, NamedTuple

AIR_GAP = "air gap"
BLANKET = "blanket"
LEAST_METAL = 5.0
"""conductivity [W/(m K)] from which on a material counts as a metal that can be welded"""


class Known(NamedTuple):
    """Conductivity at 100 C [W/(m K)], density [kg/m3], hottest in long service [C]."""

    conductivity: float
    density: float
    limit: float


KNOWN: dict[str, Known] = {
    "mild steel": Known(50.66, 7850.0, 510.0),
    "weathering steel": Known(50.66, 7850.0, 540.0),
    "stainless steel 304": Known(15.87, 7850.0, 870.0),
    "copper": Known(395.9, 8933.0, 200.0),
    "cast iron": Known(50.0, 7200.0, 550.0),
    "firebrick": Known(0.9574, 2150.0, 1300.0),
    "insulating firebrick": Known(0.11, 490.0, 1200.0),
    "blanket 96": Known(0.04597, 96.0, 1100.0),
    "blanket 128": Known(0.04492, 128.0, 1100.0),
    "ceramic board": Known(0.0605, 280.0, 1100.0),
    "calcium silicate": Known(0.06607, 240.0, 649.0),
    "mineral wool": Known(0.0469, 100.0, 600.0),
    "perlite": Known(0.0578, 100.0, 800.0),
    "vermiculite": Known(0.0764, 100.0, 1000.0),
}
AIR = Known(0.031, 1.2, 2000.0)
"""the air of a gap, without the radiation across it"""


def layer_names(tree: Any) -> list[str]:
    """Names a layer may use: the known ones and the scenario's own."""
    known = {name for name in KNOWN if not name.startswith(f"{BLANKET} ")}
    return sorted({*known, BLANKET, AIR_GAP, *(tree["materials"] or {})})


def metal_names(tree: Any) -> list[str]:
    """Names of metals: what a drum can be welded of."""
    return [name for name in layer_names(tree) if name not in (AIR_GAP, BLANKET)
            and known(tree, name).conductivity >= LEAST_METAL]


def known(tree: Any, name: str, grade: str = "96 kg/m3") -> Known:
    """What is known of a material by the name that a layer uses; own materials come first."""
    own = tree["materials"]
    if own and name in own:
        given = own[name]
        return Known(given["conductivity"], given["density"], given["limit"] - 273.15)
    if name == AIR_GAP:
        return AIR
    if name == BLANKET:
        name = f"{BLANKET} {grade.split()[0]}"
    return KNOWN[name]


def of_layer(tree: Any, layer: Any) -> Known:
    """What is known of the material of a layer."""
    return known(tree, layer["material"], layer["grade"])


def used(layers: Any) -> list[Any]:
    """The layers that have a thickness."""
    return [layer for layer in layers if layer["thickness"] > 0.0]
