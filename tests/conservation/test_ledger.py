"""Heat, elements and water of every shipped scenario: one tolerance, no exceptions."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from shipped import SCENARIOS

SHIPPED = [path.stem for path in SCENARIOS]
HEAT = 1e-3
MATTER = 1e-6
ATOMS = {"C": 12.011, "H": 1.008, "O": 15.999, "N": 14.007}
"""atomic masses [g/mol], IUPAC 2021 abridged"""

pytestmark = pytest.mark.parametrize("name", SHIPPED)


def test_ledger_error(fired: Callable[..., Any], name: str, record_property: Any) -> None:
    """Largest imbalance of the heat account over the heat released."""
    error = fired(name).summary["ledger_error"]
    record_property("ledger_error", error)
    print(f"{name}: ledger error {error:.2e}")
    assert 0.0 < error <= HEAT


def test_ledger_rows_sum_up(fired: Callable[..., Any], name: str) -> None:
    """What went in is what was useful, stored and lost, and the imbalance, row by row."""
    ledger = fired(name).ledger
    sums = ledger.groupby("group")["energy_J"].sum()
    out = sums["useful"] + sums["stored"] + sums["lost"]
    assert sums["in"] - out == pytest.approx(sums["error"], abs=1e-6 * sums["in"])
    assert abs(sums["error"]) <= HEAT * sums["in"]


def ends(run: Any) -> tuple[np.ndarray, np.ndarray]:
    """States at the start and at the end."""
    trajectory = run.solution.trajectory
    return trajectory(0.0, left=True), trajectory(trajectory.t1)


def test_elements_by_the_ledger(solved: Callable[..., Any], name: str) -> None:
    """C, H, O, N of what was gasified: in the gas, on the grate, or gone."""
    from thermsim.network.ledger import elements_given, elements_held

    run = solved(name)
    start, end = ends(run)
    given = elements_given(run.assembly, gasified(run, end),
                           splinters(run.assembly.scenario.tree))
    held = elements_held(run.assembly, end) - elements_held(run.assembly, start)
    assert held == pytest.approx(given, rel=MATTER)


def splinters(tree: Any) -> float:
    """Kindling, which is dry and wholly burnt after its time [kg]; a given fire needs none."""
    return float(tree.fire.kindling) if tree.fire.kind == "sticks" else 0.0


def gasified(run: Any, end: np.ndarray) -> float:
    """Dry wood that became gas and char [kg]: ash over the share of ash, raked ash put back."""
    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    raked = getattr(run, "raked_ash", 0.0)
    return float((end[index["ash"]] + raked) / tree.wood.ash)


def kindling(run: Any) -> float:
    """Kindling burnt [kg]: all of it, and dry."""
    fire = run.assembly.scenario.tree.fire
    return float(fire.kindling) if fire.kind == "sticks" else 0.0


def moisture(run: Any, dry: float) -> float:
    """Water [kg] that so much dry wood brought as it became gas; kindling brings none."""
    wet_share = run.assembly.scenario.tree.wood.moisture
    return float((dry - kindling(run)) * wet_share / (1.0 - wet_share))


def test_wood_fed_is_wood_gasified_and_left(solved: Callable[..., Any], name: str) -> None:
    """Charges and kindling: gone into gas, char and ash, or still lying there."""
    run = solved(name)
    _, end = ends(run)
    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    if tree.fire.kind == "given":
        points = [(p["at"], p["heat"]) for p in tree.fire.heat]
        time, heat = np.array(points).T
        stop = min(run.solution.trajectory.t1, time[-1])
        fine = np.unique(np.append(np.clip(time, 0.0, stop), stop))
        told = np.trapezoid(np.interp(fine, time, heat), fine)
        dry = told / float(run.assembly.plant.fire["wood_heat"][0])
        # heat told as a function of time is integrated to the solver's own 1e-5
        assert gasified(run, end) == pytest.approx(dry, rel=1e-5)
        return
    lying = ("wood_in_hand", "wood_unlit", "wood_alight", "kindling")
    left = float(sum(end[index[k]] for k in lying))
    # kindling, the charge at the start, then one each time the rule acted, all whole at the end
    acted = [h.time for h in run.solution.happenings if "add" in str(h)]
    assert len(acted) == len(run.charges)
    sizes = [re.search(r"add ([\d.]+) kg", str(h)) for h in run.solution.happenings]
    wet = sum(float(size[1]) for size in sizes if size)
    dry = tree.fire.kindling + wet * (1.0 - tree.wood.moisture)
    assert run.solution.trajectory.t1 > max(run.charges) + 60.0
    assert gasified(run, end) + left == pytest.approx(dry, rel=MATTER)


def species_out(run: Any, end: np.ndarray) -> dict[str, float]:
    """kg of O2, N2, CO2, H2O, C, H, O, N that left or are held, from the totals of basis gases.

    Burnt volatiles are written as CO2, H2O and N2 less the oxygen they took from the air.
    """
    index, gases = run.assembly.draft.index, run.assembly.gases
    totals = {}
    for part in ("air", "burnt volatiles", "unburnt volatiles", "burnt carbon", "water"):
        totals[part] = sum(float(end[index[f"total {way} {part}"]])
                           for way in ("chimney_out", "smoke_out"))
    for zone in run.assembly.plant.zones[:-1]:
        kept = end[zone["share"]: zone["share"] + 4] * zone["mass"]
        for part, mass in zip(list(totals)[1:], kept, strict=True):
            totals[part] += float(mass)
    volatiles, wood = gases.volatiles, gases.wood
    carbon_dioxide = (volatiles.C * totals["burnt volatiles"] + totals["burnt carbon"])
    return {"C": carbon_dioxide + volatiles.C * totals["unburnt volatiles"],
            "H": (volatiles.H * (totals["burnt volatiles"] + totals["unburnt volatiles"])
                  + totals["water"] * 2 * ATOMS["H"] / (2 * ATOMS["H"] + ATOMS["O"])),
            "O_taken": (totals["burnt volatiles"] * (
                volatiles.C * 2 * ATOMS["O"] / ATOMS["C"] + volatiles.H * ATOMS["O"] / (
                    2 * ATOMS["H"]) - volatiles.O)
                + totals["burnt carbon"] * 2 * ATOMS["O"] / ATOMS["C"]),
            "wood_O": wood.O}


def test_elements_by_hand(solved: Callable[..., Any], name: str) -> None:
    """Carbon and hydrogen of the wood as its analysis has them, in what left and what stayed."""
    run = solved(name)
    _, end = ends(run)
    tree, wood = run.assembly.scenario.tree, run.assembly.gases.wood
    whole = wood.C + wood.H + wood.O + wood.N
    dry = gasified(run, end)
    clean = dry * (1.0 - tree.wood.ash)
    water = (dry - splinters(tree)) * tree.wood.moisture / (1.0 - tree.wood.moisture)
    out = species_out(run, end)
    char = float(end[run.assembly.draft.index["char"]])
    assert out["C"] + char == pytest.approx(clean * wood.C / whole, rel=MATTER)
    hydrogen = clean * wood.H / whole + water * 2 * ATOMS["H"] / (2 * ATOMS["H"] + ATOMS["O"])
    assert out["H"] == pytest.approx(hydrogen, rel=1e-4)  # to the figures of the atomic masses


def test_air_in_is_gas_out_less_fuel(solved: Callable[..., Any], name: str) -> None:
    """Masses: all that left is air in and fuel gas; gas is not stored, shares in zones are."""
    run = solved(name)
    _, end = ends(run)
    index, tree = run.assembly.draft.index, run.assembly.scenario.tree
    dry = gasified(run, end)
    char = float(end[index["char"]])
    water = (dry - splinters(tree)) * tree.wood.moisture / (1.0 - tree.wood.moisture)
    burnt = dry * (1.0 - tree.wood.ash) + water - char
    out = sum(float(end[i]) for i, n in enumerate(index.names)
              if n.startswith(("total chimney_out", "total smoke_out")))
    came = float(end[index["total air in"]]) + burnt
    assert out == pytest.approx(came, rel=MATTER)


def test_water_of_the_drum(solved: Callable[..., Any], name: str) -> None:
    """Water at first, poured and fed is water left and steam gone."""
    run = solved(name)
    start, end = ends(run)
    index = run.assembly.draft.index
    poured = sum(mass for _, mass, _ in run.pours)
    had = float(start[index["water_mass"]] + end[index["total water fed"]]) + poured
    has = float(end[index["water_mass"]] + end[index["total steam out"]])
    assert has == pytest.approx(had, rel=MATTER, abs=1e-9)
