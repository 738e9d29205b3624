"""Walls: stacks of layers from the hot side out, as a person lists them.

Real thing: plate, blanket, air gap, cladding. The arrays and the balance are in `wall.py`.
"""

from __future__ import annotations

from thermsim.parts.declare import Block, Field

EMISSIVITY_SOURCE = (
    "thermography emissivity tables: oxidised steel 0.79, galvanised 0.28, matt black paint 0.95"
)

LAYER = Block(
    "layer",
    "One layer of a wall, from the hot side out.",
    (
        Field("material", "text", "name of the material", required=True),
        Field("thickness", "length", "thickness of the layer; 0 mm leaves it out", required=True,
              low="0 mm", high="500 mm", why="thicker walls do not warm in a firing", trade="wall"),
        Field("grade", "choice", "grade of a blanket, by its weight", default="96 kg/m3",
              choices=("96 kg/m3", "128 kg/m3"), source="common practice, no source"),
        Field("cells", "count", "number of slices for conduction", low="1", high="40",
              why="more costs time and changes nothing"),
    ),
)


def wall_field(name: str, says: str, default: str) -> Field:
    """A wall of layers; the default is one layer of mild steel of the thickness given."""
    return Field(name, "list", says, default=[{"material": "mild steel", "thickness": default}],
                 block=LAYER, source="common practice, no source")


def finish_fields() -> tuple[Field, ...]:
    """How the outside looks, and the emissivity that follows."""
    return (
        Field("finish", "choice", "look of the outside", default="oxidised",
              choices=("oxidised", "rusty", "galvanised", "black paint", "bright"),
              source="common practice, no source"),
        Field("emissivity", "share", "emissivity of the outside", low="0.02", high="1",
              why="an emissivity",
              default_by=("finish", {
                  "oxidised": ("0.80", "+- 0.06", EMISSIVITY_SOURCE),
                  "rusty": ("0.75", "+- 0.12", EMISSIVITY_SOURCE),
                  "galvanised": ("0.28", "+- 0.15", EMISSIVITY_SOURCE),
                  "black paint": ("0.95", "+- 0.03", EMISSIVITY_SOURCE),
                  "bright": ("0.15", "+- 0.08", EMISSIVITY_SOURCE),
              })),
    )


MATERIAL_FIELDS = Block(
    "material",
    "A material of your own.",
    (
        Field("conductivity", "conductivity", "thermal conductivity when hot", required=True,
              low="0.005 W/(m K)", high="500 W/(m K)", why="from vacuum panels to copper"),
        Field("density", "density", "density", required=True, low="10 kg/m3", high="20000 kg/m3",
              why="from aerogel to lead"),
        Field("heat_capacity", "heat_capacity", "heat capacity", required=True,
              low="100 J/(kg K)", high="5000 J/(kg K)", why="solids lie between these"),
        Field("emissivity", "share", "emissivity when used", default=0.9, low="0.02", high="1",
              why="an emissivity", source="most non-metals, thermography tables"),
        Field("limit", "temperature", "hottest it may get", default="800 C", low="0 C",
              high="2000 C", why="service temperatures", source="common practice, no source"),
    ),
)
