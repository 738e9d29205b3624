"""What only the hazards ask for: steel and welds of pressure parts, legs, floor and room.

Nothing here changes a firing. All of it may be left out; what is not given is not known, and the
hazards that need it then cannot be told. Only the declarations; laws: physics/steel_strength,
pressure_shell, joints, stability, clearances, carbon_monoxide.
"""

from __future__ import annotations

from thermsim.parts.declare import Block, Field
from thermsim.physics.pressure_shell import SEAMS
from thermsim.physics.steel_grades import GRADES

UNKNOWN_STEEL, RE_USED = "unknown", "re-used"
TUBE_JOINTS = ("welded", "brazed", "soft soldered", "screwed")
MINERAL_FLOORS = ("earth", "stone", "brick", "concrete")
WOOD, GUARDED_WOOD = "wood", "wood under sheet and 50 mm of masonry"
ROOM, OPEN_AIR = "room", "open air"


def _steel(of: str) -> Field:
    return Field("steel", "choice", f"grade of the metal of {of}, as its certificate says",
                 choices=(*GRADES, UNKNOWN_STEEL, RE_USED))


DRUM_STRENGTH: tuple[Field, ...] = (
    _steel("its plate"),
    Field("seam", "choice", "how its lengthwise seam is welded", choices=tuple(SEAMS)),
    Field("joint_efficiency", "share", "what its lengthwise seam bears over what the plate does, "
          "if somebody entitled to has said so; by 'seam' if not given", low="0.3", high="1",
          why="a lap welded on one side has 0.45"),
    Field("corrosion", "length", "plate that may rust away before it is taken out of use",
          low="0 mm", high="10 mm", why="less than a plate"),
    Field("test_pressure", "pressure_gauge", "pressure of the cold water test that it has stood",
          low="0 bar(g)", high="100 bar(g)", why="a test of a small drum"),
)
"""more fields of the drum"""

TUBE_STRENGTH: tuple[Field, ...] = (
    Field("joints", "choice", "how its joints within the gas are made", choices=TUBE_JOINTS),
    _steel("its wall"),
)
LINE_STRENGTH: tuple[Field, ...] = (
    Field("joints", "choice", "how its joints are made", choices=TUBE_JOINTS),
    _steel("its wall"),
)

LEGS = Block(
    "legs",
    "What it stands on.",
    (
        Field("number", "count", "feet: three (two of them towards the fire's end), or four and "
              "more along the edges", low="3", high="8", why="two fall over"),
        Field("along", "length", "first to last foot, along the gas path as drawn", low="20 mm",
              high="5 m", why="a small plant"),
        Field("across", "length", "foot to foot across that", low="20 mm", high="3 m",
              why="a small plant"),
        Field("from_front", "length", "from the inside of the firebox's front wall to the first "
              "feet; negative if they stand out before it", low="-1 m", high="3 m",
              why="a small plant"),
        Field("height", "length", "clear height under the ash pit's bottom, part of the height "
              "of the grate over the floor", low="0 mm", high="2 m", why="legs"),
        Field("guyed", "flag", "guys or brackets hold the chimney's top"),
    ),
)

PLACE = Block(
    "place",
    "Where it stands and what is round it.",
    (
        Field("where", "choice", "in the open, or in a room", choices=(OPEN_AIR, ROOM)),
        Field("volume", "volume", "room: what it holds", low="1 m3", high="100000 m3",
              why="a cupboard to a barn"),
        Field("air_change", "frequency", "room: how often its air changes, as 2/h", low="0 1/h",
              high="200 1/h", why="a tight room to an open gate"),
        Field("monoxide_alarm", "flag", "room: a carbon monoxide alarm hangs in it"),
        Field("floor", "choice", "what it stands on", choices=(*MINERAL_FLOORS, WOOD,
                                                              GUARDED_WOOD)),
        Field("wall_distance", "length", "from the stove to the nearest thing that burns",
              low="0 mm", high="100 m", why="a room or a yard"),
        Field("pipe_distance", "length", "from smoke pipe and chimney to the nearest thing that "
              "burns", low="0 mm", high="100 m", why="a room or a yard"),
        Field("gust", "speed", "strongest gust that the chimney has to stand", low="0 m/s",
              high="80 m/s", why="no wind to a hurricane"),
    ),
)
