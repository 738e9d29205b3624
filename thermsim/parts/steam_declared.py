"""The steam plant as a person measures it: outlets of the drum, feed, tubes in the gas, steam line.

Only the declarations. Laws: physics/steam_valves, relief, feed, tubes, steam_heating, pipe_loss.
"""

from __future__ import annotations

from thermsim.parts.declare import Block, Field
from thermsim.parts.hazards_declared import LINE_STRENGTH, TUBE_STRENGTH
from thermsim.parts.walls import finish_fields
from thermsim.trade_words import PRACTICE

CRANE = "loss coefficients of Crane TP 410 at 10 to 25 mm, with 1.5 for entry and end"
PIPE_WHY = "pipe that screws into a small drum"


def _moves(default: str, hand: str) -> Field:
    return Field("moves_in", "time", f"time {hand} takes to open or shut it", default=default,
                 low="0.5 s", high="120 s", why="a hand", source=PRACTICE)


def _bore(says: str, default: str | None = None, required: bool = False,
          trade: str = "") -> Field:
    return Field("bore", "length", says, required=required, default=default, low="1 mm",
                 high="150 mm", why=PIPE_WHY, source=PRACTICE if default else "", trade=trade)


STOP_VALVE = Block(
    "stop_valve",
    "The valve that a person opens to let steam into the line.",
    (
        _bore("bore of its seat, wide open", required=True),
        Field("shape", "choice", "how it is built", default="globe",
              choices=("globe", "gate", "ball"), source=PRACTICE),
        Field("discharge", "share", "flow through it over that of a perfect nozzle of its bore",
              low="0.05", high="1", why="a loss is left in any valve",
              default_by=("shape", {
                  "globe": ("0.31", "+- 0.06", CRANE),
                  "gate": ("0.76", "+- 0.08", CRANE),
                  "ball": ("0.79", "+- 0.08", CRANE),
              })),
        Field("open", "share", "how far it is open at the start", default=0.0, low="0", high="1",
              why="a share", source="shut when lighting"),
        _moves("5 s", "a hand wheel"),
    ),
)

LIFT_SOURCE = "certified coefficients of spring-loaded valves for steam, ISO 4126-1, from memory"

SAFETY_VALVE = Block(
    "safety_valve",
    "The valve that opens by itself at its set pressure and is wide open at 10 % more.",
    (
        Field("set", "pressure_gauge", "pressure at which it begins to open, as stamped on it",
              required=True, low="0.05 bar(g)", high="20 bar(g)",
              why="the laws of steam are fitted to 22 bar(a), the flow of 10 % over counted"),
        _bore("bore of its seat; needed if no area is given"),
        Field("area", "area", "flow area stamped on it; the bore's if not given", low="1 mm2",
              high="20000 mm2", why=PIPE_WHY),
        Field("lift", "choice", "how far its disc lifts: high, its bore is what holds the steam "
              "back; low, the gap at its seat", default="low", choices=("low", "high"),
              source="what is not known is taken as the smaller flow"),
        Field("discharge", "share", "certified coefficient of discharge, stamped on it",
              low="0.02", high="0.98", why="under a perfect nozzle",
              default_by=("lift", {
                  "low": ("0.3", "+- 0.15", LIFT_SOURCE),
                  "high": ("0.7", "+- 0.1", LIFT_SOURCE),
              })),
        Field("blow_down", "share", "how far under its set pressure it shuts again; told, not "
              "reckoned with", default="10 %", spread="+- 5 %", low="0 %", high="50 %",
              why="ISO 4126-1 allows 15 %", source="ISO 4126-1, from memory"),
        Field("can_be_shut_off", "flag", "there is a cock or valve between it and the drum, or "
              "it can be screwed down by hand", default=False,
              source="it stands on the drum with nothing between"),
        Field("open_way", "share", "with a cock between: how far that is open at the start",
              default=1.0, low="0", high="1", why="a share", source="open when lighting"),
    ),
)

