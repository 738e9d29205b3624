"""Radiation in the firebox and round the drum as assembled, at its limits.

Expected values: radiosity balances of grey surfaces written out as full matrices here (Incropera
6e section 13.3), and the closed forms of Hottel and Sarofim (1967) for gas with black, or with
adiabatic, walls. Gas made all soot is grey: its emissivity is its absorptivity.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

SIGMA = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)], CODATA 2018"""

RAISER = """
openings:
  door:
    width: 60 mm
    height: 60 mm
    sill: 100 mm
drum:
  diameter: 250 mm
  length: 450 mm
  water: 10 l
  gap: 25 mm
  baffle_spacing: 150 mm
gas_path:
  - name: round
    kind: round the drum
  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 1.2 m
"""


def raiser(bench: Callable[..., Any], soot: float, burnt: float = 0.0) -> Any:
    """A firebox with a drum behind it; soot [1/m] when the gas is all burnt, burnt share."""
    plant = bench(RAISER)
    plant.plant.fire["soot"] = soot
    for zone in ("fire_zone", "firebox_gas"):
        plant.put(f"{zone} burnt volatiles", burnt)
    return plant


def shone(plant: Any) -> tuple[np.ndarray, np.ndarray, dict[str, float]]:
    """Heat by radiation in the firebox: to every patch, to the two gas zones; and of the gas."""
    from thermsim.kernel import opened
    from thermsim.parts.fire_zone import flame_emissivity, shine

    plant.evaluate()
    tables = plant.plant
    heat = np.zeros(len(plant.y) + 1)
    eps, T_gas, path, soot = opened(flame_emissivity)(plant.y, tables)
    opened(shine)(plant.y, tables, eps, T_gas, path, soot, heat)
    zones = heat[[plant.index["fire_zone"], plant.index["firebox_gas"]]]
    own = heat[tables.patches["at"]].copy()
    return own, zones, {"eps": eps, "T": T_gas}


def patches(plant: Any) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """T, A, e of all patches now and the share of the bed's rays each gets."""
    tables = plant.plant
    T, A, e, share = (tables.shining[k].copy() for k in (0, 1, 2, 4))
    assert share[1:].sum() == pytest.approx(1.0, rel=1e-8)  # wet and dry face: 1e-9 m2 each
    return T, A, e, share


def view_factors(A: np.ndarray, share: np.ndarray) -> np.ndarray:
    """F_ij: bed (0) to patch by `share`; back by reciprocity; the rest spread over what is left."""
    n = len(A)
    F = np.zeros((n, n))
    F[0, 1:] = share[1:]
    F[1:, 0] = A[0] * share[1:] / A[1:]
    left = A[1:] - A[0] * share[1:]
    F[1:, 1:] = np.outer(left / A[1:], left / left.sum())
    return F


def network(T: np.ndarray, A: np.ndarray, e: np.ndarray, F: np.ndarray, T_gas: float,
            eps: float) -> np.ndarray:
    """Net heat to every surface [W] of a grey enclosure filled with grey gas.

    H_i = eps Eg + (1 - eps) sum F_ij J_j,  J_i = e Eb_i + (1 - e) H_i,  Q_i = A_i (H_i - J_i)
    """
    E, Eg = SIGMA * T**4, SIGMA * T_gas**4
    M = np.eye(len(T)) - (1 - e)[:, None] * (1 - eps) * F
    J = np.linalg.solve(M, e * E + (1 - e) * eps * Eg)
    H = eps * Eg + (1 - eps) * F @ J
    return A * (H - J)


def spread(plant: Any) -> None:
    """Give every patch a temperature of its own."""
    names = [plant.index.names[i] for i in plant.plant.patches["at"]]
    for k, name in enumerate(names):
        plant.put(name, 1100.0 - 110.0 * k)
    plant.put("fire_zone", 1300.0)
    plant.put("firebox_gas", 1000.0)


@pytest.mark.parametrize("soot", [0.0, 1.5, 1e6])
def test_one_temperature_no_heat(bench: Callable[..., Any], soot: float) -> None:
    """All at 1100 K, burnt gas with and without soot: no patch gets anything."""
    plant = raiser(bench, soot, 0.12)
    plant.warm(1100.0)
    own, zones, _ = shone(plant)
    scale = SIGMA * 1100.0**4 * float(plant.plant.patches["area"].sum())
    assert np.abs(own).max() < 1e-12 * scale
    assert np.abs(zones).max() < 1e-12 * scale


def test_one_temperature_no_heat_round_the_drum(bench: Callable[..., Any]) -> None:
    """Gas, casing and drum at 900 K, burnt gas flowing: films and radiation give nothing."""
    plant = raiser(bench, 1.5, 0.12)
    plant.warm(900.0)
    plant.put("flow door", 0.01)
    plant.evaluate()
    for run in plant.plant.cells[:3]:
        assert abs(plant.plant.heat[run["at"]]) < 1e-9
    plant.put(plant.names("round_2_gas"), 901.0)
    plant.evaluate()
    assert abs(plant.heat("round_2_gas")) > 1.0


