"""What `check` tells: sizes worked by hand, the plant's own figures, warnings with a number."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from thermsim.network.derived import derive
from thermsim.network.design_flow import (
    heat_capacity,
    nominal_fire,
    nusselt,
    pass_flows,
    static_draught,
    viscosity,
)
from thermsim.network.run_warnings import warnings_of
from thermsim.scenario import load_scenario

Load = Callable[..., Any]


def figures(scenario: Any) -> dict[str, str]:
    return {row.label: row.text for row in derive(scenario).quantities}


def value(text: str) -> float:
    found = re.search(r"[\d.]+", text)
    assert found
    return float(found[0])


def test_sizes_by_hand(load: Load) -> None:
    """Worked on paper from the sizes in conftest."""
    told = figures(load())
    # pi/4 0.13^2; 2 x 25 mm x 112.5 mm; 25 mm x 112.5 mm; 0.55 x 140 x 140; 0.35 x 250 x 300
    assert value(told["chimney"]) == pytest.approx(132.7, abs=0.5)
    assert value(told["gap round the drum"]) == pytest.approx(56.25, abs=0.1)
    assert value(told["window past a baffle"]) == pytest.approx(28.1, abs=0.1)
    assert value(told["opening feed"]) == pytest.approx(107.8, abs=0.5)
    assert value(told["grate, open part"]) == pytest.approx(262.5, abs=1.0)
    assert value(told["opening ash_door"]) == pytest.approx(144.0, abs=0.5)
    # pi 0.25 x 0.45 + pi/4 0.25^2; pi/4 0.242^2 x 0.442; 10 of 20.33 l
    assert value(told["drum, heated by the gas"]) == pytest.approx(0.4025, abs=0.001)
    assert value(told["drum, holds"]) == pytest.approx(20.33, abs=0.05)
    assert told["drum, filled"] == "10 l, 49 %"
    # 7850 x 0.004 x (pi 0.246 x 0.45 + 2 pi/4 0.25^2)
    assert value(told["drum, plate"]) == pytest.approx(14.0, abs=0.1)
    assert told["bays"] == "4 of 112.5 mm"
    assert value(told["way of the gas round the drum"]) == pytest.approx(1.73, abs=0.01)
    assert value(told["end of the gas path above the floor"]) == pytest.approx(3.10, abs=0.01)
    assert value(told["firebox walls"]) == pytest.approx(
        7850 * 0.003 * (1.1 * 0.35 + 0.5 * 0.075), abs=0.1)


def test_static_draught_by_hand(load: Load) -> None:
    """2.4 m of gas at 150 C against air at 12 C; air at 0 C and 1013 hPa weighs 1.293 kg/m3
    (any table of physics), in inverse proportion to its temperature in kelvin."""
    by_hand = 9.80665 * 2.4 * 1.293 * (273.15 / 285.15 - 273.15 / 423.15)
    assert static_draught(load().tree, 150.0) == pytest.approx(by_hand, rel=2e-3)


# Incropera et al. 6e, table A.4, air at 1 atm: K, 1e-7 Pa s, kJ/(kg K)
AIR = [(300, 184.6, 1.007), (500, 270.1, 1.030), (700, 338.8, 1.075), (1000, 424.4, 1.141)]


@pytest.mark.parametrize(("T", "mu", "cp"), AIR)
def test_air(T: float, mu: float, cp: float) -> None:
    assert viscosity(T) == pytest.approx(mu * 1e-7, rel=0.03)
    assert heat_capacity(T) == pytest.approx(cp * 1e3, rel=0.015)


def test_nusselt() -> None:
    """3.66 far down a round duct, 7.54 far down a slot (Incropera 6e table 8.1); Gnielinski at
    Re 10000, Pr 0.71: f = 0.03148 by Petukhov's formula, Nu = 30.0 (worked by hand)."""
    assert nusselt(100.0, 1e4, 3.66, 0.0668, 0.04) == pytest.approx(3.66, rel=1e-3)
    assert nusselt(100.0, 1e4, 7.54, 0.03, 0.016) == pytest.approx(7.54, rel=1e-3)
    assert nusselt(1e4, 1e4, 3.66, 0.0668, 0.04) == pytest.approx(30.0, rel=0.02)


