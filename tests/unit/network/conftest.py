"""A small invented stove as text, and what the checks find in it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from shipped import FOLDER, SCENARIOS

from thermsim.errors import Problem, ScenarioError
from thermsim.network.checks import CHECKS
from thermsim.scenario import load_scenario, load_text

STOVE = """\
thermsim: 1
title: Steam raiser of an invented apple-press shed
day:
  air: 12 C
wood:
  thickness: 25 mm
firebox:
  width: 250 mm
  depth: 300 mm
  height: 350 mm
  wall:
    - material: mild steel
      thickness: 3 mm
openings:
  ash_door:
    width: 160 mm
    height: 90 mm
    sill: 30 mm
    below_grate: yes
  feed:
    width: 140 mm
    height: 140 mm
    sill: 850 mm
    faces: up
    column: 350 mm
gas_path:
  - name: drum_pass
    kind: round the drum
  - name: stub
    kind: round duct
    diameter: 130 mm
    length: 200 mm
    rise: 200 mm
    wall:
      - material: mild steel
        thickness: 2 mm
  - name: chimney
    kind: chimney
    diameter: 130 mm
    length: 2.4 m
drum:
  diameter: 250 mm
  length: 450 mm
  water: 10 l
  gap: 25 mm
  baffle_spacing: 110 mm
  casing:
    - material: mild steel
      thickness: 2 mm
firing:
  - at: 0 s
    do: light the fire
  - when: flue above 120 C
    do: shut ash_door
  - when: wood below 0.3 kg
    do: add 0.5 kg
    again: yes
"""


@pytest.fixture(scope="session")
def stove() -> str:
    return STOVE


@pytest.fixture(scope="session")
def shipped() -> list[Path]:
    return SCENARIOS


@pytest.fixture(scope="session")
def load() -> Callable[..., Any]:
    """`load(changes, swaps)`: the stove with changes and with texts swapped, checks passed."""

    def loaded(*changes: str, swaps: dict[str, str] | None = None) -> Any:
        return load_text(_swapped(swaps), changes, name="stove.yaml", checks=CHECKS)

    return loaded


@pytest.fixture(scope="session")
def find(load: Callable[..., Any]) -> Callable[..., list[Problem]]:
    """`find(changes, swaps)`: the problems of the stove."""

    def found(*changes: str, swaps: dict[str, str] | None = None) -> list[Problem]:
        try:
            load(*changes, swaps=swaps)
        except ScenarioError as error:
            return error.problems
        return []

    return found


@pytest.fixture(scope="session")
def load_shipped() -> Callable[..., Any]:
    def loaded(name: str, *changes: str) -> Any:
        return load_scenario(FOLDER / f"{name}.yaml", changes, checks=CHECKS)

    return loaded


def _swapped(swaps: dict[str, str] | None) -> str:
    text = STOVE
    for old, new in (swaps or {}).items():
        assert old in text, old
        text = text.replace(old, new, 1)
    return text
