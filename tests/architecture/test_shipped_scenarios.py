"""The shipped scenarios load, are written alike, and differ in what they say they differ in."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from shipped import BATCHES, CALIBRATIONS, FOLDER, SCENARIOS

import thermsim
from thermsim.batches.batch import read_batch
from thermsim.calibrating.from_file import read_calibration
from thermsim.cli.new import starter_text
from thermsim.scenario import Values, load_scenario, load_text

FLOW_OR_QUOTES = re.compile(r"[\[\]{}\"']")
NAMES = {"cold_start", "door_too_soon", "dry_test", "water_after_dry", "given_fire",
         "chimney_blanket"}


def loaded(name: str) -> Any:
    return load_scenario(FOLDER / f"{name}.yaml").tree


def plain(value: Any) -> Any:
    """Values as dictionaries and lists, to compare them."""
    if isinstance(value, Values):
        return {key: plain(inner) for key, inner in value.items()}
    return [plain(inner) for inner in value] if isinstance(value, list) else value


def test_all_are_here() -> None:
    assert {path.stem for path in SCENARIOS} >= NAMES


@pytest.mark.parametrize("path", SCENARIOS, ids=lambda p: p.stem)
def test_loads_and_is_called_invented(path: Path) -> None:
    assert "invented" in load_scenario(path).tree.title


@pytest.mark.parametrize("path", BATCHES, ids=lambda p: p.stem)
def test_batches_load_and_are_called_invented(path: Path) -> None:
    batch = read_batch(path)
    assert "invented" in batch.title
    assert len(batch.cases) >= 6


@pytest.mark.parametrize("path", CALIBRATIONS, ids=lambda p: p.stem)
def test_calibrations_load_and_are_called_invented(path: Path) -> None:
    made = read_calibration(path)
    assert "invented" in made.title
    assert len(made.varied) >= 4


@pytest.mark.parametrize("path", [*SCENARIOS, *BATCHES, *CALIBRATIONS], ids=lambda p: p.stem)
def test_block_style_without_quotes(path: Path) -> None:
    lines = [line for line in path.read_text(encoding="utf-8").splitlines()
             if FLOW_OR_QUOTES.search(line.split("#")[0])]
    assert not lines


def test_starter_loads() -> None:
    tree = load_text(starter_text(), name="shed.yaml").tree
    assert {"ash_door", "feed"} == set(tree.openings)


def test_door_too_soon_differs_only_in_the_moment_of_the_door() -> None:
    cold, soon = plain(loaded("cold_start")), plain(loaded("door_too_soon"))
    different = [(a, b) for a, b in zip(cold["firing"], soon["firing"], strict=True) if a != b]
    assert len(different) == 1
    door, too_soon = different[0]
    assert door["do"] == too_soon["do"] == ["shut ash_door"]
    assert cold | {"firing": None} == soon | {"firing": None}


def test_dry_and_pour() -> None:
    dry, poured = loaded("dry_test"), loaded("water_after_dry")
    assert dry.drum.water == poured.drum.water == 0.0
    assert any("pour 2 l" in act for entry in poured.firing for act in entry.do)


def test_package_holds_its_starter() -> None:
    assert (Path(thermsim.__file__).parent / "scenario" / "starter" / "shed.yaml").is_file()
