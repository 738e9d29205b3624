"""What every test may use: reference values with their sources, and shipped scenarios solved."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

REFERENCES = Path(__file__).parent / "references"
SCENARIOS = Path(__file__).parents[1] / "scenarios"


class ReferenceRow(NamedTuple):
    """A value from outside: what it is, at which inputs, how far to trust it."""

    id: str
    topic: str
    quantity: str
    inputs: dict[str, Any]
    value: float
    unit: str
    rel_tol: float
    source: str
    basis: str
    note: str


def read_table(topic: str) -> list[dict[str, str]]:
    """All rows of tests/references/<topic>.csv as text by column."""
    with (REFERENCES / f"{topic}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def read_rows(topic: str, quantity: str | None = None) -> list[ReferenceRow]:
    """The rows of a file in the common columns, all or those of one quantity."""
    rows = [
        ReferenceRow(
            **{
                **row,
                "inputs": json.loads(row["inputs"]),
                "value": float(row["value"]),
                "rel_tol": float(row["rel_tol"]),
            }  # type: ignore[arg-type]
        )
        for row in read_table(topic)
    ]
    chosen = [row for row in rows if quantity is None or row.quantity == quantity]
    assert chosen, f"no rows of {quantity!r} in {topic}.csv"
    return chosen


def hold_rows(topic: str, quantity: str, law: Callable[..., float]) -> None:
    """Assert that `law(**inputs)`, in the row's unit, meets every row of a quantity."""
    misses = []
    for row in read_rows(topic, quantity):
        found = law(**row.inputs)
        if not abs(found - row.value) <= row.rel_tol * abs(row.value):
            misses.append(f"{row.id} {row.inputs}: {found:.9g}, {row.source} has {row.value:.9g}")
    assert not misses, "\n".join(misses)


@pytest.fixture(scope="session")
def reference_rows() -> Callable[..., list[ReferenceRow]]:
    """`reference_rows(topic, quantity=None)`: rows of tests/references/<topic>.csv."""
    return read_rows


@pytest.fixture(scope="session")
def reference_table() -> Callable[[str], list[dict[str, str]]]:
    """`reference_table(topic)`: a file of other columns, as text."""
    return read_table


@pytest.fixture(scope="session")
def assert_reference() -> Callable[[str, str, Callable[..., float]], None]:
    """`assert_reference(topic, quantity, law)`: law(**inputs) meets each row of the quantity."""
    return hold_rows


@pytest.fixture(scope="session")
def scenarios() -> Path:
    """The folder of the shipped scenarios."""
    return SCENARIOS


@pytest.fixture(scope="session")
def fired() -> Callable[..., Any]:
    """`fired(name, *changes, tighten=1.0)`: result of a shipped scenario, solved once a session."""
    from thermsim.simulation import load_scenario, simulate
    from thermsim.solver import Settings

    @cache
    def fire(name: str, *changes: str, tighten: float = 1.0) -> Any:
        scenario = load_scenario(SCENARIOS / f"{name}.yaml", changes)
        return simulate(scenario, Settings(tighten=tighten))

    return fire


@pytest.fixture(scope="session")
def solved() -> Callable[..., Any]:
    """`solved(name, *changes, tighten=1.0)`: as `fired`, but with all states, account and plant."""
    from thermsim.firing import Hands, make_agenda
    from thermsim.network.assemble import assemble
    from thermsim.network.system import PlantSystem
    from thermsim.simulation import load_scenario, read_firing
    from thermsim.solver import Settings, solve

    @cache
    def fire(name: str, *changes: str, tighten: float = 1.0) -> Any:
        scenario = load_scenario(SCENARIOS / f"{name}.yaml", changes)
        system = PlantSystem(assemble(scenario))
        hands = Hands(system)
        agenda = make_agenda(system, hands)
        solution = solve(system, system.start, scenario.tree.outputs.until, agenda,
                         Settings(tighten=tighten))
        return read_firing(system, solution, hands)

    return fire
