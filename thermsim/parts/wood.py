"""Wood, the fire it feeds and the firing: what is burnt, how it is lit, and what is done when.

Only the declarations; burning itself is in `fuel.py` and `fire_zone.py`.
"""

from __future__ import annotations

from thermsim.parts.declare import Block, Field

STORED = "common practice, no source; ranges agree with EN ISO 17225-5 moisture classes"

WOOD = Block(
    "wood",
    "What is burnt.",
    (
        Field("kind", "choice", "kind of wood", default="mixed hardwood",
              choices=("reference wood", "mixed hardwood", "broadleaf", "conifer", "pine"),
              source="common practice, no source"),
        Field("stored", "choice", "how it was stored", default="under a roof one summer",
              choices=("kiln dried", "under a roof two summers", "under a roof one summer",
                       "outdoors", "fresh"), source="common practice, no source"),
        Field("moisture", "share", "water in the wood, share of its weight as it is", low="0 %",
              high="60 %", why="green wood holds up to 60 %",
              default_by=("stored", {
                  "kiln dried": ("10 %", "+- 2 %", STORED),
                  "under a roof two summers": ("15 %", "+- 3 %", STORED),
                  "under a roof one summer": ("20 %", "+- 4 %", STORED),
                  "outdoors": ("28 %", "+- 6 %", STORED),
                  "fresh": ("45 %", "+- 8 %", STORED),
              })),
        Field("thickness", "length", "thickness of a stick", required=True, low="3 mm",
              high="150 mm", why="thinner burns as shavings, thicker as logs"),
        Field("length", "length", "length of a stick", default="300 mm", low="30 mm", high="1 m",
              why="sticks", source="common practice, no source"),
        Field("char_yield", "share", "charcoal left of dry wood", default=0.18, spread="+- 0.03",
              low="0.05", high="0.35", why="measured yields",
              source="pine, nine laboratories, 0.14-0.22 (MaCFP open data)"),
        Field("ash", "share", "ash in dry wood", default="1 %", spread="+- 0.5 %", low="0 %",
              high="10 %", why="wood with bark", source="EN ISO 17225-1 Annex B, from memory"),
    ),
)

GIVEN_POINT = Block(
    "point",
    "Heat release at a time; straight lines between.",
    (
        Field("at", "time", "time from lighting", required=True, low="0 s", high="48 h",
              why="a firing"),
        Field("heat", "power", "heat released", required=True, low="0 W", high="200 kW",
              why="a small stove"),
    ),
)

MIXING = "common practice, no source; see the docstring of fire_zone.py"

FIRE = Block(
    "fire",
    "The fire: sticks that burn as they can, or a heat release that is given.",
    (
        Field("kind", "choice", "stick fire or given fire", default="sticks",
              choices=("sticks", "given", "none"), source="common practice, no source"),
        Field("heat", "list", "given fire: heat release against time", default=[],
              block=GIVEN_POINT, source="no given fire unless written"),
        Field("kindling", "mass", "dry kindling burnt to light the fire", default="150 g",
              spread="+- 50 g", low="0 g", high="3 kg", why="a start",
              source="common practice, no source"),
        Field("kindling_time", "time", "time in which the kindling burns", default="4 min",
              spread="+- 1 min", low="20 s", high="30 min", why="a start",
              source="common practice, no source"),
        Field("packing", "share", "share of the feed's cross-section filled by sticks",
              default=0.45, spread="+- 0.1", low="0", high="0.9", why="sticks laid by hand",
              source="stacked round wood fills 0.5-0.65; loosely fed sticks less; from memory"),
        Field("burning_depth", "length", "height of the zone above the grate where sticks burn",
              default="120 mm", spread="+- 40 mm", low="20 mm", high="1 m",
              why="within the firebox", source="common practice, no source"),
        Field("mixing", "share", "share of the oxygen that the flames over the fuel can use",
              default=0.85, spread="+- 0.08", low="0.1", high="1", why="an efficiency",
              source=MIXING),
        Field("firebox_mixing", "share", "share of the oxygen left that the firebox can use",
              default=0.9, spread="+- 0.08", low="0", high="1", why="an efficiency",
              source=MIXING),
        Field("soot", "number", "absorption of the flames' soot in the firebox [1/m]",
              default=1.5, spread="+- 1", low="0", high="20", why="luminous flames",
              source="wood flames about 0.5-1.5 1/m (SFPE Handbook), from memory"),
        Field("grate_open", "share", "open share of the grate", default=0.35, spread="+- 0.1",
              low="0.02", high="1", why="bars or punched plate",
              source="common practice, no source"),
    ),
)

ENTRY = Block(
    "entry",
    "One thing that is done, at a time or when something is so.",
    (
        Field("at", "time", "when, from lighting", low="0 s", high="48 h", why="a firing"),
        Field("when", "rule_when", "the condition, such as: flue above 120 C"),
        Field("do", "action", "what is done, such as: shut ash_door", required=True),
        Field("again", "flag", "act every time the condition comes true", default=False,
              source="a rule acts once"),
    ),
)

OUTPUTS = Block(
    "outputs",
    "How long is computed and how often a row is written.",
    (
        Field("until", "time", "end of the firing", default="60 min", low="1 s", high="48 h",
              why="a firing", source="common practice, no source"),
        Field("every", "time", "time between two rows of series.csv", default="5 s", low="0.1 s",
              high="1 h", why="a table a person can open", source="common practice, no source"),
    ),
)
