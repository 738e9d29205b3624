"""The user's own prices and rates, read by the scenario's loader; there are no defaults."""

from __future__ import annotations

import os
from typing import Any

from thermsim.parts.declare import Block, Field
from thermsim.scenario.load import load_scenario as load_file

WHY = "a price or a rate of your own"


def _price(name: str, says: str) -> Field:
    return Field(name, "number", says, low="0", high="1000000", why=WHY)


def _minutes(name: str, says: str) -> Field:
    return Field(name, "time", says, low="0 s", high="100 h", why=WHY)


MATERIAL = Block(
    "material", "What a material costs.",
    (
        Field("material", "text", "its name, as in the cutting list", required=True),
        _price("per_kg", "price of a kilogram"),
        _price("per_m2", "price of a square metre, for insulation"),
        _price("per_m", "price of a metre, for pipe"),
    ),
)
BOUGHT = Block(
    "bought", "A thing bought whole.",
    (
        Field("name", "text", "its name in the cutting list", required=True),
        Field("each", "number", "price of one", required=True, low="0", high="1000000", why=WHY),
    ),
)
PRICES = Block(
    "prices",
    "Prices and rates of your own; what is left out is not reckoned.",
    (
        Field("thermsim", "count", "version of the file format", required=True, low="1", high="1",
              why="the only version so far"),
        Field("currency", "text", "what the prices are in", required=True),
        Field("materials", "list", "prices of materials", block=MATERIAL),
        Field("bought", "list", "prices of things bought whole", block=BOUGHT),
        _price("weld_per_m", "wire, gas and discs for a metre of weld"),
        _price("cut_per_m", "discs or gas for a metre of cut"),
        _minutes("weld_time", "time that a metre of weld takes"),
        _minutes("cut_time", "time that a metre of cut takes"),
        _minutes("piece_time", "time to mark out, deburr and fit one piece"),
        _price("hour", "price of an hour of work"),
    ),
)


def read_prices(path: str | os.PathLike[str]) -> Any:
    """Values of a file of prices; raises ScenarioError with every problem in it."""
    return load_file(path, declaration=PRICES).tree