VACUUM_VALVE = Block(
    "vacuum_valve",
    "The valve that lets air in when the drum is under the outside's pressure.",
    (
        _bore("bore of its seat", required=True),
        Field("opens_at", "pressure_difference", "difference at which its flap stirs; it is wide "
              "open at twice that", default="20 mbar", spread="+- 15 mbar", low="1 Pa",
              high="500 mbar", why="flap or weak spring", source=PRACTICE),
        Field("discharge", "share", "flow through it over that of a perfect nozzle of its bore",
              default=0.5, spread="+- 0.15", low="0.05", high="0.98", why="as any valve",
              source=PRACTICE),
    ),
)

OUTLETS: tuple[Field, ...] = (
    Field("vent_open", "share", "how far the vent's cock is open at the start", default=1.0,
          low="0", high="1", why="a share", source="open when lighting"),
    Field("stop_valve", "block", STOP_VALVE.says, block=STOP_VALVE, absent="none"),
    Field("safety_valve", "block", SAFETY_VALVE.says, block=SAFETY_VALVE, absent="none"),
    Field("vacuum_valve", "block", VACUUM_VALVE.says, block=VACUUM_VALVE, absent="none"),
    Field("wetness", "share", "water carried along by the steam that leaves the drum, of the "
          "mass; by the law of carry-over from the steam's speed at the water's surface and the "
          "height over it if not given. Where the water foams it is not known by that: small "
          "boilers without a separator are said to have 1-4 %", low="0 %", high="20 %",
          why="over that it primes"),
    Field("wetness_factor", "number", "times the water that the law of carry-over gives",
          default=1.0, spread="+- 0.7", low="0", high="1000", why="foam carries over many times "
          "as much", source="scatter of the tests behind it, a factor of 3 either way, from "
          "memory"),
)
"""more fields of the drum; its open vent stands there already"""

_FEED_END = (
    Field("temperature", "temperature", "temperature of the water; the air's if not given",
          low="0 C", high="99 C", why="liquid water in the open"),
    Field("check_valve", "flag", "a check valve keeps water from flowing back", default=True,
          source=PRACTICE),
    Field("check_opens_at", "pressure_difference", "what the check valve needs to open",
          default="20 mbar", spread="+- 15 mbar", low="0 Pa", high="2 bar",
          why="flap or spring", source=PRACTICE),
)
_FLOAT = (
    Field("travel", "length", "how far the water falls under the mark until it is wide open",
          default="20 mm", spread="+- 10 mm", low="2 mm", high="500 mm", why="a float's lever",
          source=PRACTICE),
    Field("valve_bore", "length", "bore of the float valve's seat", default="3 mm",
          spread="+- 1 mm", low="0.5 mm", high="50 mm", why="what a float can shut",
          source=PRACTICE),
    Field("discharge", "share", "flow through that seat over a perfect hole's", default=0.6,
          spread="+- 0.1", low="0.05", high="1", why="a hole", source="sharp-edged hole 0.61"),
)
_MARK_SAYS = "height of the water in the drum, over its lowest point, at which the float shuts"
_FEED_OPEN = Field("open", "share", "how far its cock is open at the start", default=1.0, low="0",
                   high="1", why="a share", source="open when lighting")
_PLUNGER = (
    _bore("diameter of the plunger or piston", required=True),
    Field("stroke", "length", "stroke of the plunger", required=True, low="2 mm", high="500 mm",
          why="a hand or a small engine"),
    Field("double_acting", "flag", "delivers on both strokes", default=False, source=PRACTICE),
    Field("efficiency", "share", "water delivered over water swept", default=0.9,
          spread="+- 0.08", low="0.2", high="1", why="leaking valves and packing",
          source="plunger pumps 0.85-0.98 (Karassik, Pump Handbook), from memory; worn ones less"),
)

