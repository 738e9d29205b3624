"""The plant as arrays: one NamedTuple that the balance reads.

Tables hold a row an instance, with named columns; columns that hold what is so at the moment of
an evaluation are work space. Few and long tables: every array passed to compiled code costs.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Rows = NDArray[Any]
Floats = NDArray[np.float64]

TOTALS = np.dtype([("air_in", "i8"), ("chimney_out", "i8"), ("smoke_out", "i8"),
                   ("steam_out", "i8"), ("fed", "i8"),
                   ("feed_heat", "i8"), ("gauge", "i8"),
                   ("foot_cell", "i8")])
"""Where the totals carried as states begin, the gauges of the fire, the cell at chimney foot."""


class Plant(NamedTuple):
    """Tables (day, fire, drum and totals have one row), then arrays."""

    day: Rows
    basis: Rows
    zones: Rows
    openings: Rows
    fire: Rows
    patches: Rows
    segments: Rows
    cells: Rows
    faces: Rows
    ways: Rows
    nodes: Rows
    links: Rows
    surfaces: Rows
    materials: Rows
    drum: Rows
    outlets: Rows
    feeds: Rows
    tubes: Rows
    line: Rows
    engine: Rows
    controls: Rows
    pulses: Rows
    totals: Rows
    polynomials: Floats
    """(8, 2, 8): the five gases, then gas going forward, coming back, both"""
    transport: Floats
    """(2, 2, 6): fits of viscosity and conductivity of air and of burnt gas"""
    emissivity: Floats
    given: Floats
    """(points, 2): time and heat of a given fire"""
    shares: Floats
    """(zones + outside + runs, 5): shares of the gas in each"""
    joints: Floats
    """(runs + 3, runs): matrix, pressures and two sums of the joints"""
    response: Floats
    """(openings, runs): gain of flows for a pascal, filled for the Jacobian only"""
    shining: Floats
    """(8, patches): radiation in the firebox"""
    heat: Floats
    """(states + 1,): what every node gets [W]; the last is the outside"""
