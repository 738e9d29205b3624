"""The steam engine as a row; none if the scenario has none."""

from __future__ import annotations

from typing import Any

from thermsim.network.draft import Draft
from thermsim.network.sizes import circle_area
from thermsim.parts.engine import CHIMNEY, FEED_COIL, OPEN_AIR
from thermsim.physics.engine import swept_volume

STANDS_AT_START = 0.0
EXHAUSTS = {"open air": OPEN_AIR, "feed coil": FEED_COIL, "chimney": CHIMNEY}


def add_engine(draft: Draft, foot: int) -> None:
    """One row for the engine, standing until somebody starts it; foot: cell at chimney's foot."""
    given = draft.tree["engine"]
    if not given or not draft.tree["drum"]:
        return
    by_formula = given["condensation"] is None
    draft.row(
        "engine", control=draft.control("engine", STANDS_AT_START), bore=given["bore"],
        stroke=given["stroke"], speed=given["speed"], cut_off=given["cut_off"],
        swept=float(swept_volume(given["bore"], given["stroke"], given["rod"],
                                 given["acting"] == "double")),
        clearance=given["clearance"], compression=given["compression"],
        factor=given["diagram_factor"],
        condensation=-1.0 if by_formula else given["condensation"],
        condensation_factor=given["condensation_factor"], back=given["back_pressure"],
        steam=draft.index.add("total steam to the engine", "total", 0.0),
        work=draft.index.add("total work of the engine", "total", 0.0), gauge=draft.gauges(6),
        **_exhaust(draft, given, foot))


def _exhaust(draft: Draft, given: Any, foot: int) -> dict[str, Any]:
    """Where the exhaust goes; up the chimney from its foot on."""
    return {"exhaust": EXHAUSTS[given["exhaust"]],
            "nozzle_area": circle_area(given["nozzle"] or 0.0),
            "chimney_cell": foot, "chimney_area": draft.rows["cells"][foot]["area"]}
