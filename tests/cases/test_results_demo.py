"""The committed results of the cold start are what the code gives, and the README quotes them.

Frozen numbers of our own: they prove that nothing changed, no more. Remade as DEVELOPERS.md says.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermsim.results.words import NUMBERS, numbers

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "results_demo"
RUN, CHECK = DEMO / "cold_start", DEMO / "cold_start_check"
FIGURES = ("temperatures", "draught_and_flows", "heat_flows", "where_the_heat_went")
TABLES = ("series.csv", "events.csv", "ledger.csv", "summary.json", "scenario.yaml")

SHARE = 0.005
"""an answer may differ by this share of itself"""
SECOND, KELVIN = 1.0, 1.0
LEAST = 1e-3
"""answers smaller than this are rounding (smoke of an opening that has none, in g)"""
NOT_ANSWERS = {"solve_seconds", "solver", "provenance", "ledger_error", "model_states", "schema",
               "hazards"}
MOST_BYTES = 10_000_000
CLOCK_OR_MACHINE = re.compile(
    r"\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}|(?<![\w.])/(?:home|root|tmp|Users)/")
ROW = re.compile(r"^\| (?P<asked>[^|]+) \| (?P<answer>[^|]+) \|$", re.MULTILINE)


@pytest.fixture(scope="module")
def committed() -> dict[str, Any]:
    return json.loads((RUN / "summary.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def result(fired: Callable[..., Any]) -> Any:
    return fired("cold_start")


def leaves(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every value of nested answers with its path; lists whole, unless they hold rows."""
    if isinstance(value, list) and value and all(isinstance(one, dict) for one in value):
        value = {str(i): one for i, one in enumerate(value)}
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, f"{path}.{key}" if path else key)
    else:
        yield path, value


def is_near(path: str, new: Any, old: Any) -> bool:
    """Within half a percent; moments within a second, temperatures within a kelvin."""
    if isinstance(new, bool) or not all(isinstance(one, int | float) for one in (new, old)):
        return bool(new == old)
    allowed = max(SHARE * abs(old), LEAST)
    names = path.split(".")
    if names[0].endswith("_s") or names[-1] == "seconds":
        allowed = max(allowed, SECOND)
    if names[0].endswith("_C"):
        allowed = max(SHARE * abs(old), KELVIN)
    return abs(new - old) <= allowed


def test_answers(result: Any, committed: dict[str, Any]) -> None:
    new = {k: v for k, v in leaves(result.summary) if k.split(".")[0] not in NOT_ANSWERS}
    old = {k: v for k, v in leaves(committed) if k.split(".")[0] not in NOT_ANSWERS}
    del new["warnings"], old["warnings"]  # sentences with rounded numbers in them
    assert new.keys() == old.keys()
    assert not {k: (new[k], old[k]) for k in new if not is_near(k, new[k], old[k])}


def test_hazards(result: Any, committed: dict[str, Any]) -> None:
    """By verdict: their sentences hold rounded numbers."""
    new, old = ({one["check"]: one["verdict"] for one in summary["hazards"]}
                for summary in (result.summary, committed))
    assert new == old


def test_made_from_the_scenario_as_it_is(result: Any, committed: dict[str, Any]) -> None:
    made_from = committed["provenance"]
    assert made_from["hash"] == result.scenario.hash
    assert made_from["changes"] == []
    assert made_from["scenario"] == "scenarios/cold_start.yaml"
    assert (RUN / "scenario.yaml").read_text(encoding="utf-8") == result.scenario.text
    assert committed["model_states"] == result.summary["model_states"]
    assert committed["schema"] == result.summary["schema"]


def test_temperatures_against_time(result: Any) -> None:
    """Within a kelvin, or within what the old curve does in a second either way."""
    old, new = pd.read_csv(RUN / "series.csv"), result.series
    assert list(old.columns) == list(new.columns)
    time = old["time_s"].to_numpy()
    np.testing.assert_allclose(new["time_s"], time)
    shifts = np.linspace(-SECOND, SECOND, 5)
    for name in (c for c in old.columns if c.startswith("temperature_")):
        shifted = np.array([np.interp(time + s, time, old[name]) for s in shifts])
        low, high = shifted.min(axis=0) - KELVIN, shifted.max(axis=0) + KELVIN
        values = new[name].to_numpy()
        wrong = time[(values < low) | (values > high)]
        assert not len(wrong), f"{name} at {wrong[:5]} s"


def test_events(result: Any) -> None:
    """The same things in the same order, apart from such as fall within a second."""
    columns = ["event", "where", "note"]
    old = pd.read_csv(RUN / "events.csv", keep_default_na=False).sort_values([*columns, "time_s"])
    new = result.events.fillna("").sort_values([*columns, "time_s"])
    assert old[columns].to_numpy().tolist() == new[columns].to_numpy().tolist()
    np.testing.assert_allclose(new["time_s"], old["time_s"], atol=SECOND, rtol=0.0)


def test_ledger(result: Any) -> None:
    old, new = pd.read_csv(RUN / "ledger.csv"), result.ledger
    assert old["row"].tolist() == new["row"].tolist()
    assert old["label"].tolist() == new["label"].tolist()
    np.testing.assert_allclose(new["share_of_fuel"], old["share_of_fuel"], atol=LEAST)


def test_all_files_are_there_and_small() -> None:
    drawn = {f"{name}.{kind}" for name in FIGURES for kind in ("png", "svg")}
    assert {path.name for path in RUN.iterdir()} == {*TABLES, *drawn}
    assert {path.name for path in CHECK.iterdir()} == {"cut_through.png", "cut_through.svg"}
    assert sum(path.stat().st_size for path in DEMO.rglob("*") if path.is_file()) < MOST_BYTES


def test_no_clock_and_no_machine_in_it() -> None:
    texts = [path for path in DEMO.rglob("*") if path.suffix in (".csv", ".json", ".yaml", ".svg")]
    assert texts
    assert not [path for path in texts
                if CLOCK_OR_MACHINE.search(path.read_text(encoding="utf-8"))]


def test_readme_quotes_the_committed_numbers(committed: dict[str, Any]) -> None:
    rows = dict(ROW.findall((ROOT / "README.md").read_text(encoding="utf-8")))
    told = dict(numbers(committed))
    quoted = {asked: rows[asked] for asked, *_ in NUMBERS if asked in rows}
    assert len(quoted) >= 10
    assert quoted == {asked: told[asked] for asked in quoted}
