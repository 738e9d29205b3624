"""What a run relies on: laws of the parts it has, each with a source."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest
from shipped import FOLDER, SCENARIOS

from thermsim.cli.main import main
from thermsim.loading import load_scenario
from thermsim.network.relied_on import ReliedOn, material_sources, relied_on

DEFINITIONS = {"ignition_flux", "oxygen_demand", "smooth_minimum", "span_mean", "steel_heat",
               "root_density_ratio", "emissive_rise", "rounded_plus", "rounded_size",
               "larger_of"}
"""laws that follow from a definition or a balance alone"""


def laws_of(name: str, *changes: str) -> dict[str, ReliedOn]:
    scenario = load_scenario(FOLDER / f"{name}.yaml", changes)
    return {law.law: law for law in relied_on(scenario.tree)}


def test_every_law_has_a_source() -> None:
    laws = laws_of("cold_start", "openings.ash_door.below_grate = no",
                   "openings.ash_door.sill = 160 mm")
    assert {name for name, law in laws.items()
            if law.source == "a definition or a balance"} <= DEFINITIONS
    assert all(law.source and law.gives for law in laws.values())


def test_the_laws_are_those_of_the_parts_there() -> None:
    sticks, given = laws_of("cold_start"), laws_of("given_fire")
    assert "Churchill and Chu" in sticks["upright_plate_nusselt"].source
    assert "from memory" in sticks["slot_nusselt"].source
    assert "char_burn_rate" in sticks
    assert "char_burn_rate" not in given
    assert "upright_opening" not in sticks  # its door is below the grate, its feed lies level
    doors = laws_of("cold_start", "openings.ash_door.below_grate = no",
                    "openings.ash_door.sill = 160 mm")
    assert "upright_opening" in doors


@pytest.mark.parametrize("name", [path.stem for path in SCENARIOS])
def test_every_material_has_its_sources(name: str) -> None:
    found = material_sources(load_scenario(FOLDER / f"{name}.yaml").tree)
    assert "mild steel" in found
    assert all(sources for sources in found.values())


def test_told_and_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    file = str(FOLDER / "cold_start.yaml")
    assert main(["sources", file]) == 0
    told = capsys.readouterr().out
    assert told.index("Laws") < told.index("Materials") < told.index("Measured")
    assert main(["sources", file, "--json"]) == 0
    made = json.loads(capsys.readouterr().out)
    assert {"laws", "materials", "values"} <= set(made)
    assert {"subject", "module", "law", "gives", "source", "holds"} == set(made["laws"][0])


def test_bad_input_is_told(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    bad = tmp_path / "bad.yaml"
    bad.write_text("drum:\n  diamter: 300 mm\n", encoding="utf-8")
    assert main(["sources", str(bad)]) == 2
    assert "did you mean 'diameter'?" in capsys.readouterr().err


def test_laws_are_read_without_the_compiler() -> None:
    """Reading docstrings loads nothing; materials alone need the compiler's package."""
    import subprocess

    code = ("import sys; from thermsim.loading import load_scenario as l;"
            "from thermsim.network.relied_on import relied_on;"
            f"relied_on(l({str(FOLDER / 'cold_start.yaml')!r}).tree);"
            "sys.exit('numba' in sys.modules)")
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
