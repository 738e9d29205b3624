"""The steam engine as a person describes it, and where its exhaust goes.

Only the declaration; its laws stand in `physics/engine.py`, `physics/cylinder_condensation.py` and
`physics/blast_nozzle.py`.
"""

from __future__ import annotations

from thermsim.parts.declare import Block, Field
from thermsim.trade_words import PRACTICE

TEXTBOOKS = "the trade's textbooks (Ripper; Perry; Marks' handbook), from memory"

CYLINDER = (
    Field("bore", "length", "diameter of the cylinder", required=True, low="5 mm", high="300 mm",
          why="a model to a workshop engine"),
    Field("stroke", "length", "way of the piston from end to end", required=True, low="5 mm",
          high="500 mm", why="a model to a workshop engine"),
    Field("acting", "choice", "steam on both sides of the piston (double) or on one (single)",
          default="double", choices=("double", "single"), source=PRACTICE),
    Field("rod", "length", "diameter of the piston rod, which takes from one end of a double "
          "acting cylinder; left out if 0", default="0 mm", low="0 mm", high="100 mm",
          why="thinner than the bore", source="left out unless written: 1 to 3 % of the volume"),
    Field("clearance", "share", "room left at one end with its steam passage, share of what the "
          "piston sweeps", default="10 %", spread="+- 4 %", low="0 %", high="50 %",
          why="pistons need some room, ports more",
          source="slide valve engines 7 to 15 %, " + TEXTBOOKS),
)

VALVE = (
    Field("cut_off", "share", "share of the stroke at which the valve shuts the steam off",
          default="70 %", spread="+- 10 %", low="5 %", high="95 %",
          why="a valve must open and shut within the stroke",
          source="plain slide valve without link 60 to 80 %, " + TEXTBOOKS),
    Field("compression", "share", "share of the return stroke left when the exhaust shuts",
          default="10 %", spread="+- 8 %", low="0 %", high="60 %",
          why="the exhaust is open for most of its stroke",
          source="plain slide valve with little exhaust lap, " + PRACTICE),
    Field("diagram_factor", "share", "area of the real indicator diagram over the ideal one",
          default="75 %", spread="+- 10 %", low="30 %", high="100 %",
          why="narrow ports and slow valves round the corners off",
          source="small slide valve engines 0.65 to 0.85, " + TEXTBOOKS),
    Field("speed", "frequency", "turns of the shaft", required=True, low="1 1/min",
          high="3000 1/min", why="a model to a launch engine"),
)

STEAM = (
    Field("condensation", "share", "share of the steam taken that turns to water on the walls "
          "before the cut-off, small leaks of valve and piston among it; by Heck's formula from "
          "size, speed, cut-off, pressures and superheat if not given", low="0 %", high="80 %",
          why="a share; over half only in models"),
    Field("condensation_factor", "number", "times what Heck's formula gives", default=1.0,
          spread="+- 0.5", low="0", high="3", why="other formulas differ from it by a factor of 2",
          source="scatter of the tests behind it and the step to small cylinders; Cotterill's "
          "formula gives 1.8 times as much, from memory"),
    Field("back_pressure", "pressure_difference", "how far ports and exhaust pipe hold the "
          "exhaust above what stands at the pipe's end", default="10 kPa", spread="+- 7 kPa",
          low="0 Pa", high="300 kPa", why="over that it would hardly turn",
          source="non-condensing engines 1 to 3 psi, " + TEXTBOOKS),
)

EXHAUST = (
    Field("exhaust", "choice", "where the exhaust steam goes: into the open, through the coil that "
          "warms the feed and then into the open, or up the chimney through a nozzle",
          default="open air", choices=("open air", "feed coil", "chimney"), source=PRACTICE),
    Field("nozzle", "length", "mouth of the nozzle in the chimney; needed for exhaust to the "
          "chimney alone", low="0.5 mm", high="100 mm",
          why="narrower than the chimney it stands in"),
)

ENGINE = Block(
    "engine",
    "A piston steam engine: one cylinder, run at a speed that is given.",
    (*CYLINDER, *VALVE, *STEAM, *EXHAUST),
)
