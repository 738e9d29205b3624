"""A drum off the middle of its casing on the bench: limits, mirror images, equal pressure loss."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

BAYS = """
drum:
  diameter: 250 mm
  length: 450 mm
  water: 4 l
  gap: 25 mm
  baffle_spacing: {spacing} mm
  crossing: {crossing}
  lies: {lies}
  raised: {raised} mm
  aside: {aside} mm
gas_path:
  - name: round
    kind: round the drum
    cells: 3
  - name: stack
    kind: chimney
    diameter: 130 mm
    length: 1.2 m
"""
FLOWS = (-0.004, 0.001, 0.004, 0.012)
HOT, DRUM, CASING = 900.0, 380.0, 520.0
Bench = Callable[..., Any]


def hung(bench: Bench, crossing: str = "over and under", spacing: int = 150, lies: str = "yes",
         raised: float = 0.0, aside: float = 0.0) -> Any:
    """The plant with hot gas that cools from cell to cell, a warm casing and a cool drum."""
    plant = bench(BAYS.format(crossing=crossing, spacing=spacing, lies=lies, raised=raised,
                              aside=aside))
    plant.warm(HOT)
    for k, T in enumerate((830.0, 760.0, 700.0), 1):
        plant.put(f"round_{k}_gas", T)
        plant.put([n for n in plant.names(f"round_{k}_") if not n.endswith("gas")], CASING)
    plant.put(["drum_wet_wall", "drum_dry_wall"], DRUM)
    return plant


def flowing(plant: Any, flow: float) -> np.ndarray:
    """Rates with so much gas through the path [kg/s]."""
    plant.put("flow door", flow)
    return np.array(plant.evaluate())


def pushes(plant: Any) -> np.ndarray:
    """Pressure gained in the cells round the drum [Pa]."""
    return np.array(plant.plant.cells["push"][:3])


def shares(plant: Any, cell: int = 1, column: str = "share") -> np.ndarray:
    row = plant.plant.cells[cell]
    return np.array(plant.plant.ways[column][int(row["way_first"]):int(row["way_last"])])


KINDS = [("over and under", 150, "yes"), ("both sides", 150, "yes"), ("one way round", 150, "yes"),
         ("over and under", 450, "yes"), ("over and under", 150, "no"), ("both sides", 150, "no"),
         ("over and under", 450, "no")]


@pytest.mark.parametrize("towards", ["raised", "aside"])
@pytest.mark.parametrize(("crossing", "spacing", "lies"), KINDS)
def test_drum_all_but_in_the_middle(bench: Bench, crossing: str, spacing: int, lies: str,
                                    towards: str) -> None:
    """A nanometre off: the pressures of a drum in the middle to 1e-6, and its heat.

    Where gas goes over and under, the sides radiate to each way's gas by itself, not to their
    mean: 0.3 % of the heat with ways 200 K apart (at 1 g/s), 0.01 % at working flow.
    """
    if lies == "no" and towards == "raised":
        return
    kind = {"crossing": crossing, "spacing": spacing, "lies": lies}
    middle, off = hung(bench, **kind), hung(bench, **kind, **{towards: 1e-6})
    assert len(middle.plant.ways) == 0
    for flow in FLOWS:
        rates = [flowing(plant, flow) for plant in (middle, off)]
        assert pushes(off) == pytest.approx(pushes(middle), rel=1e-6), flow
        parted = lies == "yes" and (crossing == "over and under" or spacing == 450)
        near = (4e-3 if flow == 0.001 else 1e-3) if parted else 1e-6
        assert np.abs(rates[1] - rates[0]).max() < near * np.abs(rates[0]).max(), flow


@pytest.mark.parametrize("flow", FLOWS)
@pytest.mark.parametrize("spacing", [150, 450])
def test_raised_and_lowered_are_mirror_images_without_buoyancy(bench: Bench, spacing: int,
                                                               flow: float) -> None:
    """Shares over and under change places, at one loss of pressure; before buoyancy."""
    raised, lowered = (hung(bench, spacing=spacing, raised=by) for by in (12.0, -12.0))
    for plant in (raised, lowered):
        flowing(plant, flow)
    assert shares(raised, column="still") == pytest.approx(
        shares(lowered, column="still")[::-1], rel=1e-9)
    assert shares(raised, column="still")[0] < 0.45


def test_aside_gives_both_ways_the_same(bench: Bench) -> None:
    """Over and under at a drum moved to its side: alike, so that buoyancy alone parts the gas, and
    that as in a drum in the middle whose bay holds back more."""
    plant = hung(bench, aside=12.0)
    flowing(plant, 0.004)
    assert shares(plant, column="still") == pytest.approx([0.5, 0.5])
    assert shares(plant)[0] > 0.5


@pytest.mark.parametrize("flow", FLOWS[1:])
@pytest.mark.parametrize("spacing", [150, 450])
def test_raised_drum_sends_more_gas_under(bench: Bench, spacing: int, flow: float) -> None:
    """Step by step more, and with buoyancy (gas cools on its way) always less than without."""
    under = []
    for raised in (0.001, 5.0, 10.0, 15.0):
        plant = hung(bench, spacing=spacing, raised=raised)
        flowing(plant, flow)
        under.append(shares(plant)[1])
        assert shares(plant)[1] < shares(plant, column="still")[1]
    assert under == sorted(under)
    assert under[-1] > under[0] + 0.05


@pytest.mark.parametrize(("crossing", "spacing", "changes", "allowed"), [
    ("over and under", 150, {"raised": 12.0}, 3e-3), ("both sides", 150, {"aside": 12.0}, 3e-3),
    ("over and under", 450, {"raised": 12.0}, 3e-3), ("both sides", 150, {"aside": 21.8}, 0.04),
    ("over and under", 150, {"raised": 20.0}, 0.02)])
def test_ways_have_one_loss_of_pressure(bench: Bench, crossing: str, spacing: int,
                                        changes: dict[str, float], allowed: float) -> None:
    """Both ways' losses at the shares found, over their mean; up to Re 4000."""
    from thermsim.kernel import opened
    from thermsim.parts.drum_uneven import uneven_loss, way_loss

    plant = hung(bench, crossing, spacing, **changes).plant
    cell, rho, mu = plant.cells[1], 0.5, 3.2e-5
    for flow in (1e-4, 5e-4, 2e-3, 8e-3, 0.0145):
        whole = opened(uneven_loss)(cell, flow, 0.0, rho, mu, plant)
        losses = [sum(opened(way_loss)(way, float(way["still"]), flow, 0.0, rho, mu,
                                       float(cell["roughness"]))[:2])
                  for way in plant.ways[int(cell["way_first"]):int(cell["way_last"])]]
        assert losses == pytest.approx([whole, whole], rel=allowed), flow


