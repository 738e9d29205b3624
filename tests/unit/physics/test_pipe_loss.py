"""Steam lines: finite for anything, no jumps, limits and numbers worked by hand."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from thermsim.physics import pipe_loss

ANY = some.floats(-1e9, 1e9)
SIZE = some.floats(1e-3, 10.0)


@settings(deadline=None)
@given(ANY, ANY, ANY, ANY, SIZE, SIZE, SIZE)
def test_any_input_gives_a_number(a: float, b: float, c: float, d: float, bore: float,
                                  length: float, wall: float) -> None:
    found = [
        *pipe_loss.line_loss(a, wall, bore, bore + length, 0.04, 1e-4, 0.9, b, c, abs(d) * 1e-7),
        *pipe_loss.line_loss(a, 0.0, bore, bore, 0.04, 1e-4, 0.9, 293.0, 293.0, 0.0),
        pipe_loss.steam_condensed(a, b), pipe_loss.warming_water(a, b, c),
        pipe_loss.pipe_resistance(bore, bore + wall, 50.0, a),
    ]
    assert all(map(math.isfinite, found)), found


def test_bare_and_lagged_lines_join() -> None:
    """A lagging that gets thinner and thinner ends at the bare pipe, with no jump on the way."""
    def loss(outer: float) -> float:
        return pipe_loss.line_loss(430.0, 0.0, 0.02, outer, 0.045, 1.5e-4, 0.9, 290.0, 290.0, 0.0)[
            0]

    assert loss(0.02 + 1e-7) == pytest.approx(loss(0.02), rel=1e-3)
    assert loss(0.08) < 0.35 * loss(0.02)


def test_loss_has_no_jump() -> None:
    losses = [pipe_loss.line_loss(280.0 + 0.5 * n, 0.02, 0.02, 0.06, 0.045, 1.5e-4, 0.9, 290.0,
                                  292.0, 0.5)[0] for n in range(600)]
    steps = [b - a for a, b in pairwise(losses)]
    assert all(s > 0 for s in steps)
    assert all(abs(b - a) < 0.03 * a for a, b in pairwise(steps))


def test_resistance_of_the_pipe_itself() -> None:
    """Steel of 3 mm hardly counts: ln(26/20)/(2 pi 50) = 0.84e-3 m K/W (Incropera eq. 3.28)."""
    found = pipe_loss.pipe_resistance(0.02, 0.026, 50.0, 1e9)
    assert found == pytest.approx(math.log(1.3) / (100 * math.pi), rel=1e-3)


def test_half_of_the_lagging() -> None:
    """Rock wool 20 to 60 mm, 80 kJ/(m3 K): pi/4 (0.06^2 - 0.02^2) 80e3/2 = 100.5 J/(m K)."""
    assert pipe_loss.lagging_half(0.06, 0.02, 8e4) == pytest.approx(100.5, rel=1e-3)
