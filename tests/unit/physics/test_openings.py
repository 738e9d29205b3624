"""Gas both ways through one level hole."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.physics import openings as law


@pytest.mark.published
@pytest.mark.parametrize(
    ("x", "number"),
    # Epstein 1988 by hand: x = 0: 0.055; 0.6: his peak, 0.095; 10: 0.055 401001^... as printed
    [(0.0, 0.055), (0.6, 0.095)],
)
def test_epstein(x: float, number: float) -> None:
    assert law.exchange_number(x) == pytest.approx(number, rel=0.01)


def test_epstein_peaks_near_six_tenths() -> None:
    x = np.geomspace(0.01, 10.0, 400)
    best = x[np.argmax([law.exchange_number(float(v)) for v in x])]
    assert 0.5 < best < 0.75


def test_exchange_ends_at_the_purging_flow() -> None:
    args = (0.01, 0.3, 0.08, 1.2, 0.4)
    purge = law.purge_mass_flow(0.01, 0.08, 1.2, 0.4, 1.2)
    free = law.exchange_with_net_flow(0.0, *args)
    n = 0.01 / (np.pi / 4 * 0.08**2)
    assert free == pytest.approx(0.8 * n * law.exchange_flow(0.3, 0.08, 1.2, 0.4), rel=1e-12)
    assert law.exchange_with_net_flow(purge, *args) == 0.0
    assert law.exchange_with_net_flow(2.0 * purge, *args) == 0.0
    half = law.exchange_with_net_flow(0.5 * purge, *args)
    assert half == pytest.approx(free * 0.5**2.3, rel=1e-9)


def test_exchange_is_smooth_in_flow_and_density() -> None:
    flows = np.linspace(-0.01, 0.01, 4001)
    found = np.array(
        [law.exchange_with_net_flow(float(m), 0.01, 0.3, 0.08, 1.2, 0.4) for m in flows]
    )
    assert np.all(np.isfinite(found))
    assert np.max(np.abs(np.diff(found))) < 0.01 * found.max()
    below = np.linspace(1.15, 1.25, 2001)
    found = np.array(
        [law.exchange_with_net_flow(0.0, 0.01, 0.3, 0.08, 1.2, float(r)) for r in below]
    )
    assert np.all(found[below >= 1.2] == 0.0)
    assert np.max(np.abs(np.diff(found))) < 0.02 * found.max()
