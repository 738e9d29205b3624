"""The solver's error: bounds that are documented, and one that is measured."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pandas as pd
import pytest

from thermsim.comparing import compare
from thermsim.comparing.behind import check_same, run_behind
from thermsim.comparing.from_files import read_thing
from thermsim.comparing.measured import Measured
from thermsim.comparing.solver_error import Documented, looser
from thermsim.comparing.things import SERIES, Thing
from thermsim.errors import ResultsError
from thermsim.results.result import Result

RUN = Thing("a", "a", "run", summary={"solver": {"rtol": 1e-5}})


def test_bounds_are_those_of_the_tests_of_accuracy() -> None:
    """1 s and 0.5 K, as tests/exact/test_accuracy.py holds them; at 1e-4 ten times that."""
    loose = Thing("b", "b", "run", summary={"solver": {"rtol": 1e-4}})
    tight = Thing("c", "c", "run", summary={"solver": {"rtol": 1e-8}})
    found = Documented()
    assert [found.answer(one, "time_to_boil_s", 1800.0) for one in (RUN, loose, tight)] == [
        1.0, pytest.approx(10.0), 1.0]
    assert found.answer(RUN, "peak_temperature_C.stub", 152.0) == 0.5
    assert found.answer(RUN, "heat_released_J", 3e7) == pytest.approx(3e4)
    assert found.series(RUN, "temperature_water_C", 99.0) == 0.5


def test_what_has_no_figure_has_no_error() -> None:
    assert Documented().answer(RUN, "time_to_boil_s", None) is None
    assert Documented().answer(RUN, "tar_furlong", 3.0) is not None
    assert Documented().series(RUN, "length_mm", 3.0) is None


@pytest.mark.parametrize("summary", [None, {}, {"solver": []}, {"solver": {"rtol": None}}])
def test_a_run_that_does_not_say_its_tolerance(summary: dict[str, object] | None) -> None:
    assert looser(Thing("a", "a", SERIES, summary=summary)) == 1.0


def test_measured_is_what_a_tighter_run_differs(run: Callable[..., str],
                                                series: pd.DataFrame) -> None:
    """The boil 0.2 s and the water 0.01 K off: 0.5 s and 0.05 K are then more than the error."""
    usual = read_thing(run("usual"))
    warm = series.assign(temperature_water_C=series["temperature_water_C"] + 2.0)
    tighter = read_thing(run("tighter", series=warm, time_to_boil_s=1800.2,
                             evaporation_rate_kg_per_h=None))
    found = Measured(usual, tighter)
    assert found.answer(usual, "time_to_boil_s", 1800.0) == pytest.approx(0.2)
    assert found.answer(usual, "evaporation_rate_kg_per_h", 8.0) is None
    # rising by half a kelvin a second, two kelvin are one and a half after a second's moving
    assert found.series(usual, "temperature_water_C", 60.0) == pytest.approx(1.5)
    assert found.series(usual, "not_there_C", 60.0) is None
    assert found.event(usual, ("boiling", "drum", "", "")) == 0.0
    assert found.ledger(usual, "flue_gas") == 0.0
    assert "usual" in found.says


def result_of(folder: str, **provenance: str) -> Result:
    thing = read_thing(folder)
    assert thing.summary is not None
    summary = {**thing.summary, "provenance": {**thing.summary["provenance"], **provenance}}
    assert thing.series is not None
    assert thing.events is not None
    assert thing.ledger is not None
    return Result(None, thing.series, thing.events, thing.ledger, summary)


def test_compare_with_a_tighter_run(run: Callable[..., str]) -> None:
    """A boil half a second later is noise by the documented bound, and more by the measured."""
    a, b = run("a"), run("b", time_to_boil_s=1800.5)
    assert compare(a, b).verdicts == [False]
    made = compare(a, b, tighter=result_of(run("again", time_to_boil_s=1800.1)))
    assert made.verdicts == [True]
    assert "Measured by solving a again" in "\n".join(made.words())


def test_a_tighter_run_of_something_else_is_refused(run: Callable[..., str]) -> None:
    a = run("a")
    with pytest.raises(ResultsError, match="of another scenario"):
        compare(a, run("b"), tighter=result_of(a, hash="other"))
    notes = check_same(read_thing(a), result_of(a, version="0.2.0"))
    assert "made by version 0.1.0, and solved again by 0.2.0" in notes[0]


def test_the_run_behind_a_folder(demo: str, run: Callable[..., str]) -> None:
    scenario, rtol = run_behind(demo)
    summary = read_thing(demo).summary
    assert summary is not None
    assert scenario.hash == summary["provenance"]["hash"]
    assert rtol == 1e-5
    for wrong in (f"{demo}/series.csv", f"{demo}/summary.json"):
        with pytest.raises(ResultsError, match="folder of a run"):
            run_behind(wrong)
    with pytest.raises(ResultsError, match="no tolerance"):
        run_behind(run("odd", solver={"rtol": "fine"}))


def test_scenario_as_a_file_does_when_the_summary_has_none(run: Callable[..., str]) -> None:
    import json

    folder = Path(run("first"))
    summary = json.loads((folder / "summary.json").read_text())
    del summary["provenance"]
    (folder / "summary.json").write_text(json.dumps(summary))
    assert run_behind(str(folder))[0].tree.drum.gap == 0.025