def test_clear_gas_leaves_the_walls_alone(bench: Callable[..., Any]) -> None:
    """No path for the rays to be caught on: patches as the full radiosity matrix, gas nothing."""
    plant = raiser(bench, 0.0)
    plant.plant.fire["beam"] = 0.0
    spread(plant)
    own, zones, gas = shone(plant)
    T, A, e, share = patches(plant)
    assert gas["eps"] < 1e-12
    wanted = network(T, A, e, view_factors(A, share), gas["T"], 0.0)
    assert own == pytest.approx(wanted, rel=1e-7, abs=1e-5)
    assert np.abs(zones).max() < 1e-6
    assert abs(own.sum()) < 1e-6


def test_grey_gas_as_the_full_matrix(bench: Callable[..., Any]) -> None:
    """Sooty, hardly any other radiating gas: every patch and both zones."""
    plant = raiser(bench, 2e6, 1e-6)
    spread(plant)
    own, zones, gas = shone(plant)
    T, A, e, share = patches(plant)
    assert 0.1 < gas["eps"] < 0.95
    wanted = network(T, A, e, view_factors(A, share), gas["T"], gas["eps"])
    assert own == pytest.approx(wanted, rel=2e-4, abs=0.5)
    assert own.sum() + zones.sum() == pytest.approx(0.0, abs=1e-6)


def test_black_gas_hides_the_walls(bench: Callable[..., Any]) -> None:
    """Black gas: every patch gets e A sigma (Tg^4 - T^4), whatever the others are."""
    plant = raiser(bench, 1e6, 0.12)
    spread(plant)
    own, zones, gas = shone(plant)
    T, A, e, _ = patches(plant)
    assert own == pytest.approx(e * A * SIGMA * (gas["T"] ** 4 - T**4), rel=1e-9, abs=1e-6)
    assert own.sum() + zones.sum() == pytest.approx(0.0, abs=1e-6)


def balanced(plant: Any, names: list[str]) -> None:
    """Put patches at the temperature at which they keep no heat (secant steps on T^4)."""
    places = [plant.index[n] for n in names]
    numbers = [int(np.flatnonzero(plant.plant.patches["at"] == p)[0]) for p in places]
    for _ in range(60):
        own, _, _ = shone(plant)
        A = plant.plant.shining[1][numbers]
        fourth = plant.y[places] ** 4 + own[numbers] / (A * SIGMA * 0.9)
        plant.y[places] = fourth**0.25
    assert np.abs(own[numbers]).max() < 1e-4


def test_adiabatic_walls_send_all_on(bench: Callable[..., Any]) -> None:
    """Walls that keep nothing, grey gas: what the bed and the gas lose reaches the drum's face.

    In the matrix an adiabatic wall is one that reflects everything (e = 0).
    """
    plant = raiser(bench, 2e6, 1e-6)
    spread(plant)
    walls = [plant.names(f"firebox_{part}")[0] for part in ("lower", "sides", "top")]
    balanced(plant, walls)
    own, _, gas = shone(plant)
    T, A, e, share = patches(plant)
    e = e.copy()
    for name in walls:
        e[int(np.flatnonzero(plant.plant.patches["at"] == plant.index[name])[0])] = 0.0
    wanted = network(T, A, e, view_factors(A, share), gas["T"], gas["eps"])
    assert own == pytest.approx(wanted, rel=5e-4, abs=0.5)


def bay_heat(plant: Any, path: float) -> tuple[float, float, float]:
    """Radiation alone from the second bay: to drum, to casing, to the gas [W]; path [Pa m]."""
    from thermsim.kernel import opened
    from thermsim.parts.drum_pass import side_heat

    tables = plant.plant
    plant.evaluate()
    cell = tables.cells[1]
    heat = np.zeros(len(plant.y) + 1)
    casing = 0.0
    give = opened(side_heat)
    for j in range(int(cell["face_first"]), int(cell["face_last"])):
        tables.faces["film"][j] = tables.faces["drum_film"][j] = 0.0
        give(tables.faces[j], tables.drum[0], int(cell["at"]), float(plant.y[cell["at"]]), path,
             tables.emissivity, plant.y, heat)
        casing += float(heat[tables.faces["at"][j]])
    drum = float(heat[tables.drum["wet"][0]] + heat[tables.drum["dry"][0]])
    return drum, casing, float(heat[cell["at"]])


def hot_bay(bench: Callable[..., Any], gas: float, casing: float, drum: float) -> Any:
    """The raiser with its second bay's gas and casing, and its drum, at temperatures given."""
    plant = raiser(bench, 0.0)
    plant.warm(drum)
    plant.put(plant.names("round_2_"), casing)
    plant.put("round_2_gas", gas)
    return plant


def bay_areas(plant: Any) -> tuple[float, float, float, float]:
    """Areas of drum and casing in the bay and their emissivities."""
    tables = plant.plant
    cell = tables.cells[1]
    rows = slice(int(cell["face_first"]), int(cell["face_last"]))
    return (float(tables.faces["drum_area"][rows].sum()), float(tables.faces["area"][rows].sum()),
            float(tables.drum["emissivity"][0]), float(tables.faces["emissivity"][rows][0]))


