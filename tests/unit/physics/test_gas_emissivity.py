"""Leckner's law against its published values, another model, and the quick fit against the law."""

from __future__ import annotations

import json
from collections.abc import Callable

import numpy as np
import pytest

from thermsim.physics import gas_emissivity as law

ATM = 101325.0
Table = Callable[[str], list[dict[str, str]]]


@pytest.mark.published
def test_leckner(reference_table: Table) -> None:
    rows = [row for row in reference_table("radiation") if row["id"].startswith("R-leck-")]
    assert len(rows) == 5
    for row in rows:
        case = json.loads(row["inputs"])
        p_h2o, p_co2 = case["pH2O_atm"] * ATM, case["pCO2_atm"] * ATM
        found = law.gas_emissivity(case["T_K"], p_h2o, p_co2, case["L_m"])
        assert found == pytest.approx(float(row["value"]), rel=float(row["rel_tol"])), row["id"]


@pytest.mark.published
def test_beside_the_sum_of_grey_gases(reference_table: Table) -> None:
    """Smith, Shen and Friedman 1982; published models differ by up to 25 % in thin gas."""
    for row in reference_table("radiation"):
        if row["id"].startswith("R-wsgg"):
            case = json.loads(row["inputs"])
            z = case["pw_over_pc"] / (1.0 + case["pw_over_pc"])
            p = 0.2 * ATM
            length = case["paL_atm_m"] / 0.2
            found = law.gas_emissivity(case["T_K"], z * p, (1.0 - z) * p, length)
            allowed = 0.25 if case["paL_atm_m"] < 0.02 else 0.1
            assert found == pytest.approx(float(row["value"]), rel=allowed), row["id"]


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


@pytest.mark.published
def test_beam_lengths(reference_table: Table) -> None:
    rows = {row["id"]: row for row in reference_table("radiation")}
    D, H = 0.15, 0.45
    volume, area = np.pi / 4 * D * D * H, np.pi * D * H + np.pi / 2 * D * D
    row = rows["R-mbl-3.6"]
    found = law.mean_beam_length_box(volume, area)
    assert found == pytest.approx(float(row["value"]), rel=float(row["rel_tol"]))
    # a long duct: 0.9 x 4 V/A against 0.95 D of the exact integral for 4 V/A D
    assert law.mean_beam_length_duct(D) == pytest.approx(
        float(rows["R-mbl-tube"]["value"]), rel=0.06
    )
    assert law.mean_beam_length_slot(0.025) == pytest.approx(0.045)
