"""What a tape measure finds: firebox, openings, gas path and drum.

Only the declarations; each part's arrays and balance stand in the file of its own name.
"""

from __future__ import annotations

from thermsim.parts.declare import Block, Field
from thermsim.parts.hazards_declared import DRUM_STRENGTH
from thermsim.parts.steam_declared import OUTLETS
from thermsim.parts.walls import finish_fields, wall_field
from thermsim.trade_words import PRACTICE

FIREBOX = Block(
    "firebox",
    "The box round the fire, from the grate to the start of the gas path.",
    (
        Field("width", "length", "inside width", required=True, low="40 mm", high="2 m",
              why="a small stove"),
        Field("depth", "length", "inside depth", required=True, low="40 mm", high="2 m",
              why="a small stove"),
        Field("height", "length", "inside height above the grate", required=True, low="40 mm",
              high="3 m", why="a small stove"),
        Field("grate", "length", "height of the grate above the floor", default="150 mm",
              low="0 mm", high="2 m", why="an ash pit a shovel fits in", source=PRACTICE),
        wall_field("wall", "layers of the walls, from the fire out", "3 mm"),
        Field("top", "list", "layers of the top; the walls' if not given",
              block=wall_field("wall", "", "3 mm").block),
        Field("top_covered", "share", "share of the top taken up by the opening of the gas path "
              "or by the drum's face", default=0.5, spread="+- 0.2", low="0", high="1",
              why="a share of an area", source=PRACTICE),
        *finish_fields(),
    ),
)

OPENING = Block(
    "opening",
    "A hole that air or smoke passes: ash door, feed opening, clean-out, draught flap, leak.",
    (
        Field("at", "text", "'fire', or the name of the pass at whose far end it sits",
              default="fire", source=PRACTICE),
        Field("width", "length", "clear width", low="0 mm", high="2 m", why="a door",
              required=True),
        Field("height", "length", "clear height, or depth if it lies level", low="0 mm",
              high="2 m", why="a door", required=True),
        Field("sill", "length", "height of its lower edge above the floor", default="0 mm",
              low="-1 m", high="6 m", why="within the plant", source=PRACTICE),
        Field("faces", "choice", "upright in a wall, or lying level and open to the sky",
              default="side", choices=("side", "up"), source=PRACTICE),
        Field("below_grate", "flag", "its air comes up through the grate and meets the char first",
              default=False, source=PRACTICE),
        Field("column", "length", "length of the column of sticks standing in it", default="0 mm",
              low="0 mm", high="2 m", why="sticks a person can lift", source="no column"),
        Field("open", "share", "how far it is open at the start", default=1.0, low="0", high="1",
              why="a share", source="open when lighting"),
        Field("fit", "choice", "how tight it is when shut", default="drops shut",
              choices=("sealed", "rope", "drops shut", "light shows"), source=PRACTICE),
        Field("leak", "length", "leak when shut: width of the slit all along its edge",
              low="0 mm", high="10 mm", why="a door",
              default_by=("fit", {
                  "sealed": ("0 mm", "+- 0 mm", PRACTICE),
                  "rope": ("0.1 mm", "+- 0.07 mm", PRACTICE),
                  "drops shut": ("0.5 mm", "+- 0.3 mm", PRACTICE),
                  "light shows": ("2 mm", "+- 1 mm", PRACTICE),
              })),
        Field("moves_in", "time", "time a hand takes to open or shut it", default="1.5 s",
              low="0.5 s", high="60 s", why="a hand", source=PRACTICE),
    ),
)

_PASS_FIELDS = (
    Field("name", "text", "name of the pass", required=True),
    Field("kind", "choice", "what it is", required=True,
          choices=("round duct", "rectangular duct", "bend", "round the drum", "chimney")),
)


def _length(required: bool = True) -> Field:
    return Field("length", "length", "length along the gas", required=required, low="10 mm",
                 high="20 m", why="a small plant")


_RISE = Field("rise", "length", "how much higher its far end is", default="0 mm", low="-5 m",
              high="20 m", why="no more than its length", source="level unless written")
_DIAMETER = Field("diameter", "length", "inside diameter", required=True, low="20 mm", high="1 m",
                  why="a small plant", trade="inside")
_TAIL = (
    Field("cells", "count", "number of slices along the gas; enough unless given", low="1",
          high="60", why="more costs time and changes nothing"),
    Field("roughness", "length", "roughness of the inside", default="0.5 mm", spread="+- 0.4 mm",
          low="0 mm", high="10 mm", why="sooty sheet steel",
          source="sooty steel pipe 0.1-1 mm (EN 13384-1 table B.4: welded steel 1 mm), "
          "from memory"),
    Field("extra_loss", "number", "further losses, in dynamic pressures", default=0.0, low="0",
          high="50", why="a sum of bends", source="none unless written"),
    Field("damper", "share", "how far the damper in it is open", default=1.0, low="0", high="1",
          why="a share", source="no damper"),
)


def _walls(thickness: str) -> tuple[Field, ...]:
    return (wall_field("wall", "layers of the wall, from the gas out", thickness),
            *finish_fields())


