"""A plant being put together: growing lists of rows, the index of states, ledger rows."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from thermsim.kernel import table
from thermsim.network.node_index import NodeIndex
from thermsim.parts.watts import FIRST_SURFACE
from thermsim.physics.materials import MATERIAL, Material, material_row

Row = dict[str, Any]


@dataclass
class Spot:
    """A place with a temperature that is shown: column name, state, part, side.

    side: inside, outside, or wall (of a tube).
    """

    name: str
    state: int
    part: str
    side: str
    material: str = ""
    limit: float | None = None


@dataclass
class Draft:
    """Rows by table, filled by the assemble_* modules and turned into tables at the end."""

    tree: Any
    index: NodeIndex = field(default_factory=NodeIndex)
    rows: dict[str, list[Row]] = field(default_factory=dict)
    materials: dict[str, Material] = field(default_factory=dict)
    material_places: dict[str, int] = field(default_factory=dict)
    surface_names: list[str] = field(default_factory=list)
    spots: list[Spot] = field(default_factory=list)
    controls: dict[str, int] = field(default_factory=dict)
    firebox: Row = field(default_factory=dict)
    tubes: dict[str, list[list[int]]] = field(default_factory=dict)
    """rows of each tube's slices by gas cell, the first being where the gas comes from"""
    line_slices: int = 0
    """rows of tubes that steam passes; feed coils come after"""
    gauge_count: int = 0

    def row(self, kind: str, /, **columns: Any) -> int:
        """Add a row to a table and give its number."""
        rows = self.rows.setdefault(kind, [])
        rows.append(columns)
        return len(rows) - 1

    def count(self, kind: str) -> int:
        """Rows so far in a table."""
        return len(self.rows.get(kind, []))

    def gauges(self, number: int) -> int:
        """Reserve gauges and give the first one's place."""
        first = self.gauge_count
        self.gauge_count += number
        return first

    def surface_row(self, name: str) -> int:
        """Ledger row of an outside surface; surfaces of one name share a row."""
        if name not in self.surface_names:
            self.surface_names.append(name)
        return FIRST_SURFACE + self.surface_names.index(name)

    def control(self, name: str, position: float) -> int:
        """A door or damper, standing still at a position."""
        place = self.row("controls", before=position, after=position, start=0.0, end=0.0)
        self.controls[name] = place
        return place

    def material(self, key: str, material: Material) -> int:
        """Place of a material in the table, added once."""
        if key not in self.material_places:
            self.material_places[key] = len(self.materials)
            self.materials[key] = material
        return self.material_places[key]

    def material_table(self) -> Any:
        """The table of all materials met."""
        made = table(MATERIAL, len(self.materials))
        for i, material in enumerate(self.materials.values()):
            made[i] = material_row(material)
        return made

    def table(self, kind: str, row_type: np.dtype[Any]) -> Any:
        """The finished table of a kind."""
        rows = self.rows.get(kind, [])
        made = table(row_type, len(rows))
        for i, row in enumerate(rows):
            for column, value in row.items():
                made[column][i] = value
        return made
