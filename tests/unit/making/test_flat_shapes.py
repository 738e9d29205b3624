"""Shapes on flat sheet against closed forms of circles and rectangles."""

from __future__ import annotations

import math

import pytest

from thermsim.making.flat_shapes import (
    area,
    both,
    circle,
    edge,
    rectangle,
    round_of,
    shared,
)


def segment(radius: float, off: float) -> float:
    """Area of a circle beyond a chord `off` its middle."""
    return radius**2 * math.acos(off / radius) - off * math.sqrt(radius**2 - off**2)


def test_circle() -> None:
    assert area(circle(0.121)) == pytest.approx(math.pi * 0.121**2, rel=2e-5)
    assert edge(circle(0.121)) == pytest.approx(2.0 * math.pi * 0.121, rel=1e-5)
    assert round_of(rectangle(0.1, 0.1)) is None


def test_strip_cut_out_of_a_circle() -> None:
    """A box 250 wide over a circle of 300: the circle less two segments 125 mm off its middle."""
    box, round_one = rectangle(0.25, 0.5, (-0.125, -0.25)), circle(0.15)
    off = 2.0 * segment(0.15, 0.125)
    assert area(shared(box, round_one)) == pytest.approx(math.pi * 0.15**2 - off, rel=3e-5)
    assert area(both(box, round_one)) == pytest.approx(0.25 * 0.5 + off, rel=3e-5)


def test_one_within_the_other() -> None:
    box, round_one = rectangle(0.4, 0.4, (-0.2, -0.2)), circle(0.1)
    assert area(shared(box, round_one)) == pytest.approx(math.pi * 0.01, rel=3e-5)
    assert area(both(box, round_one)) == pytest.approx(0.16)


def test_apart() -> None:
    with pytest.raises(ValueError, match="overlap"):
        shared(rectangle(0.1, 0.1), circle(0.05, (1.0, 1.0)))
