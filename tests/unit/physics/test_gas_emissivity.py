"""The quick fit of the gases' emissivity against the law, and its limits."""

from __future__ import annotations

import numpy as np
import pytest

from thermsim.physics import gas_emissivity as law


@pytest.mark.parametrize("ratio", [1.0, 1.3, 2.0])
def test_fit_keeps_its_stated_deviation(ratio: float) -> None:
    fit, z = law.emissivity_fit(ratio), ratio / (1.0 + ratio)
    for T in np.linspace(280.0, 2400.0, 23):
        for path in np.geomspace(25.0, 5e4, 21):
            full = law.gas_emissivity(float(T), z * 2e4, (1.0 - z) * 2e4, path / 2e4)
            allowed = 0.04 if T > 400.0 and 100.0 < path < 2e4 else 0.085
            found = law.emissivity_from_fit(float(T), float(path), fit)
            assert found == pytest.approx(full, rel=allowed), (T, path)


def test_fit_is_linear_for_thin_gas_and_bounded() -> None:
    fit = law.emissivity_fit(1.3)
    assert law.emissivity_from_fit(900.0, 0.0, fit) == 0.0
    thin = [law.emissivity_from_fit(900.0, path, fit) / path for path in (1e-6, 1e-3)]
    assert thin[1] == pytest.approx(thin[0], rel=1e-3)
    for T in (150.0, 300.0, 1000.0, 3500.0):
        for path in (0.0, 1.0, 1e3, 1e5, 1e6):
            assert 0.0 <= law.emissivity_from_fit(T, path, fit) < 1.0
            for T_wall in (150.0, 400.0, 3500.0):
                assert 0.0 <= law.absorptivity_from_fit(T, T_wall, path, fit) <= 1.0


@pytest.mark.parametrize("T", [150.0, 273.0, 801.3, 3000.0])
def test_absorptivity_is_the_emissivity_at_one_temperature(T: float) -> None:
    fit = law.emissivity_fit(1.3)
    alpha = law.absorptivity_from_fit(T, T, 640.0, fit)
    assert alpha == law.emissivity_from_fit(T, 640.0, fit)


def test_absorptivity_fit_follows_the_law() -> None:
    fit, z = law.emissivity_fit(1.3), 1.3 / 2.3
    full = law.gas_absorptivity(1000.0, 400.0, z * 2e4, (1.0 - z) * 2e4, 0.05)
    assert law.absorptivity_from_fit(1000.0, 400.0, 1000.0, fit) == pytest.approx(full, rel=0.06)
