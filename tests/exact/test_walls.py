"""Walls as assembled against exact conduction: layers in series, a slab's step, a plate cooling."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

SIGMA = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)], CODATA 2018"""

MATERIALS = """
materials:
  inner brick:
    conductivity: 1.2 W/(m K)
    density: 1900 kg/m3
    heat_capacity: 900 J/(kg K)
  wool:
    conductivity: 0.05 W/(m K)
    density: 100 kg/m3
    heat_capacity: 800 J/(kg K)
  plate:
    conductivity: 4 W/(m K)
    density: 7800 kg/m3
    heat_capacity: 500 J/(kg K)
"""
LAYERED = """
gas_path:
  - name: stack
    kind: {kind}
    {size}
    length: 0.5 m
    rise: 0.5 m
    cells: 1
    emissivity: 0.85
    wall:
      - material: inner brick
        thickness: 40 mm
      - material: wool
        thickness: 30 mm
      - material: plate
        thickness: 3 mm
"""


def ring(k: float, inside: float, outside: float, length: float) -> float:
    """Resistance of a ring [K/W]: ln(r2/r1)/(2 pi k L), Incropera 6e eq. 3.28."""
    return math.log(outside / inside) / (2 * math.pi * k * length)


def test_layers_of_a_pipe_in_series(bench: Any) -> None:
    """Steady flux and joints between layers of a round wall against resistances by hand."""
    plant = bench(MATERIALS, LAYERED.format(kind="chimney", size="diameter: 130 mm"))
    points = plant.names("stack_1 ")
    plant.put(points[0], 700.0)
    held = {*plant.gas_and_shares(), points[0]}
    held |= {n for n in plant.index.names if "firebox" in n or n == "char_bed"}
    plant.march(4e5, held, rtol=1e-9)
    r, L = 0.065, 0.5
    brick, wool = ring(1.2, r, r + 0.04, L), ring(0.05, r + 0.04, r + 0.07, L)
    flux = (700.0 - plant.value(points[-1])) / (brick + wool)
    assert plant.lost("stack") == pytest.approx(flux, rel=1e-6)
    assert plant.value(points[3]) == pytest.approx(700.0 - flux * brick, abs=1e-4)


def test_layers_of_a_flat_wall_in_series(bench: Any) -> None:
    """The same for a rectangular duct; its plate (4 W/(m K), 3 mm) counts as one point."""
    size = "width: 100 mm\n    height: 200 mm"
    plant = bench(MATERIALS, LAYERED.format(kind="rectangular duct", size=size))
    points = plant.names("stack_1 ")
    plant.put(points[0], 700.0)
    held = {*plant.gas_and_shares(), points[0]}
    held |= {n for n in plant.index.names if "firebox" in n or n == "char_bed"}
    plant.march(4e5, held, rtol=1e-9)
    area = 0.6 * 0.5
    flux = (700.0 - plant.value(points[-1])) * area / (0.04 / 1.2 + 0.03 / 0.05)
    assert plant.lost("stack") == pytest.approx(flux, rel=1e-6)


def slab(x: float, fourier: float) -> float:
    """(T - T0)/(T1 - T0) at x/L in a slab whose face x = 0 is suddenly put to T1, x = L held at T0.

    1 - x - (2/pi) sum sin(n pi x) exp(-n^2 pi^2 Fo)/n; Carslaw and Jaeger, Conduction of Heat in
    Solids (1959) section 3.4.
    """
    n = np.arange(1, 200)
    waves = np.sin(n * np.pi * x) * np.exp(-((n * np.pi) ** 2) * fourier) / n
    return 1.0 - x - 2.0 / math.pi * float(waves.sum())


def slab_error(bench: Any, cells: int) -> float:
    """Largest error of the assembled slab, as a share of the step, at three places and times."""
    wall = f"""
    gas_path:
      - name: stack
        kind: rectangular duct
        width: 100 mm
        height: 100 mm
        length: 0.5 m
        rise: 0.5 m
        cells: 1
        wall:
          - material: inner brick
            thickness: 80 mm
            cells: {cells}
    """
    plant = bench(MATERIALS, wall)
    points = plant.names("stack_1 ")
    assert len(points) == cells + 1
    T_0 = plant.value(points[0])
    plant.put(points[0], T_0 + 100.0)
    held = {*plant.gas_and_shares(), points[0], points[-1]}
    diffusivity = 1.2 / (1900 * 900)
    worst = 0.0
    trajectory = plant.march(0.2 * 0.08**2 / diffusivity, held, rtol=1e-9)
    for fourier in (0.05, 0.1, 0.2):
        y = trajectory(fourier * 0.08**2 / diffusivity)
        for part in (4, 2):
            found = (y[plant.index[points[cells // part]]] - T_0) / 100.0
            worst = max(worst, abs(found - slab(1 / part, fourier)))
    return worst


def test_a_slab_warms_as_the_series_says(bench: Any) -> None:
    """A step at one face of a layer in 40 slices: within 0.1 % of the step."""
    assert slab_error(bench, 40) < 1e-3


def test_slices_converge_in_second_order(bench: Any) -> None:
    """Halving the slices divides the error by four, within a tenth."""
    assert slab_error(bench, 8) / slab_error(bench, 16) == pytest.approx(4.0, rel=0.1)


def cooling_time(T: float, start: float, around: float, capacity: float, shine: float) -> float:
    """Time [s] in which a body cools by radiation alone from `start` to T.

    C dT/dt = -s (T^4 - Ts^4): t = C/(4 s Ts^3) [ln((T+Ts)/(T-Ts)) + 2 atan(T/Ts)] between both;
    Incropera 6e eq. 5.18.
    """
    def part(T: float) -> float:
        return math.log((T + around) / (T - around)) + 2.0 * math.atan(T / around)

    return capacity / (4.0 * shine * around**3) * (part(T) - part(start))


def test_a_plate_cools_by_radiation(bench: Any) -> None:
    """An assembled plate with its films off cools by T^4, to 1e-5 of its fall.

    Films are off because its area outside is a millionth of a millionth and its emissivity as much
    larger; inside it touches next to nothing.
    """
    wall = """
    gas_path:
      - name: stack
        kind: chimney
        diameter: 130 mm
        length: 0.5 m
        cells: 1
        wall:
          - material: plate
            thickness: 3 mm
    """
    plant = bench(MATERIALS, wall, changes=["day.surroundings = -20 C"])
    small = 1e-12
    (point,) = plant.names("stack_1 ")
    row = next(i for i, s in enumerate(plant.plant.surfaces) if s["at"] == plant.index[point])
    area = float(plant.plant.surfaces["area"][row])
    plant.plant.surfaces["area"][row] = small * area
    plant.plant.surfaces["emissivity"][row] = 0.8 / small
    plant.plant.faces["area"][:] = small
    plant.put(point, 1100.0)
    outer, inner = 0.068, 0.065
    capacity = math.pi * (outer**2 - inner**2) * 0.5 * 7800 * 500
    shine = 0.8 * SIGMA * 2 * math.pi * outer * 0.5
    held = [n for n in plant.index.names if n != point]
    trajectory = plant.march(cooling_time(400.0, 1100.0, 253.15, capacity, shine), held, rtol=1e-9)
    for T in (900.0, 700.0, 500.0, 400.0):
        t = cooling_time(T, 1100.0, 253.15, capacity, shine)
        assert trajectory(t)[plant.index[point]] == pytest.approx(T, abs=1e-5 * (1100.0 - T))