FEEDS = {
    "float tank": Block(
        "float tank", "A tank over the drum; a float valve keeps the level.",
        (
            Field("height", "length", "height of the tank's water over the drum's lowest point",
                  required=True, low="-2 m", high="30 m", why="a shed and its roof"),
            Field("holds", "volume", "water in the tank at the start; it never empties if not "
                  "given", low="0 l", high="5000 l", why="a tank"),
            Field("mark", "length", _MARK_SAYS, required=True, low="0 mm", high="4 m",
                  why="within the drum"),
            *_FLOAT,
            _bore("bore of the pipe", "10 mm", trade="inside"),
            Field("length", "length", "length of the pipe", default="2 m", spread="+- 1 m",
                  low="10 mm", high="200 m", why="a shed and its yard", source=PRACTICE),
            Field("losses", "number", "bends, entry, cock and end, in dynamic pressures",
                  default=6.0, spread="+- 3", low="0", high="200",
                  why="a sum of bends", source="entry 0.5, four bends, cock and end, Crane TP 410"),
            _FEED_OPEN, *_FEED_END,
        ),
    ),
    "mains": Block(
        "mains", "Water under its own pressure, by hand or by a float valve.",
        (
            Field("pressure", "pressure_gauge", "pressure with every tap shut", required=True,
                  low="0.05 bar(g)", high="20 bar(g)", why="water mains"),
            Field("flow_open", "volume_flow", "flow into a bucket with the tap open", required=True,
                  low="0.05 l/min", high="300 l/min", why="a garden tap"),
            Field("mark", "length", _MARK_SAYS + "; without a float if not given", low="0 mm",
                  high="4 m", why="within the drum"),
            *_FLOAT,
            Field("open", "share", "how far its tap is open at the start", default=0.0, low="0",
                  high="1", why="a share", source="shut when lighting"),
            *_FEED_END,
        ),
    ),
    "hand pump": Block(
        "hand pump", "A plunger pump worked by hand, stroke by stroke.",
        (
            *_PLUNGER,
            Field("strokes", "frequency", "strokes a minute while it is worked",
                  default="30 1/min", spread="+- 10 1/min", low="2 1/min", high="120 1/min",
                  why="an arm", source=PRACTICE),
            Field("leverage", "number", "way of the handle over that of the plunger", default=5.0,
                  spread="+- 2", low="0.5", high="50", why="a lever", source=PRACTICE),
            Field("lift", "length", "height of the pump over the water it draws", default="0 m",
                  low="-10 m", high="8 m", why="the outside's pressure lifts no higher",
                  source="beside its tank"),
            Field("holds", "volume", "water there is to pump; no end of it if not given",
                  low="0 l", high="5000 l", why="a tank"),
            _FEED_END[0],
        ),
    ),
    "engine pump": Block(
        "engine pump", "A plunger pump that the engine drives.",
        (
            *_PLUNGER,
            Field("strokes_a_turn", "number", "delivering strokes of one side for each turn of "
                  "the engine", default=1.0, low="0.01", high="4", why="eccentric or gears",
                  source="an eccentric on the shaft"),
            Field("delivers", "share", "share of its water sent into the drum, the rest round by "
                  "the bypass", default=1.0, low="0", high="1", why="a share",
                  source="bypass shut"),
            Field("lift", "length", "height of the pump over the water it draws", default="0 m",
                  low="-10 m", high="8 m", why="the outside's pressure lifts no higher",
                  source="beside its tank"),
            Field("holds", "volume", "water there is to pump; no end of it if not given",
                  low="0 l", high="5000 l", why="a tank"),
            _FEED_END[0],
        ),
    ),
}
FEED = Field("feed", "blocks", "what feeds the drum, by name", variants=("kind", FEEDS))

TUBE_MATERIAL_WHY = "its limit is watched"
_TUBE_FIELDS = (
    Field("name", "text", "name of the tube", required=True),
    Field("in", "text", "where it lies: the name of a pass, 'firebox crown', 'over the grate', "
          "'behind the drum', or 'exhaust' for a feed coil in the engine's exhaust steam",
          required=True),
    Field("duty", "choice", "what it is for: it is fed with steam from the drum, or with feed "
          "water", required=True, choices=("drier", "superheater", "feed coil")),
    Field("shape", "choice", "how it runs", required=True,
          choices=("straight", "looped", "helical")),
    _bore("inside diameter", required=True, trade="inside"),
    Field("wall", "length", "thickness of its wall", default="1.5 mm", low="0.3 mm",
          high="12 mm", why="tube that can be bent", source=PRACTICE, trade="wall"),
    Field("length", "length", "length in the gas, all of it unrolled", required=True,
          low="20 mm", high="60 m", why="a small plant"),
    Field("side_by_side", "count", "like tubes side by side, the steam parted among them",
          default="1", low="1", high="40", why="a header", source="one tube"),
)
_PITCH = Field("pitch", "length", "middle to middle of its turns or legs; two outside diameters "
               "if not given", low="2 mm", high="1 m", why="no closer than touching")