def test_nominal_fire_of_sticks(load: Load) -> None:
    """By hand: 0.14 x 0.14 x 0.12 m of which 45 % wood, in sticks of 25 mm: 0.169 m2 at 6 g/m2s."""
    fire = nominal_fire(load().tree)
    assert fire is not None
    assert fire.dry == pytest.approx(6e-3 * 4 * 0.14**2 * 0.12 * 0.45 / 0.025, rel=1e-6)
    # 20 % moisture, 18.9 MJ/kg dry: 18.1 MJ for each kg of dry wood without its ash
    assert fire.power / fire.dry == pytest.approx(0.99 * 18.9e6 - 0.25 * 2.442e6, rel=1e-6)


def test_wood_of_any_kind_is_near_the_figures_used(load: Load) -> None:
    from thermsim.network.design_flow import DRY_AIR, DRY_HEAT
    from thermsim.physics.combustion import (
        WOODS,
        ash_free,
        lower_heating_value,
        stoichiometric_air,
    )

    for kind, wood in WOODS.items():
        C, H, O, N = ash_free(wood)
        assert lower_heating_value(C, H, O, N) == pytest.approx(DRY_HEAT, rel=0.06), kind
        assert stoichiometric_air(C, H, O) == pytest.approx(DRY_AIR, rel=0.06), kind


def test_given_fire_sets_the_flow(load_shipped: Load) -> None:
    fire = nominal_fire(load_shipped("given_fire").tree)
    assert fire is not None
    assert fire.power == pytest.approx(9000.0)


VARIANTS = [(), ("drum.crossing = one way round",), ("drum.baffle_spacing = 600 mm",),
            ("drum.lies = no",), ("drum.baffle_spacing = 40 mm",), ("drum.ends = dished",),
            ("drum.ends = dished", "drum.lies = no", "drum.front = outside"),
            ("drum.ends = dished", "drum.back = outside")]


def test_dished_ends_are_told(load: Load) -> None:
    """DIN 28011: heads of 0.1 (D - 2 s)^3, 1.4 l each, 50.6 mm deep with the plate."""
    told = figures(load("drum.ends = dished"))
    assert "23.5 l, 2.8" in told["drum, holds"]
    assert told["drum, over all"].startswith("551 mm")
    assert "51 mm" in told["drum, over all"] or "50.6 mm" in told["drum, over all"]
    flat = figures(load())
    assert "drum, over all" not in flat
    assert float(told["drum, plate"].split()[0]) > float(flat["drum, plate"].split()[0])


@pytest.mark.parametrize("changes", VARIANTS, ids=str)
def test_sizes_are_those_of_the_assembled_plant(load: Load, changes: tuple[str, ...]) -> None:
    from thermsim.network.assemble import assemble
    from thermsim.network.sizes import (
        drum_volume,
        end_area,
        end_volume,
        gap_area,
        gap_path,
        inside_height,
        slices,
    )

    scenario = load(*changes)
    tree = scenario.tree
    assembly = assemble(scenario)
    cells = assembly.plant.cells
    first, last = cells[0], cells[-1]
    assert float(first["area"]) == pytest.approx(gap_area(tree.drum))
    along = 1 if tree.drum.baffle_spacing < tree.drum.length else slices(tree, tree.gas_path[0])
    assert float(first["length"]) == pytest.approx(gap_path(tree.drum) / along)
    assert float(last["area"]) == pytest.approx(math.pi / 4 * 0.13**2)
    assert len(cells) == sum(slices(tree, given) for given in tree.gas_path)
    row = assembly.plant.drum[0]
    assert float(row["volume"]) == pytest.approx(drum_volume(tree.drum))
    assert float(row["end_area"]) == pytest.approx(2.0 * end_area(tree.drum))
    assert float(row["inside_height"]) == pytest.approx(inside_height(tree.drum))
    assert float(row["in_ends"] * row["volume"]) == pytest.approx(2.0 * end_volume(tree.drum))
    assert value(figures(scenario)["states"].removeprefix("about ")) == assembly.states