@pytest.mark.parametrize(("spacing", "raised"), [(450, 10.0), (450, -10.0), (150, 12.0),
                                                 (150, -12.0)])
def test_share_with_buoyancy(bench: Bench, spacing: int, raised: float) -> None:
    """Against the share at which the ways' own losses differ by half the lift.

    With baffles the law counts the turns' slope twice, as with equal ways: 0.02 and 0.04.
    """
    from scipy.optimize import brentq

    from thermsim.kernel import opened
    from thermsim.parts.drum_uneven import lift_ways, uneven_loss, way_loss

    plant = hung(bench, spacing=spacing, raised=raised).plant
    cell, rho, mu, flow = plant.cells[1], 0.5, 3.2e-5, 0.003
    ways = plant.ways[int(cell["way_first"]):int(cell["way_last"])]
    whole = opened(uneven_loss)(cell, flow, 0.0, rho, mu, plant)

    def loss(number: int, s: float) -> float:
        return sum(opened(way_loss)(ways[number], s, flow, 0.0, rho, mu, 5e-4)[:2])

    near = 0.02 if spacing == 150 else 0.01
    for half, allowed in ((0.25, near), (-0.25, near), (0.5, 2 * near), (-0.5, 2 * near)):
        wanted = brentq(lambda s, by: loss(0, s) - loss(1, 1.0 - s) - by, 1e-3, 0.999,
                        args=(half * whole,))
        opened(lift_ways)(cell, 2.0 * half * whole, plant)
        assert float(ways["share"][0]) == pytest.approx(wanted, abs=allowed), half
    opened(lift_ways)(cell, 1e9, plant)
    assert ways["share"] == pytest.approx([1.0, 0.0], abs=1e-9)


def test_off_the_middle_holds_back_less_along_and_more_across(bench: Bench) -> None:
    """Parallel strips carry more together than even ones (Piercy et al. 1933); a way across has
    the narrow place in series. Same gas, same flow."""
    lost = {}
    for spacing in (150, 450):
        for aside in (0.0, 15.0):
            plant = hung(bench, spacing=spacing, aside=aside)
            plant.warm(600.0)
            flowing(plant, 0.004)
            lost[spacing, aside] = -pushes(plant)[1]
    assert lost[450, 15.0] < 0.9 * lost[450, 0.0]
    assert lost[150, 15.0] > 2.0 * lost[150, 0.0]


@pytest.mark.parametrize("crossing", ["over and under", "both sides", "one way round"])
def test_gas_cools_along_an_uneven_bay_by_its_own_units(bench: Bench, crossing: str) -> None:
    """The outlet that balances a bay: each way's gas leaves exp(-UA/(m cp)) of its rise."""
    plant = hung(bench, crossing, raised=9.0, aside=9.0)
    plant.plant.cells["beam"] = 0.0
    plant.warm(350.0)
    plant.put("round_1_gas", 370.0)
    left = 0.5
    for _ in range(6):
        plant.put("round_2_gas", 350.0 + 20.0 * left)
        flowing(plant, 0.002)
        cell = plant.plant.cells[1]
        assert float(cell["leak_area"]) > 0.0
        ways = plant.plant.ways[int(cell["way_first"]):int(cell["way_last"])]
        UA = np.zeros(len(ways))
        for face in plant.plant.faces[int(cell["face_first"]):int(cell["face_last"])]:
            if face["side"] != 4:
                UA[int(face["way"])] += (face["film"] * face["area"]
                                         + face["drum_film"] * face["drum_area"])
        assert np.allclose(UA, ways["UA_0"] + ways["UA_1"])
        taken = UA / ways["x_0"]  # W/K past the baffle's leak
        passed = taken.sum() / (0.002 * 1009.0)
        left = float(passed * (ways["share"] * np.exp(-ways["x_0"])).sum() + 1.0 - passed)
    assert 0.2 < left < 0.9
    plant.put("round_2_gas", 350.0 + 20.0 * left)
    flowing(plant, 0.002)
    assert abs(plant.heat("round_2_gas")) < 0.02 * 0.002 * 1009.0 * 20.0 * (1.0 - left)


def test_finite_for_any_gas(bench: Bench) -> None:
    """No flow, either way, 150 to 3500 K."""
    for crossing, spacing in (("over and under", 150), ("both sides", 150),
                              ("over and under", 450)):
        plant = hung(bench, crossing, spacing, raised=15.0, aside=14.0)
        for T in (150.0, 3500.0):
            plant.put([f"round_{k}_gas" for k in (1, 2, 3)], T)
            for flow in (0.0, 1e-9, -1e-9, 0.3, -0.3):
                assert np.isfinite(flowing(plant, flow)).all(), (crossing, T, flow)
