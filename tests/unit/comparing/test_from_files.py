"""What a path names is told by what it holds; each bad one is a clear line."""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermsim.comparing import compare
from thermsim.comparing.from_files import read_thing
from thermsim.comparing.things import RUN, SERIES, SUMMARY, SWEEP, Thing, with_own_names
from thermsim.comparing.written import as_json
from thermsim.errors import ResultsError

FIRINGS = "drum_gap_mm,outcome,time_to_boil_s,solve_seconds\n15,boiled,1800,0.3\n"


def test_a_runs_folder(demo: str) -> None:
    thing = read_thing(demo)
    assert (thing.kind, thing.name) == (RUN, "cold_start")
    assert thing.summary is not None
    assert thing.summary["outcome"] == "boiled"
    assert thing.series is not None
    assert len(thing.series) == 601
    assert thing.scenario_text is not None
    assert thing.scenario_text.startswith("thermsim: 1")
    assert thing.schema == 1


@pytest.mark.parametrize(("file", "kind"), [("series.csv", SERIES), ("summary.json", SUMMARY)])
def test_files_of_a_run(demo: str, file: str, kind: str) -> None:
    thing = read_thing(f"{demo}/{file}")
    assert (thing.kind, thing.name) == (kind, "cold_start")


def test_sweeps_and_their_tables(sweep: Callable[..., str], tmp_path: Path) -> None:
    folder = read_thing(sweep("before", FIRINGS, "thermsim: 1\n"))
    assert (folder.kind, folder.name, len(folder.axes)) == (SWEEP, "before", 1)
    assert folder.scenario_text == "thermsim: 1\n"
    assert read_thing(str(tmp_path / "before" / "firings.csv")).kind == SWEEP
    alone = tmp_path / "mine.csv"
    alone.write_text(FIRINGS)
    assert (read_thing(str(alone)).name, read_thing(str(alone)).scenario_text) == ("mine", None)


def test_a_run_without_its_tables_is_a_run_all_the_same(run: Callable[..., str]) -> None:
    folder = Path(run("first"))
    for name in ("series.csv", "events.csv", "ledger.csv", "scenario.yaml"):
        (folder / name).unlink()
    thing = read_thing(str(folder))
    assert thing.kind == RUN
    assert thing.series is None
    assert thing.scenario_text is not None


WRONG = [
    ("summary.json", '{\n "outcome": "boiled",\n "x" 1\n}', "summary.json:3:6: broken JSON"),
    ("summary.json", "[1]", "no block of names and values"),
    ("summary.json", '{"a": 1}', "no 'outcome' in it"),
    ("summary.json", '{"outcome": "x", "provenance": [1]}', "'provenance' is no block"),
    ("summary.json", '{"axes": []}', "name the sweep's folder"),
    ("series.csv", "time_min,water\n0,1\n", "no column time_s"),
    ("series.csv", "", "the file is empty"),
    ("series.csv", "time_s,a\n", "headers but no rows"),
    ("series.csv", "time_s,a\n0,1\n5,warm\n", "series.csv:3: 'warm' in column a is no number"),
    ("series.csv", "time_s,a\n0,1\n9,1\n5,1\n", "series.csv:4: time_s must be"),
    ("series.csv", "time_s,a\n0,1\n,1\n", "series.csv:3: time_s must be"),
    ("series.csv", 'time_s,a\n0,"1\n', "no table of values"),
    ("events.csv", "time_s,event,where,note\n0,act,x,\n", "name the run's folder"),
    ("firings.csv", "outcome,time_to_boil_s\nboiled,1\n", "no axis column"),
    ("notes.txt", "mine", "cannot be compared; name a run's folder"),
]


@pytest.mark.parametrize(("name", "text", "says"), WRONG)
def test_a_bad_file_is_told_in_a_line(tmp_path: Path, name: str, text: str, says: str) -> None:
    (tmp_path / name).write_text(text)
    with pytest.raises(ResultsError) as caught:
        read_thing(str(tmp_path / name))
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)
    assert name in str(caught.value)


def test_bytes_that_are_no_text(tmp_path: Path) -> None:
    for name in ("series.csv", "summary.json"):
        (tmp_path / name).write_bytes(b"\xff\xfe\x00time")
        with pytest.raises(ResultsError, match="UTF-8"):
            read_thing(str(tmp_path / name))


def test_folders_that_are_none(tmp_path: Path, run: Callable[..., str]) -> None:
    with pytest.raises(ResultsError, match="nowhere: no such file or folder"):
        read_thing("nowhere")
    with pytest.raises(ResultsError, match=r"no summary.json or firings.csv in it"):
        read_thing(str(tmp_path))
    folder = Path(run("first"))
    (folder / "summary.json").unlink()
    with pytest.raises(ResultsError, match=r"its series alone is .*series.csv"):
        read_thing(str(folder))


def test_a_table_of_a_run_that_lacks_a_column(run: Callable[..., str]) -> None:
    with pytest.raises(ResultsError, match=r"ledger.csv: no column share_of_fuel"):
        read_thing(run("first", ledger="row,energy_J\nfuel,1\n"))


def test_broken_batch_is_told(sweep: Callable[..., str], tmp_path: Path) -> None:
    folder = sweep("before", FIRINGS)
    (tmp_path / "before" / "batch.json").write_text('{"provenance": 3}')
    with pytest.raises(ResultsError, match=r"batch\.json"):
        read_thing(folder)


CELLS = st.sampled_from(["time_s", "outcome", "event", "a", "", "0", "5", "-1e400", "nan", "boiled",
                         '"', "12,5", "\x00", "é"])
TABLES = st.lists(st.lists(CELLS, max_size=4).map(",".join), max_size=5).map("\n".join)
JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.sampled_from(["a", ""]),
    lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.sampled_from(
        ["outcome", "provenance", "solver", "rtol", "out_of_range", "peak_temperature_C",
         "time_to_boil_s", "warnings", "libraries"]), inner, max_size=4), max_leaves=8)


@given(text=TABLES)
def test_any_table_is_read_or_told(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    path = tmp_path_factory.getbasetemp() / "any.csv"
    path.write_text(text, encoding="utf-8")
    with suppress(ResultsError):
        compare(path, path)


@given(held=JSON)
def test_any_summary_is_compared_or_told(tmp_path_factory: pytest.TempPathFactory,
                                         held: object) -> None:
    path = tmp_path_factory.getbasetemp() / "any.json"
    path.write_text(json.dumps(held))
    with suppress(ResultsError):
        made = compare(path, path)
        assert made.verdicts == []
        assert json.loads(as_json(made))["words"]


def test_names_are_made_different() -> None:
    things = [Thing("run", "a/run", RUN), Thing("run", "b/run", RUN), Thing("other", "other", RUN),
              Thing("unit", "unit", RUN)]
    assert [one.name for one in with_own_names(things)] == ["a/run", "b/run", "other", "unit (2)"]
    twice = with_own_names([things[0], things[0]])
    assert [one.name for one in twice] == ["a/run", "a/run (2)"]