WARNED = [
    # (change, words of the warning, the number in it)
    ("drum.gap = 6 mm", "closes with soot", "6 mm"),
    ("drum.gap = 10 mm", "The gap round the drum is 22.5 cm2", "17 %"),
    ("drum.window = 50 mm", "The window past each baffle", "12.5 cm2"),
    ("gas_path.stub.diameter = 60 mm", "'stub' is 28.3 cm2", "21 %"),
    ("gas_path.chimney.length = 1 m", "rises 1.00 m and pulls 4.0 Pa", "6 Pa"),
    ("gas_path.chimney.length = 1 m", "pulls the other way", "350 mm"),
    ("openings.feed.width = 240 mm", "more than the chimney's 133 cm2", "185 cm2"),
    ("openings.feed.faces = side; openings.feed.sill = 780 mm", "faces the side", "350 mm"),
    ("openings.ash_door.leak = 3 mm", "leaks 15 cm2 when shut", "14 %"),
    ("openings.ash_door.sill = 100 mm", "above the grate at 150 mm", "40 mm"),
    ("drum.plate = 1.5 mm", "rusts through", "2 mm"),
    ("drum.water = 16 l", "thrown out of the vent", "79 %"),
    ("drum.water = 0 l", "0 l of water", "0 l"),
    ("drum.vent = 5 mm", "holds back", "5 mm"),
    ("drum.baffle_spacing = 600 mm", "leaves no baffles", "600 mm"),
    ("drum.baffle_fit = 8 mm", "slips past", "32 %"),
    ("drum.diameter = 300 mm", "larger than the firebox", "300 mm"),
    ("firebox.wall.1.thickness = 1 mm", "burns through", "1 mm"),
    ("firebox.wall.1.material = mineral wool", "stands 600 C", "700 C"),
    ("wood.moisture = 30 %", "is wet", "30 %"),
    ("fire.burning_depth = 300 mm", "is taken as 210 mm", "300 mm"),
    ("firing.1.do = add 0.5 kg", "the sticks stay cold", "0 times"),
    ("firing.3.do = rake the grate", "adds 0 kg", "150 g"),
    ("firing.1.at = 2 h", "after the end of the firing", "120 min"),
    ("fire.kind = none", "changes nothing", "1 times"),
    ("drum.gap = 5 mm; drum.baffle_spacing = 450 mm; gas_path.drum_pass.cells = 1",
     "heat transfer units", "cells: "),
    ("day.air = -5 C; drum.water_temperature = 10 C", "freezes", "-5 C"),
    ("title = as it is", "measured up to 0.17", "1.0 of the mean"),
]


@pytest.mark.parametrize(("change", "words", "number"), WARNED, ids=[row[0] for row in WARNED])
def test_warned(load: Load, change: str, words: str, number: str) -> None:
    warnings = derive(load(*change.split("; "))).warnings
    found = [line for line in warnings if words in line]
    assert len(found) == 1, warnings
    assert number in found[0]


@pytest.mark.parametrize("words", [
    "soot", "rusts", "is wet", "burns through", "cold", "heat transfer units",
    "vent", "freezes", "no ash door", "leaks", "stands"])
def test_not_warned_without_cause(load: Load, words: str) -> None:
    assert not [line for line in derive(load()).warnings if words in line]


def test_no_ash_door(load: Load) -> None:
    swaps = {"    sill: 30 mm\n    below_grate: yes\n": "    sill: 200 mm\n"}
    assert any("no ash door" in line for line in derive(load(swaps=swaps)).warnings)


def test_opening_off_its_joint(load: Load) -> None:
    swaps = {"  feed:": "  clean_out:\n    at: stub\n    width: 80 mm\n    height: 60 mm\n  feed:"}
    found = [line for line in derive(load(swaps=swaps)).warnings if "look at its sill" in line]
    assert len(found) == 1
    assert "700 mm" in found[0]


def test_every_warning_is_a_sentence_with_a_number(load: Load) -> None:
    for change, _, _ in WARNED:
        for line in derive(load(*change.split("; "))).warnings:
            assert re.search(r"\d", line), line
            assert line[0] in "'" or line[0].isupper(), line
            assert line.endswith("."), line


