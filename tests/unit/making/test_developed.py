"""Developed shapes against the solids they come from: points on both surfaces, closed forms."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import quad

from thermsim.making.developed import (
    dished_blank,
    flat_end,
    hole_in_shell,
    mitred_end,
    rolled_length,
    saddle_end,
    surface_drop,
)
from thermsim.making.flat_shapes import area


def test_rolled_length_by_hand() -> None:
    """A drum of 250 mm outside from 4 mm plate: pi x 246 = 772.83 mm."""
    assert rolled_length(0.242, 0.004) == pytest.approx(0.77283, abs=5e-6)


@pytest.mark.parametrize(("across", "drop"), [(30.0, 50.0 - 40.0), (40.0, 50.0 - 30.0),
                                              (14.0, 50.0 - 48.0), (48.0, 50.0 - 14.0)])
def test_drop_of_a_cylinder_by_whole_triangles(across: float, drop: float) -> None:
    """3-4-5 and 7-24-25 triangles on a radius of 50 mm."""
    assert surface_drop(0.050, across / 1000.0) == pytest.approx(drop / 1000.0, abs=1e-12)


@pytest.mark.parametrize("lean", [0.0, 25.0, -40.0])
@pytest.mark.parametrize("radius", [0.03, 0.06, 0.099])
def test_saddle_lies_on_both_cylinders(lean: float, radius: float) -> None:
    """Every point of the cut end is `radius` from the pipe's axis by construction; it must be Ro
    from the shell's axis, which runs along x through the origin, in space."""
    inside, outside = 0.100, 0.102
    eta = math.radians(lean)
    go = (-math.sin(eta), math.cos(eta))
    left = (-go[1], go[0])
    end = saddle_end(inside, outside, go[1], left[1])
    for k in range(24):
        angle = 2.0 * math.pi * k / 24
        v, y = radius * math.cos(angle), radius * math.sin(angle)
        w = end(v, y)
        z = inside + w * go[1] + v * left[1]
        assert math.hypot(y, z) == pytest.approx(outside, abs=1e-12)


@pytest.mark.parametrize("lean", [0.0, 30.0])
def test_hole_in_shell_lies_on_the_pipe(lean: float) -> None:
    """Rolled up again, every point of the hole is the pipe's radius from the pipe's axis."""
    shell, radius, eta = 0.100, 0.06, math.radians(lean)
    go = (-math.sin(eta), math.cos(eta))
    for x, s in hole_in_shell(shell, radius, go[1], -go[0] * -1.0):
        y, z = shell * math.sin(s / shell), shell * math.cos(s / shell)
        # to the left of the normal is towards -x; the axis meets the shell at x = 0, z = shell
        there = (-x, z - shell)
        across = there[0] * -go[1] + there[1] * go[0]
        assert math.hypot(across, y) == pytest.approx(radius, abs=1e-9)


def test_area_of_a_hole_by_quadrature() -> None:
    """Strips along the shell, each 2 R asin(y/R) round it."""
    shell, radius = 0.151, 0.065
    wanted, _ = quad(lambda x: 2.0 * shell * math.asin(math.sqrt(radius**2 - x**2) / shell),
                     -radius, radius)
    assert area(hole_in_shell(shell, radius, 1.0, 0.0)) == pytest.approx(wanted, rel=3e-5)


@pytest.mark.parametrize("turn", [90.0, 45.0, -30.0])
def test_mitre_lies_in_the_plane_between(turn: float) -> None:
    """Of two pipes that meet at an angle the cut is the plane that halves it: the start of the one
    after and the end of the one before are the same points."""
    delta = math.radians(turn)
    after = (math.cos(delta), math.sin(delta))
    for v in (-0.05, 0.02, 0.05):
        end, start = mitred_end(-delta)(v, 0.0), mitred_end(delta)(v, 0.0)
        before_at = (end, v)
        after_at = (start * after[0] - v * after[1], start * after[1] + v * after[0])
        assert after_at == pytest.approx(before_at, abs=1e-12)


def test_leaning_pipe_on_a_plate() -> None:
    """60 degrees to a 4 mm plate, 50 mm off the axis: (4 + 50 sin 30)/cos 30 = 33.486 mm."""
    eta = math.radians(30.0)
    assert 1000.0 * flat_end(math.cos(eta), -math.sin(eta), 0.004)(0.05, 0.0) == \
        pytest.approx((4.0 + 25.0) / (math.sqrt(3.0) / 2.0), abs=1e-9)


@pytest.mark.parametrize("thickness", [0.0, 0.004])
def test_dished_blank_is_the_surface_turned_round_its_axis(thickness: float) -> None:
    """Area by turning the profile of crown and knuckle, summed over small steps in space."""
    across = 0.25
    crown, knuckle = across + thickness / 2.0, 0.1 * across + thickness / 2.0
    ring = across / 2.0 - thickness / 2.0 - knuckle
    meet = math.asin(ring / (crown - knuckle))
    cap, _ = quad(lambda a: 2.0 * math.pi * crown * math.sin(a) * crown, 0.0, meet)
    torus, _ = quad(lambda a: 2.0 * math.pi * (ring + knuckle * math.sin(a)) * knuckle, meet,
                    math.pi / 2.0)
    assert math.pi / 4.0 * dished_blank(across, thickness) ** 2 == pytest.approx(cap + torus)
