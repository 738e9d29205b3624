"""Parts of a plant: a file each, with declaration, arrays and balance.

`SCENARIO` is everything a person may write, as plain records.
"""

from __future__ import annotations

from thermsim.parts.day import DAY
from thermsim.parts.declare import Block, Field
from thermsim.parts.engine_declared import ENGINE
from thermsim.parts.hazards_declared import LEGS, PLACE
from thermsim.parts.plant_declared import DRUM, FIREBOX, GAS_PATH, OPENINGS
from thermsim.parts.steam_declared import FEED, STEAM_LINE, TUBES
from thermsim.parts.walls import MATERIAL_FIELDS
from thermsim.parts.wood import ENTRY, FIRE, OUTPUTS, WOOD

SCENARIO = Block(
    "scenario",
    "A plant, a day and a firing.",
    (
        Field("thermsim", "count", "version of the file format", required=True, low="1",
              high="1", why="the only version so far"),
        Field("title", "text", "what this is", default="untitled",
              source="no title unless written"),
        Field("day", "block", DAY.says, required=True, block=DAY),
        Field("wood", "block", WOOD.says, required=True, block=WOOD),
        Field("fire", "block", FIRE.says, block=FIRE),
        Field("firebox", "block", FIREBOX.says, required=True, block=FIREBOX),
        OPENINGS,
        GAS_PATH,
        Field("drum", "block", DRUM.says, block=DRUM),
        FEED,
        TUBES,
        Field("steam_line", "block", STEAM_LINE.says, block=STEAM_LINE, absent="none"),
        Field("engine", "block", ENGINE.says, block=ENGINE, absent="none"),
        Field("legs", "block", LEGS.says, block=LEGS, absent="none"),
        Field("place", "block", PLACE.says, block=PLACE),
        Field("materials", "blocks", "materials of your own, by name", block=MATERIAL_FIELDS),
        Field("firing", "list", "what is done, and when", default=[], block=ENTRY,
              source="nothing is done"),
        Field("outputs", "block", OUTPUTS.says, block=OUTPUTS),
    ),
)