def test_odd_plants_are_told_too(load: Load, stove: str) -> None:
    drum = stove[stove.index("drum:\n"):stove.index("firing:")]
    around = "  - name: drum_pass\n    kind: round the drum\n"
    alone = derive(load(swaps={drum: "", around: ""}))
    assert not any(row.label.startswith("drum") for row in alone.quantities)
    chimney = stove[stove.index("  - name: stub"):stove.index("drum:\n")]
    ends = derive(load("openings.feed.column = 0 mm", "openings.feed.sill = 500 mm",
                       swaps={chimney: ""}))
    assert any("0 m of chimney" in line for line in ends.warnings)
    assert derive(load("openings.ash_door.width = 0 mm")).quantities
    assert derive(load("drum.water = 0 l", "fire.kind = none")).quantities


def test_shipped_scenarios_are_told(shipped: list[Path]) -> None:
    for path in shipped:
        told = derive(load_scenario(path))
        assert len({(row.group, row.label) for row in told.quantities}) == len(told.quantities)


def test_expected_exchange_is_near_that_of_a_run(solved: Callable[..., Any]) -> None:
    """The figures of `check` at the run's own flow against the run's gauges, the last minutes."""
    run = solved("given_fire")
    tree, plant, names = (run.assembly.scenario.tree, run.assembly.plant,
                          run.assembly.draft.index.names)
    steady = (run.times > 35 * 60) & (run.times < 45 * 60)
    flow = float(run.gauge("chimney_flow")[steady].mean())
    for one in pass_flows(tree, flow):
        cells = [c for c in plant.cells if names[int(c["at"])].startswith(f"{one.name}_")]
        ntu = [float(run.gauges[steady, int(c["gauge"]) + 1].mean()) for c in cells]
        Re = [float(run.gauges[steady, int(c["gauge"]) + 2].mean()) for c in cells]
        assert len(ntu) == one.cells
        assert 0.6 < one.ntu / (sum(ntu) / len(ntu)) < 1.6, one
        assert 0.75 < one.reynolds / (sum(Re) / len(Re)) < 1.35, one


def test_a_run_carries_its_warnings(solved: Callable[..., Any]) -> None:
    run = solved("given_fire")
    scenario = run.assembly.scenario
    warnings = warnings_of(scenario, run.assembly, run)
    peak = run.solution.trajectory(run.times)
    firebox = max(peak[:, spot.state].max() for spot in run.assembly.draft.spots
                  if spot.part == "firebox" and spot.side == "inside") - 273.15
    steel = [line for line in warnings if line.startswith("The inside of the firebox")]
    assert len(steel) == (firebox > 511.0)
    assert all(f"{firebox:.0f} C" in line and "over 510 C" in line for line in steel)
    for line in warnings:
        assert re.search(r"\d", line), line
        assert line.endswith("."), line


def test_cells_too_coarse_for_a_run_are_told(solved: Callable[..., Any]) -> None:
    """The same run, with every heat transfer number of its gauges taken three times."""
    run = solved("given_fire")
    cell = run.assembly.plant.cells[0]
    place = int(cell["gauge"]) + 1
    kept = run.gauges[:, place].copy()
    try:
        run.gauges[:, place] = 2.0
        told = [line for line in warnings_of(run.assembly.scenario, run.assembly, run)
                if "heat transfer units" in line]
    finally:
        run.gauges[:, place] = kept
    assert len(told) == 1
    assert "'drum_pass'" in told[0]
    assert "most 2.0" in told[0]


def test_dew_point_of_the_gas_in_a_run(solved: Callable[..., Any]) -> None:
    """Hardwood at 20 % moisture burnt at air ratio 1 to 4 gives 5-18 % vapour by volume: dew
    points between 33 C and 58 C (EN 13384-1 annex B gives about 46 C for wood, from memory)."""
    from thermsim.network.run_warnings import dew_points

    run = solved("given_fire")
    steady = (run.times > 35 * 60) & (run.times < 45 * 60)
    dew = dew_points(run.assembly, run.solution.trajectory(run.times[steady])) - 273.15
    assert dew.min() > 33.0
    assert dew.max() < 58.0