def bay_network(T: tuple[float, float, float], sizes: tuple[float, float, float, float],
                gas: tuple[float, float, float]) -> np.ndarray:
    """Net heat to drum and casing [W]: convex drum in its casing, gas between.

    T: gas, drum, casing. gas: emissivity, absorptivity for the drum's and for the casing's rays.
    """
    A_1, A_2, e_1, e_2 = sizes
    A, e, alpha = np.array([A_1, A_2]), np.array([e_1, e_2]), np.array(gas[1:])
    F = np.array([[0.0, 1.0], [A_1 / A_2, 1.0 - A_1 / A_2]])
    E, Eg = SIGMA * np.array(T[1:]) ** 4, SIGMA * T[0] ** 4
    through = F * (1.0 - alpha)
    J = np.linalg.solve(np.eye(2) - (1 - e)[:, None] * through, e * E + (1 - e) * gas[0] * Eg)
    return A * (gas[0] * Eg + through @ J - J)


def gas_of(plant: Any, T: tuple[float, float, float], path: float) -> tuple[float, float, float]:
    """Emissivity and absorptivities by the gas law, which unit tests hold to published values."""
    from thermsim.physics.gas_emissivity import absorptivity_from_fit, emissivity_from_fit

    fit = plant.plant.emissivity
    return (float(emissivity_from_fit(T[0], path, fit)),
            float(absorptivity_from_fit(T[0], T[1], path, fit)),
            float(absorptivity_from_fit(T[0], T[2], path, fit)))


def test_clear_gas_round_the_drum(bench: Callable[..., Any]) -> None:
    """Clear gas: drum and casing exchange as two long cylinders do (Incropera 6e eq. 13.20)."""
    plant = hot_bay(bench, 1200.0, 700.0, 400.0)
    drum, casing, gas = bay_heat(plant, 0.0)
    A_1, A_2, e_1, e_2 = bay_areas(plant)
    wanted = SIGMA * A_1 * (700.0**4 - 400.0**4) / (1 / e_1 + (1 - e_2) / e_2 * A_1 / A_2)
    assert gas == pytest.approx(0.0, abs=1e-9)
    assert drum == pytest.approx(wanted, rel=1e-9)
    assert casing == pytest.approx(-wanted, rel=1e-9)


def test_black_gas_round_the_drum(bench: Callable[..., Any]) -> None:
    """Black gas: each wall gets e A sigma (Tg^4 - T^4), whatever the other is."""
    plant = hot_bay(bench, 1200.0, 700.0, 400.0)
    plant.plant.emissivity[:] = 0.0
    plant.plant.emissivity[0, 0] = 50.0
    drum, casing, _ = bay_heat(plant, 1e3)
    A_1, A_2, e_1, e_2 = bay_areas(plant)
    assert drum == pytest.approx(e_1 * A_1 * SIGMA * (1200.0**4 - 400.0**4), rel=1e-6)
    assert casing == pytest.approx(e_2 * A_2 * SIGMA * (1200.0**4 - 700.0**4), rel=1e-6)


@pytest.mark.parametrize("path", [1e2, 1e3, 3e4])
def test_gas_round_the_drum(bench: Callable[..., Any], path: float) -> None:
    """Drum, casing and gas as one network, thin to thick gas."""
    T = (1200.0, 400.0, 700.0)
    plant = hot_bay(bench, T[0], T[2], T[1])
    drum, casing, gas = bay_heat(plant, path)
    wanted = bay_network(T, bay_areas(plant), gas_of(plant, T, path))
    assert (drum, casing) == pytest.approx(tuple(wanted), rel=1e-9)
    assert drum + casing + gas == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("path", [1e2, 1e3, 3e4])
def test_adiabatic_casing_round_the_drum(bench: Callable[..., Any], path: float) -> None:
    """A casing that keeps nothing passes all on: the same as one that reflects all (e = 0)."""
    T_gas, T_drum = 1200.0, 400.0
    plant = hot_bay(bench, T_gas, 800.0, T_drum)
    faces, cell = plant.plant.faces, plant.plant.cells[1]
    rows = range(int(cell["face_first"]), int(cell["face_last"]))
    A_1, A_2, e_1, _ = bay_areas(plant)
    names = [plant.index.names[int(faces["at"][j])] for j in rows]
    low, high = T_drum, T_gas
    for _ in range(60):
        middle = 0.5 * (low + high)
        plant.put(names, middle)
        drum, casing, _ = bay_heat(plant, path)
        low, high = (middle, high) if casing > 0.0 else (low, middle)
    T = (T_gas, T_drum, middle)
    wanted = bay_network(T, (A_1, A_2, e_1, 0.0), gas_of(plant, T, path))
    assert casing == pytest.approx(0.0, abs=1e-6)
    assert drum == pytest.approx(float(wanted[0]), rel=1e-6)
