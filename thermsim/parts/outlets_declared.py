"""What a builder writes of the drum's outlets: vent, stop valve, safety valve, vacuum valve."""

from __future__ import annotations

from thermsim.parts.declare import Block, Field

PRACTICE = "common practice, no source"


def _bore(says: str) -> Field:
    return Field("bore", "length", says, required=True, low="1 mm", high="200 mm", why="a valve")


STOP_VALVE = Block(
    "stop valve",
    "The valve by which steam is let out to work; shut when lighting unless told otherwise.",
    (
        _bore("clear bore"),
        Field("open", "share", "how far it is open at the start", default=0.0, low="0", high="1",
              why="a share", source="shut when lighting"),
        Field("discharge", "share", "discharge coefficient", default=0.6, spread="+- 0.1",
              low="0.05", high="1", why="a flow through a hole",
              source="globe valve and short pipe, common practice, no source"),
    ),
)
SAFETY_VALVE = Block(
    "safety valve",
    "The valve that lifts by itself when the pressure passes its set pressure.",
    (
        Field("set", "pressure_gauge", "pressure at which it opens", required=True,
              low="0.05 bar(g)", high="30 bar(g)", why="a small steam plant"),
        _bore("bore of its seat"),
        Field("discharge", "share", "certified discharge coefficient", default=0.6,
              spread="+- 0.2", low="0.05", high="1", why="a flow through a seat",
              source="a low-lift valve; its certificate tells it; common practice, no source"),
        Field("blow_down", "share", "how far under its set pressure it shuts again, as told only",
              default=0.1, low="0", high="0.4", why="a share", source="ISO 4126-1: 15 % at most "
              "for steam, from memory"),
        Field("can_be_shut_off", "flag", "a cock or valve sits between it and the drum",
              default=False, source="it must not"),
    ),
)
VACUUM_VALVE = Block(
    "vacuum valve",
    "A valve that lets air in when the drum cools shut and pulls a vacuum.",
    (
        _bore("clear bore"),
        Field("opens_at", "pressure_difference", "pull at which it opens", default="20 mbar",
              spread="+- 10 mbar", low="1 Pa", high="500 mbar", why="a light spring or flap",
              source=PRACTICE),
        Field("discharge", "share", "discharge coefficient", default=0.5, spread="+- 0.15",
              low="0.05", high="1", why="a flow through a seat", source=PRACTICE),
    ),
)
OUTLET_FIELDS = (
    Field("vent_open", "share", "how far the vent is open at the start", default=1.0, low="0",
          high="1", why="a share", source="open when lighting"),
    Field("stop_valve", "block", STOP_VALVE.says, block=STOP_VALVE, absent="none"),
    Field("safety_valve", "block", SAFETY_VALVE.says, block=SAFETY_VALVE, absent="none"),
    Field("vacuum_valve", "block", VACUUM_VALVE.says, block=VACUUM_VALVE, absent="none"),
)
"""fields of the drum's block"""
