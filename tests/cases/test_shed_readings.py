"""Invented readings of two firings: against the plant they were read at, and against the scenario.

The plant they were made from is known (tests/invented_readings.py): held against it, misses must be
what the instruments' uncertainties say, one slip apart; held against the scenario, which is another
plant, they must not.
"""

from __future__ import annotations

import importlib.util
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest

import thermsim
from thermsim.readings.file import load_readings
from thermsim.readings.firings import known_of, read_firing
from thermsim.readings.held import Held, hold
from thermsim.readings.known import Known
from thermsim.readings.reading import VALUE
from thermsim.readings.residuals import residuals
from thermsim.readings.words import tell
from thermsim.readings.written import table_of

ROOT = Path(__file__).parents[2]
FIRST = ("cold_start", "shed_readings")
SECOND = ("shed_second_firing", "shed_readings_second")
SLIP_SPOT = "stub 1 outside"


def script() -> Any:
    spec = importlib.util.spec_from_file_location("invented_readings",
                                                  ROOT / "tests" / "invented_readings.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


TRUTH = script().TRUTH


@pytest.fixture
def held(fired: Callable[..., Any]) -> Callable[..., Held]:
    def make(names: tuple[str, str], *changes: str) -> Held:
        result = fired(names[0], *changes)
        as_scenario = Known(Known.of(result).columns, fired(names[0]).scenario)
        return hold(load_readings(ROOT / "scenarios" / f"{names[1]}.csv", as_scenario), result)

    return make


@pytest.mark.parametrize("names", [FIRST, SECOND], ids=lambda names: names[1])
def test_true_plant_meets_its_readings(names: tuple[str, str], held: Callable[..., Held]) -> None:
    """Chi squared a reading: 1 is expected; of 45 and more, 0.5 to 1.6 holds 99 of 100."""
    made = held(names, *TRUTH)
    values = np.array([row.weighted for row in made.rows if row.reading.says == VALUE])
    values = values[abs(values) < 5.0]  # without the slip
    assert len(values) > 40
    assert 0.5 < float(np.mean(values**2)) < 1.6
    assert made.all.agreeing >= 0.93 * made.all.readings - 1
    assert all(row.agrees for row in made.counted if row.reading.one_sided)


@pytest.mark.parametrize("names", [FIRST, SECOND], ids=lambda names: names[1])
def test_scenario_is_another_plant(names: tuple[str, str], held: Callable[..., Held]) -> None:
    other, true = held(names), held(names, *TRUTH)
    assert other.all.rms_in_uncertainties > 2.0 * true.all.rms_in_uncertainties
    found = residuals(other.file, other.result)
    assert np.isfinite(found).all()
    assert len(found) == len(other.file)


def test_slip_is_found(held: Callable[..., Held]) -> None:
    for changes in ((), TRUTH):
        told = [line for line in tell(held(FIRST, *changes)) if "stands apart" in line]
        assert len(told) == 1
        assert SLIP_SPOT in told[0]
    assert not [line for line in tell(held(SECOND, *TRUTH)) if "stands apart" in line]


def test_files_say_that_they_are_invented(held: Callable[..., Held]) -> None:
    for names in (FIRST, SECOND):
        assert "invented" in held(names).file.comments[0]


def test_committed_results(held: Callable[..., Held]) -> None:
    """Frozen numbers of our own: they prove that nothing changed, no more."""
    committed = pd.read_csv(ROOT / "results_demo" / "shed_readings" / "readings.csv")
    now = table_of(held(FIRST))
    assert committed["spot"].tolist() == now["spot"].tolist()
    assert committed["model"].to_numpy(dtype=float) == pytest.approx(
        now["model"].to_numpy(dtype=float), rel=0.005, abs=1.0, nan_ok=True)


def test_saved_and_fired_give_the_same(fired: Callable[..., Any], tmp_path: Path) -> None:
    result = fired("cold_start")
    result.save(tmp_path / "run")
    saved = read_firing(str(tmp_path / "run"))
    file = thermsim.load_readings(ROOT / "scenarios" / "shed_readings.csv", result)
    again = thermsim.load_readings(ROOT / "scenarios" / "shed_readings.csv", saved)
    assert residuals(again, saved) == pytest.approx(residuals(file, result), abs=1e-4)


@pytest.mark.parametrize("name", ["cold_start", "steam_to_engine", "given_fire"])
def test_first_seconds_tell_all_names(name: str, fired: Callable[..., Any]) -> None:
    result = fired(name)
    assert known_of(result.scenario).columns == tuple(result.series.columns)
