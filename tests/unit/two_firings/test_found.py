"""The fit of two firings: against the closed form of a linear normal model, worked another way."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.testing import assert_allclose
from unit.two_firings.conftest import Lines, reading, straight

from thermsim.two_firings.found import find
from thermsim.two_firings.model import PATTERN, SIZE, model_of

WIDE = 40
"""readings over which a spread is told to a fifth or so"""


def by_covariances(model, lines: Lines) -> tuple[np.ndarray, np.ndarray]:
    """Mean and covariance of the unknowns by the update of a normal distribution in the space of
    the readings (R. E. Kalman 1960; the fit works in the space of the unknowns)."""
    x = np.zeros(model.unknowns)
    seen = lines([x[:model.doubts]])[0]
    H = model.slopes(x, seen, lines.slopes)
    S = H @ H.T + np.diag(model.own**2)
    K = H.T @ np.linalg.inv(S)
    return K @ (model.read - model.predict(x, seen)), np.eye(len(x)) - K @ H


def test_linear_model_is_met_in_closed_form() -> None:
    model, lines, _ = straight(1)
    found = find(model, lines)
    mean, covariance = by_covariances(model, lines)
    inside = np.abs(mean[:model.doubts]).max() < 1.7  # else a limit would have cut it
    assert inside
    assert_allclose(found.x, mean, atol=1e-6)
    if found.widened == 1.0:
        assert_allclose(found.covariance, covariance, atol=1e-6)


def test_slopes_are_those_of_the_prediction() -> None:
    model, lines, _ = straight(2)
    x = np.linspace(-0.4, 0.5, model.unknowns)
    slopes = model.slopes(x, lines([x[:model.doubts]])[0], lines.slopes)
    for k in range(model.unknowns):
        up, down = x.copy(), x.copy()
        up[k] += 1e-5
        down[k] -= 1e-5
        by_step = (model.predict(up, lines([up[:model.doubts]])[0])
                   - model.predict(down, lines([down[:model.doubts]])[0])) / 2e-5
        assert_allclose(slopes[:, k], by_step, atol=1e-5)


@pytest.mark.parametrize("times", [0.0, 0.6, 1.5])
def test_a_change_of_another_size_than_expected_is_found(times: float) -> None:
    away = []
    for seed in range(20):
        model, lines, _ = straight(seed, times=times)
        found = find(model, lines)
        size = 1.0 + SIZE * found.x[model.doubts]
        away.append((size - times)
                    / (SIZE * np.sqrt(found.covariance[model.doubts, model.doubts])))
    assert np.abs(away).max() < 3.5
    # the pattern is held to vary by spot and does not: the band is wider than it need be
    assert np.sqrt(np.mean(np.square(away))) < 1.3


def test_doubts_lie_within_their_bands() -> None:
    away = []
    for seed in range(40):
        model, lines, z = straight(seed)
        if np.abs(z).max() > 1.5:
            continue
        found = find(model, lines)
        left = np.sqrt(found.covariance.diagonal()[:model.doubts])
        away += list((found.x[:model.doubts] - z) / left)
    assert len(away) > WIDE
    assert 0.75 < np.sqrt(np.mean(np.square(away))) < 1.25


def test_a_slip_is_left_out() -> None:
    model, lines, z = straight(3)
    clean = find(model, lines)
    read = model.read.copy()
    read[5] += 60.0
    slipped = find(type(model)(read, model.own, model.second, model.series, model.shared,
                               model.doubts), lines)
    assert list(np.flatnonzero(~slipped.used)) == [5]
    assert clean.used.all()
    assert_allclose(slipped.x[:3], clean.x[:3], atol=0.3)
    assert np.abs(slipped.x[:3] - z).max() < 1.0


def test_errors_that_are_stated_too_small_widen_the_bands() -> None:
    model, lines, _ = straight(4, error=1.0)
    stated = type(model)(model.read, 0.25 * model.own, model.second, model.series, model.shared,
                         model.doubts)
    found = find(stated, lines)
    assert found.widened == pytest.approx(4.0, rel=0.5)
    assert found.chance < 0.01


def test_an_error_shared_by_both_firings_leaves_their_difference_sharp() -> None:
    """Emissivity unknown by 5 K in both: a rise between the firings is known to the instrument."""
    parts = {"instrument": 0.5, "emissivity": 5.0}
    files = tuple((reading("wall", 60.0 * k, value, 0.5, parts=parts),)
                  for k, value in ((1, 100.0), (1, 110.0)))
    model = model_of(*files, 0)
    assert model.shared.shape == (2, 1)
    assert_allclose(model.own, 0.5)
    lines = Lines(np.array([[103.0, 103.0], [113.0, 113.0], [103.0, 103.0]]), np.zeros((0, 3, 2)))
    found = find(model, lines)
    # by hand: u = 103 + q, 10 (1 + a + d); q near -3/5 of 5 K; a + d hardly moved
    assert found.x[-1] == pytest.approx(-0.6, abs=0.05)
    assert 1.0 + SIZE * found.x[0] + PATTERN * found.x[1] == pytest.approx(1.0, abs=0.02)
    change = found.by_change[1]
    spread = float(np.sqrt(change @ found.covariance @ change))
    assert spread == pytest.approx(np.sqrt(2.0) * 0.5, rel=0.1)


def test_a_jump_of_a_curve_tells_nothing() -> None:
    """A charge more or less just above the doubt's value: the reading must not decide it."""
    files = tuple((reading("pile", 60.0, 0.0, 1.0), reading("wall", 60.0, 0.0, 1.0))
                  for _ in range(2))
    model = model_of(*files, 1)

    def look(places):
        made = np.zeros((len(places), 3, 4))
        for k, z in enumerate(places):
            made[k, :, [0, 2]] = 600.0 * (z[0] > 0.05)
            made[k, :, [1, 3]] = 0.5 * z[0]
        return made

    found = find(model, look)
    assert found.covariance[0, 0] == pytest.approx(1.0 / 1.5, rel=0.02)  # by the wall alone


def test_without_doubts_no_firing_is_asked_for_slopes() -> None:
    model, lines, _ = straight(6, doubts=0)

    def look(places):
        assert places
        return lines(places)

    assert find(model, look).x.shape == (model.unknowns,)
