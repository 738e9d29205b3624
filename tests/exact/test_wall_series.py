"""Walls as assembled against the exact series and error functions of `physics/transient*`.

A film that does not change is made of a layer that stores next to nothing; the fluid is its hot
side, held. The wall's outside face is cut off, so it is a wall with one face insulated.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from thermsim.physics import transient_series as series
from thermsim.physics import transients

BRICK_K, BRICK_HEAT, THICK = 1.2, 1900.0 * 900.0, 0.08
SOFT_K, SOFT_HEAT = 0.3, 600.0 * 1000.0
"""conductivity [W/(m K)], heat capacity [J/(m3 K)], thickness [m]"""
FILM = 1e-3
"""thickness of the layer that stands for a film [m]"""
RISE = 100.0
"""of the fluid, or of one layer over the other [K]"""
MATERIALS = """
materials:
  brick:
    conductivity: 1.2 W/(m K)
    density: 1900 kg/m3
    heat_capacity: 900 J/(kg K)
  soft brick:
    conductivity: 0.3 W/(m K)
    density: 600 kg/m3
    heat_capacity: 1000 J/(kg K)
  film:
    conductivity: {film} W/(m K)
    density: 10 kg/m3
    heat_capacity: 100 J/(kg K)
"""
DUCT = """
gas_path:
  - name: stack
    kind: rectangular duct
    width: 100 mm
    height: 100 mm
    length: 0.5 m
    rise: 0.5 m
    cells: 1
    wall:
      - material: {first}
        thickness: {thin} mm
        cells: {first_cells}
      - material: {second}
        thickness: 80 mm
        cells: {cells}
"""
Bench = Callable[..., Any]


def behind_a_film(bench: Bench, Bi: float, cells: int) -> tuple[Any, list[str], float]:
    """A brick wall, its film and the fluid at once warmer by RISE; and its first temperature."""
    film = Bi * BRICK_K / THICK * FILM
    plant = bench(MATERIALS.format(film=f"{film:.6f}"), DUCT.format(
        first="film", thin=1, first_cells=1, second="brick", cells=cells))
    points = plant.names("stack_1 ")
    assert len(points) == cells + 2
    plant.plant.surfaces["area"][:] = 1e-15
    T_0 = plant.value(points[1])
    plant.put(points[1:], T_0)
    plant.put(points[0], T_0 + RISE)
    return plant, points, T_0


def worst_of_rows(bench: Bench, rows: list[Any], Bi: float, cells: int) -> float:
    """Largest error over the rows of one Biot number, as a share of the fluid's step."""
    plant, points, T_0 = behind_a_film(bench, Bi, cells)
    diffusivity = BRICK_K / BRICK_HEAT
    at = {row.id: row.inputs["Fo"] * THICK**2 / diffusivity for row in rows}
    held = {*plant.gas_and_shares(), points[0]}
    trajectory = plant.march(max(at.values()) * 1.001, held, rtol=1e-9)
    worst = 0.0
    for row in rows:
        # x counts from the insulated face
        point = points[-1] if row.inputs["x"] == 0 else points[1]
        left = 1.0 - (trajectory(at[row.id])[plant.index[point]] - T_0) / RISE
        worst = max(worst, abs(left - row.value))
    return worst


@pytest.mark.published
@pytest.mark.parametrize("Bi", [1.0, 10.0])
def test_a_wall_behind_a_film(bench: Bench, Bi: float,
                              reference_rows: Callable[..., list[Any]]) -> None:
    """The rows of the exact series (Incropera 6e eq. 5.39): within 0.02 % of the step in 40 slices,
    and four times as far with half as many.

    The film stores 1 J/(m2 K), the wall 137 kJ/(m2 K).
    """
    rows = [row for row in reference_rows("transients")
            if row.id.startswith("L-ser-") and row.inputs["Bi"] == Bi]
    assert len(rows) >= 5
    coarse, fine = (worst_of_rows(bench, rows, Bi, cells) for cells in (20, 40))
    assert fine < 2e-4
    assert coarse / fine == pytest.approx(4.0, rel=0.1)


def error_of_three_slices(bench: Bench, Bi: float) -> dict[float, float]:
    """Error at the hot face of a wall in the three slices a file gets, by Fourier number."""
    plant, points, T_0 = behind_a_film(bench, Bi, 3)
    diffusivity = BRICK_K / BRICK_HEAT
    times = {Fo: Fo * THICK**2 / diffusivity for Fo in (0.02, 0.1, 0.3, 1.0)}
    held = {*plant.gas_and_shares(), points[0]}
    trajectory = plant.march(1.001 * max(times.values()), held, rtol=1e-8)
    return {Fo: 1.0 - (trajectory(t)[plant.index[points[1]]] - T_0) / RISE
            - series.share_at(series.WALL, Bi, Fo, 1.0) for Fo, t in times.items()}


def test_three_slices_are_enough_after_a_while(bench: Bench) -> None:
    """Three slices, the usual number, at the hot face: within 1.5 % of the step from Fo 0.1 on.

    Before that (the first quarter of an hour of 80 mm of brick) so few slices lag: at Fo 0.02 by
    8 % of the step at most, worst with a film about as good a conductor as a slice.
    """
    for Bi in (1.0, 3.0, 10.0):
        errors = error_of_three_slices(bench, Bi)
        assert max(abs(errors[Fo]) for Fo in (0.1, 0.3, 1.0)) < 0.015
        assert 0.0 < errors[0.02] < 0.1


def test_two_layers_of_unlike_temperature(bench: Bench) -> None:
    """Brick on softer brick, one 100 K warmer: the joint stands where effusivities put it.

    Each side then follows the error function of a deep solid (Incropera 6e eqs 5.57, 5.63), within
    0.1 % of the step, until heat has come through either (Fo 0.05). The point at the joint has half
    a slice of each and begins with the heat of both.
    """
    cells = 40
    plant = bench(MATERIALS.format(film="1"), DUCT.format(
        first="brick", thin=80, first_cells=cells, second="soft brick", cells=cells))
    points = plant.names("stack_1 ")
    assert len(points) == 2 * cells + 1
    plant.plant.surfaces["area"][:] = 1e-15
    plant.plant.faces["area"][:] = 1e-15
    T_0 = 300.0
    joint = transients.contact_temperature(
        T_0 + RISE, transients.effusivity(BRICK_K, BRICK_HEAT),
        T_0, transients.effusivity(SOFT_K, SOFT_HEAT))
    plant.put(points[:cells], T_0 + RISE)
    plant.put(points[cells], T_0 + RISE * BRICK_HEAT / (BRICK_HEAT + SOFT_HEAT))
    plant.put(points[cells + 1:], T_0)
    t = 0.05 * THICK**2 * BRICK_HEAT / BRICK_K
    trajectory = plant.march(t, set(plant.gas_and_shares()), rtol=1e-8)
    step = THICK / cells
    for moment in (0.3 * t, t):
        for i in range(1, cells, 3):
            x = i * step
            soft = transients.deep_step(x, moment, SOFT_K / SOFT_HEAT)
            brick = transients.deep_step(x, moment, BRICK_K / BRICK_HEAT)
            found = trajectory(moment)
            assert found[plant.index[points[cells + i]]] == pytest.approx(
                T_0 + soft * (joint - T_0), abs=1e-3 * RISE)
            assert found[plant.index[points[cells - i]]] == pytest.approx(
                T_0 + RISE + brick * (joint - T_0 - RISE), abs=1e-3 * RISE)
        assert found[plant.index[points[cells]]] == pytest.approx(joint, abs=1e-5 * RISE)
