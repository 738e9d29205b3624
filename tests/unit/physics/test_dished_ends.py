"""Torispherical ends (Kloepper, DIN 28011): every figure from geometry by another road."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from thermsim.physics import dished_ends
from thermsim.physics.dished_ends import area, depth, inside, outside, volume

PLATES = [0.0, 0.01, 0.016, 0.05]
"""plate over diameter; small drums have 1 to 2 %"""
STEPS = 4000


def profile(diameter: float, plate: float) -> tuple[np.ndarray, np.ndarray]:
    """(distance from the axis, distance out of the shell) along the inside, rim to pole.

    Drawn as one draws it: knuckle r = 0.1 D round a point r inside the wall, crown R = D round the
    point on the axis from which the knuckle's circle is touched from outside.
    """
    R, r, ring = diameter, 0.1 * diameter, 0.4 * diameter - plate
    back = -math.sqrt((R - r) ** 2 - ring**2)
    meets = math.atan2(ring, -back)
    knuckle = np.linspace(0.0, 0.5 * math.pi - meets, STEPS)
    crown = np.linspace(0.5 * math.pi - meets, 0.5 * math.pi, STEPS)
    rho = np.concatenate([ring + r * np.cos(knuckle), R * np.cos(crown)])
    out = np.concatenate([r * np.sin(knuckle), back + R * np.sin(crown)])
    return rho, out


def rings(diameter: float, plate: float) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Thin rings of the profile: radius, distance out, volume beyond the shell, area."""
    rho, out = profile(diameter, plate)
    middle, height = 0.5 * (rho[1:] + rho[:-1]), 0.5 * (out[1:] + out[:-1])
    across, along = -np.diff(rho), np.diff(out)
    return (middle, height, 2.0 * math.pi * middle * height * across,
            2.0 * math.pi * middle * np.hypot(across, along))


@pytest.mark.published
@pytest.mark.parametrize(("plate", "rel"), [(0.0, 0.011), (0.02, 0.011), (0.05, 0.011)])
def test_volume_is_the_standards(plate: float, rel: float) -> None:
    """DIN 28011, from memory: V = 0.1 (D - 2 s)^3 without the straight rim."""
    assert volume(inside(1.0, plate)) == pytest.approx(0.1 * (1.0 - 2.0 * plate) ** 3, rel=rel)


@pytest.mark.published
def test_area_and_depth_are_the_standards() -> None:
    """DIN 28011, from memory: A = 0.99 D^2, h2 = 0.1935 D - 0.455 s."""
    assert area(inside(1.0, 0.0)) == pytest.approx(0.99, abs=0.005)
    for plate in (0.0, 0.01, 0.03):
        assert depth(inside(2.0, plate)) == pytest.approx(0.1935 * 2.0 - 0.455 * plate, abs=1e-3)


@pytest.mark.parametrize("plate", PLATES)
def test_closed_forms_are_the_integrals(plate: float) -> None:
    _, _, volumes, areas = rings(0.8, 0.8 * plate)
    face = inside(0.8, 0.8 * plate)
    assert volume(face) == pytest.approx(volumes.sum(), rel=1e-6)
    assert area(face) == pytest.approx(areas.sum(), rel=1e-6)
    rho, out = profile(0.8, 0.8 * plate)
    assert depth(face) == pytest.approx(out.max(), rel=1e-9)
    assert dished_ends.meridian(face) == pytest.approx(
        2.0 * np.hypot(np.diff(rho), np.diff(out)).sum(), rel=1e-6)
    for k in (7, 2500, 5001, 7900):
        assert dished_ends.depth_at(face, float(rho[k])) == pytest.approx(out[k], rel=1e-9)
        assert dished_ends.radius_at(face, float(out[k])) == pytest.approx(rho[k], rel=1e-6)


def test_outside_is_a_plate_further_out() -> None:
    face, within = outside(0.5, 0.01), inside(0.5, 0.01)
    assert depth(face) == pytest.approx(depth(within) + 0.01)
    assert (face.crown - within.crown, face.radius - within.radius) == pytest.approx((0.01, 0.01))


@pytest.mark.parametrize("plate", PLATES)
@pytest.mark.parametrize(("law", "of", "within"), [
    (dished_ends.lying_volume_share, 2, 0.005), (dished_ends.lying_area_share, 3, 0.003)])
def test_a_lying_head_fills_as_its_rings_do(plate: float, law: Callable[..., float], of: int,
                                            within: float) -> None:
    """Of each ring that part lies under the level whose arc does."""
    parts = rings(1.0, plate)
    radius = 0.5 - plate
    for y in np.linspace(0.02, 0.98, 33):
        over = radius * (1.0 - 2.0 * y) / parts[0]
        under = np.arccos(np.clip(over, -1.0, 1.0)) / math.pi
        assert law(float(y)) == pytest.approx((under * parts[of]).sum() / parts[of].sum(),
                                              abs=within)


@pytest.mark.parametrize(("plate", "of_height", "of_area"), [
    (0.0, 0.009, 0.023), (0.01, 0.0035, 0.013), (0.016, 0.003, 0.013), (0.05, 0.009, 0.023)])
def test_a_standing_head_fills_from_its_pole(plate: float, of_height: float,
                                             of_area: float) -> None:
    face = inside(1.0, plate)
    rho, out = profile(1.0, plate)
    areas = rings(1.0, plate)[3]
    whole = volume(face)
    for k in range(200, 2 * STEPS - 1, 300):
        height = depth(face) - float(out[k])
        middle = 0.5 * (rho[k + 1:] + rho[k:-1])
        held = float((math.pi * middle**2 * np.diff(out[k:])).sum())
        assert dished_ends.volume_under(face, height) == pytest.approx(held, abs=2e-6)
        h, _, a, _ = dished_ends.standing_shares(math.sqrt(held / whole))
        assert h == pytest.approx(height / depth(face), abs=of_height)
        assert a == pytest.approx(areas[k:].sum() / areas.sum(), abs=of_area)


@pytest.mark.parametrize(("law", "slope"), [
    (lambda y: dished_ends.lying_area_share(y), lambda y: dished_ends.lying_area_slope(y)),
    (lambda q: dished_ends.standing_shares(q)[0], lambda q: dished_ends.standing_shares(q)[1]),
    (lambda q: dished_ends.standing_shares(q)[2], lambda q: dished_ends.standing_shares(q)[3])])
def test_slopes_are_the_shares_own(law: Any, slope: Any) -> None:
    for x in np.linspace(0.01, 0.99, 15):
        assert slope(x) == pytest.approx((law(x + 1e-6) - law(x - 1e-6)) / 2e-6, rel=1e-6)
        assert slope(x) > 0.0
    assert (law(0.0), law(1.0)) == (0.0, pytest.approx(1.0))