PASSES = {
    "round duct": Block("round duct", "A round pipe.",
                        (*_PASS_FIELDS, _DIAMETER, _length(), _RISE, *_walls("2 mm"), *_TAIL)),
    "rectangular duct": Block(
        "rectangular duct", "A rectangular channel.",
        (*_PASS_FIELDS,
         Field("width", "length", "inside width, of its top and bottom if it lies", required=True,
               low="5 mm", high="2 m", why="a small plant"),
         Field("height", "length", "inside height, of its sides if it lies", required=True,
               low="5 mm", high="2 m", why="a small plant"),
         _length(), _RISE, *_walls("3 mm"), *_TAIL)),
    "bend": Block(
        "bend", "A round bend.",
        (*_PASS_FIELDS, _DIAMETER,
         Field("angle", "angle", "how far the gas turns", default="90 deg", low="0 deg",
               high="180 deg", why="a bend", source=PRACTICE),
         Field("made", "choice", "how it is made", default="mitred",
               choices=("mitred", "segments", "smooth"), source=PRACTICE),
         _length(), _RISE, *_walls("2 mm"), *_TAIL)),
    "round the drum": Block(
        "round the drum", "The gap between drum and casing; its sizes stand under 'drum'.",
        (*_PASS_FIELDS, _RISE, *_TAIL)),
    "chimney": Block(
        "chimney", "A length of chimney; several flange together.",
        (*_PASS_FIELDS, _DIAMETER, _length(),
         Field("rise", "length", "how much higher its far end is; its length if not given",
               low="-5 m", high="20 m", why="no more than its length"),
         *_walls("2 mm"), *_TAIL)),
}

DRUM = Block(
    "drum",
    "The water drum and the gap round it.",
    (
        Field("diameter", "length", "outside diameter", required=True, low="50 mm", high="1.5 m",
              why="a small plant", trade="outside"),
        Field("length", "length", "length of the shell: over all with flat ends, which are set "
              "into it; dished ends stand out beyond it, only their straight rims belong to it",
              required=True, low="80 mm", high="4 m", why="a small plant",
              trade="fill"),
        Field("lies", "flag", "lying (yes) or standing (no)", default=True, source=PRACTICE),
        Field("ends", "choice", "shape of the ends; dished: torispherical, R = D and r = 0.1 D "
              "(DIN 28011)", default="flat", choices=("flat", "dished"),
              source=PRACTICE),
        Field("front", "choice", "what the end towards the fire meets", default="fire",
              choices=("fire", "outside"), source=PRACTICE),
        Field("back", "choice", "what the other end meets", default="gas",
              choices=("gas", "outside"), source=PRACTICE),
        Field("plate", "length", "thickness of its plate", default="4 mm", low="0.5 mm",
              high="30 mm", why="sheet that can be welded", source=PRACTICE, trade="wall"),
        Field("material", "text", "material of the plate", default="mild steel", source=PRACTICE),
        Field("emissivity", "share", "emissivity of its sooty outside", default=0.9,
              spread="+- 0.06", low="0.02", high="1", why="an emissivity",
              source="sooted steel, thermography tables 0.88-0.98"),
        Field("water", "volume", "water in it at the start", required=True, low="0 l",
              high="2000 l", why="a small plant"),
        Field("water_temperature", "temperature", "temperature of that water; the air's if not "
              "given", low="0 C", high="99 C", why="liquid water at an open vent"),
        Field("vent", "length", "diameter of the open vent", default="20 mm", low="1 mm",
              high="200 mm", why="a pipe", source=PRACTICE, trade="inside"),
        *DRUM_STRENGTH,
        *OUTLETS,
        Field("gap", "length", "gap between drum and casing: all round, or on the mean of top and "
              "bottom and of the two sides where the drum hangs off the middle", required=True,
              low="2 mm", high="400 mm", why="a gap that can be welded and swept"),
        Field("raised", "length", "how much higher the drum hangs than the middle of its casing: "
              "the gap is so much narrower on top and wider below; lower if negative; a lying drum "
              "only", default="0 mm", low="-397 mm", high="397 mm", why="a gap of 3 mm must be "
              "left", source="in the middle unless written"),
        Field("aside", "length", "how far the drum hangs to one side of its casing's middle: the "
              "gap is so much narrower there and wider on the other side. Where gas crosses over "
              "and under this is towards the windows, where it crosses by both sides it makes one "
              "way narrow and the other wide", default="0 mm", low="0 mm", high="397 mm",
              why="a gap of 3 mm must be left", source="in the middle unless written"),
        Field("baffle_spacing", "length", "distance between baffles; none if not given",
              low="10 mm", high="4 m", why="a bay that gas can turn in"),
        Field("crossing", "choice", "how the gas crosses between two baffles: over and under the "
              "drum (windows at its sides, left and right by turns), by both sides of it (windows "
              "above and below by turns), or once round it (windows one behind another)",
              default="over and under",
              choices=("over and under", "both sides", "one way round"), source=PRACTICE),
        Field("window", "length", "width of the opening cut in each baffle, along the girth; "
              "the baffle spacing if not given", low="5 mm", high="2 m", why="a cut-out"),
        Field("baffle_fit", "length", "clearance of the baffles", default="2 mm",
              spread="+- 1 mm", low="0 mm", high="50 mm", why="cut by hand", source=PRACTICE),
        Field("baffles_welded_to", "choice", "what the baffles are welded to", default="casing",
              choices=("casing", "drum"), source=PRACTICE),
        Field("baffle_plate", "length", "thickness of the baffles", default="2 mm", low="0.3 mm",
              high="20 mm", why="sheet", source=PRACTICE, trade="wall"),
        wall_field("casing", "layers of the casing, from the gas out", "2 mm"),
        *(Field(f.name if f.name == "finish" else "casing_emissivity", f.kind,
                f.says + " of the casing", default=f.default, low=f.low, high=f.high,
                why=f.why, choices=f.choices, default_by=f.default_by, source=f.source)
          for f in finish_fields()),
    ),
)

GAS_PATH = Field(
    "gas_path", "list", "the passes in order, from the firebox to the chimney top", required=True,
    variants=("kind", PASSES))
OPENINGS = Field("openings", "blocks", "the openings by name", required=True, block=OPENING)
