"""What the water wets in a drum, lying and standing, with flat and dished ends."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from thermsim.kernel import table
from thermsim.network import sizes
from thermsim.network.water_level import held_under
from thermsim.parts.drum import DRUM_ROW
from thermsim.parts.drum_level import read_lying, read_standing, water_angle

SHAPES = [(0.25, 0.45), (0.2, 2.0), (0.6, 0.3)]


def drum_of(lies: bool, diameter: float, length: float, ends: str = "dished") -> dict[str, Any]:
    return {"diameter": diameter, "length": length, "ends": ends, "plate": 0.004, "lies": lies}


class Level:
    """A drum's row that is read at a filled share."""

    def __init__(self, drum: dict[str, Any]) -> None:
        self.row, self.lies = table(DRUM_ROW, 1), drum["lies"]
        held = sizes.drum_volume(drum)
        for column, value in {"inside": sizes.inside_diameter(drum), "volume": held,
                              "straight": sizes.straight_length(drum),
                              "end_depth": sizes.end_depth(drum),
                              "in_ends": 2.0 * sizes.end_volume(drum) / held}.items():
            self.row[column] = value

    def at(self, share: float) -> dict[str, float]:
        (read_lying if self.lies else read_standing)(share, self.row[0], self.row[0])
        return {name: float(self.row[name][0]) for name in (
            "height", "surface", "wet_shell", "wet_front", "wet_back", "shell_slope",
            "ends_slope")}


@pytest.mark.parametrize(("diameter", "length"), SHAPES)
@pytest.mark.parametrize(("lies", "of_height", "of_surface"), [(True, 1e-6, 1e-6),
                                                                (False, 0.003, 0.04)])
def test_height_and_surface_are_those_of_the_geometry(
        lies: bool, of_height: float, of_surface: float, diameter: float, length: float) -> None:
    """The surface is dV/dh of what lies under a height; standing it is rounded at the rims."""
    drum = drum_of(lies, diameter, length)
    level, high, held = Level(drum), sizes.inside_height(drum), sizes.drum_volume(drum)
    for height in np.linspace(0.06, 0.94, 60) * high:
        now = level.at(held_under(drum, height) / held)
        assert now["height"] == pytest.approx(height, abs=of_height * high)
        step = 1e-5 * high
        surface = (held_under(drum, height + step) - held_under(drum, height - step)) / (2 * step)
        assert now["surface"] == pytest.approx(surface, rel=of_surface)


@pytest.mark.parametrize(("diameter", "length"), SHAPES)
@pytest.mark.parametrize("lies", [True, False])
@pytest.mark.parametrize("ends", ["flat", "dished"])
def test_slopes_belong_to_the_shares(lies: bool, ends: str, diameter: float,
                                     length: float) -> None:
    """The metal that crosses the water line is reckoned from them: heat would be lost otherwise."""
    level, step = Level(drum_of(lies, diameter, length, ends)), 1e-6
    for share in np.linspace(0.01, 0.99, 53):
        now, more, less = level.at(share), level.at(share + step), level.at(share - step)
        grown = (more["wet_shell"] - less["wet_shell"]) / (2 * step)
        ends_grown = 0.5 * sum(more[k] - less[k] for k in ("wet_front", "wet_back")) / (2 * step)
        assert now["shell_slope"] == pytest.approx(grown, rel=1e-4, abs=1e-5)
        assert now["ends_slope"] == pytest.approx(ends_grown, rel=1e-4, abs=1e-5)


@pytest.mark.parametrize("lies", [True, False])
def test_empty_half_and_full(lies: bool) -> None:
    level = Level(drum_of(lies, 0.25, 0.45))
    empty, half, full = (level.at(share) for share in (0.0, 0.5, 1.0))
    for wets in ("wet_shell", "wet_front", "wet_back", "height"):
        assert empty[wets] == pytest.approx(0.0, abs=1e-9)
    assert half["wet_shell"] == pytest.approx(0.5)
    assert half["wet_front"] + half["wet_back"] == pytest.approx(1.0)
    assert [full[k] for k in ("wet_shell", "wet_front", "wet_back")] == pytest.approx([1, 1, 1])
    assert full["height"] == pytest.approx(sizes.inside_height(drum_of(lies, 0.25, 0.45)))


@pytest.mark.parametrize("lies", [True, False])
@pytest.mark.parametrize("ends", ["flat", "dished"])
def test_shares_rise_with_the_level_without_a_corner(lies: bool, ends: str) -> None:
    level = Level(drum_of(lies, 0.25, 0.45, ends))
    rows = [level.at(share) for share in np.linspace(0.02, 0.98, 8001)]
    for wets in ("wet_shell", "wet_front", "wet_back", "height"):
        assert all(b[wets] >= a[wets] - 1e-12 for a, b in pairwise(rows))
    for slope in ("shell_slope", "ends_slope"):  # a jump would stay as large at half the step
        found = np.array([row[slope] for row in rows])
        assert np.abs(np.diff(found)).max() <= 0.6 * np.abs(np.diff(found[::2])).max() + 1e-9


def test_wetted_heads_are_those_of_the_integral() -> None:
    """Water a quarter of the way up: the arc is 2 acos(1/2) = 2 pi/3, a third of the girth."""
    drum = drum_of(True, 0.25, 0.45)
    inner = sizes.inside_diameter(drum)
    share = held_under(drum, 0.25 * inner) / sizes.drum_volume(drum)
    now = Level(drum).at(share)
    assert now["wet_shell"] == pytest.approx(1.0 / 3.0, abs=1e-6)
    flat = (2.0 * math.pi / 3.0 - math.sin(2.0 * math.pi / 3.0)) / (2.0 * math.pi)
    assert now["wet_front"] > flat  # the knuckle's steep rim lies low: more area than of a disc


@pytest.mark.parametrize("in_ends", [0.0, 0.1, 0.5, 0.8])
def test_the_arc_is_found_everywhere(in_ends: float) -> None:
    for share in [*np.geomspace(1e-6, 0.4, 40), 0.5, 0.7, 0.999]:
        theta = water_angle(share, in_ends)
        y = 0.5 * (1.0 - math.cos(0.5 * theta))
        held = ((1.0 - in_ends) * (theta - math.sin(theta)) / (2.0 * math.pi)
                + in_ends * y * y * (3.0 - 2.0 * y))
        assert held == pytest.approx(share, rel=1e-4, abs=1e-7)