_TUBE_TAIL = (
    Field("lies", "choice", "across the gas or along it", default="across",
          choices=("across", "along"), source=PRACTICE),
    Field("runs", "choice", "whether the steam or water goes through a pass the way the gas does",
          default="with the gas", choices=("with the gas", "against the gas"), source=PRACTICE),
    Field("material", "text", f"material; {TUBE_MATERIAL_WHY}", default="mild steel",
          source=PRACTICE),
    *TUBE_STRENGTH,
    Field("roughness", "length", "roughness of the inside", default="0.05 mm",
          spread="+- 0.03 mm", low="0 mm", high="2 mm", why="tube",
          source="new steel tube 0.02-0.1 mm (VDI Heat Atlas L1.2), from memory"),
    *finish_fields(),
    Field("cells", "count", "number of slices along the steam; enough unless given", low="1",
          high="30", why="more costs time and changes nothing"),
)
TUBE_SHAPES = {
    "straight": Block("straight", "One straight tube, or several side by side.",
                      (*_TUBE_FIELDS, *_TUBE_TAIL)),
    "looped": Block(
        "looped", "A tube bent to and fro.",
        (*_TUBE_FIELDS,
         Field("bends", "count", "return bends, each by half a turn", required=True, low="1",
               high="60", why="legs that fit the gas's way"),
         _PITCH, *_TUBE_TAIL)),
    "helical": Block(
        "helical", "A tube wound to a coil.",
        (*_TUBE_FIELDS,
         Field("coil_diameter", "length", "diameter of the coil, middle to middle of the tube",
               required=True, low="10 mm", high="1.5 m", why="tube bends to three bores' width"),
         _PITCH, *_TUBE_TAIL)),
}
TUBES = Field("tubes", "list", "tubes in the gas, in the order in which the steam passes them, "
              "from the stop valve on; feed coils in the order of the water",
              variants=("shape", TUBE_SHAPES))

STEAM_LINE = Block(
    "steam_line",
    "The pipe to the engine, from the stop valve or from the last tube on.",
    (
        _bore("inside diameter", required=True, trade="inside"),
        Field("wall", "length", "thickness of its wall", default="2.3 mm", low="0.3 mm",
              high="12 mm", why="pipe", trade="wall", source="threaded steel pipe of half an inch, "
              "EN 10255 medium 2.6 mm, light 2.3 mm, from memory"),
        Field("length", "length", "length of the pipe", required=True, low="50 mm", high="100 m",
              why="a shed and its yard"),
        Field("material", "text", "material of the pipe", default="mild steel", source=PRACTICE),
        *LINE_STRENGTH,
        Field("lagging", "length", "thickness of the lagging; bare if 0", default="0 mm",
              low="0 mm", high="200 mm", why="pipe lagging", source="bare unless written"),
        Field("lagging_material", "text", "what the lagging is", default="mineral wool",
              source=PRACTICE),
        Field("bends", "number", "bends, valves and fittings, in dynamic pressures", default=4.0,
              spread="+- 3", low="0", high="200", why="a sum of bends",
              source="screwed elbows 0.8 each, Crane TP 410, from memory"),
        Field("roughness", "length", "roughness of the inside", default="0.05 mm",
              spread="+- 0.03 mm", low="0 mm", high="2 mm", why="pipe",
              source="new steel tube 0.02-0.1 mm (VDI Heat Atlas L1.2), from memory"),
        Field("drain", "share", "how far its drain is open at the start: a trap, or a cock that "
              "somebody minds, which lets out water and no steam worth counting", default=0.0,
              low="0", high="1", why="a share", source="shut when lighting"),
        *finish_fields(),
    ),
)
