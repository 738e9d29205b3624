"""A sweep gives what each scenario gives alone, by any number of workers, and takes up its work."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from thermsim.batches import job as job_module
from thermsim.batches import pool
from thermsim.batches.batch import read_batch
from thermsim.batches.job import failed
from thermsim.batches.plan import AGAIN_FAILED, NEW, make_plan
from thermsim.batches.store import Store
from thermsim.batches.sweep import Sweep, Watcher, earlier, estimate, run_sweep, sweep
from thermsim.batches.table import CLOCK, answer_columns, flat_answers
from thermsim.errors import ResultsError, ScenarioError
from thermsim.simulation import load_scenario, simulate
from thermsim.solver import Settings

Write = Callable[..., Path]
GAPS = "axes:\n  - field: drum.gap\n    values: [15 mm, 25 mm, 40 mm]\n"


def without_clock(table: pd.DataFrame) -> pd.DataFrame:
    return table.drop(columns=CLOCK)


def test_a_case_is_the_same_scenario_run_alone(write_batch: Write) -> None:
    path = write_batch(GAPS)
    table = run_sweep(path, jobs=1)
    for gap, row in zip((15, 25, 40), table.to_dict("records"), strict=True):
        alone = simulate(load_scenario(path.parent / "short.yaml",
                                       (f"drum.gap = {gap} mm",))).summary
        for key in ("heat_released_J", "flue_temperature_peak_C", "ledger_error",
                    "draught_peak_Pa"):
            assert row[key] == alone[key], key
        assert row["peak_temperature_firebox_C"] == alone["peak_temperature_C"]["firebox"]


def test_any_number_of_workers_and_any_order_give_the_same_numbers(write_batch: Write) -> None:
    path = write_batch(GAPS)
    one, two = run_sweep(path, jobs=1), run_sweep(path, jobs=2)
    pd.testing.assert_frame_equal(without_clock(one), without_clock(two), check_exact=True)
    turned = run_sweep(write_batch(GAPS.replace("15 mm, 25 mm, 40 mm", "40 mm, 15 mm, 25 mm")))
    sorted_back = turned.sort_values("drum_gap_mm").reset_index(drop=True)
    pd.testing.assert_frame_equal(without_clock(one), without_clock(sorted_back),
                                  check_exact=True)


def test_finished_firings_are_not_fired_again(write_batch: Write, tmp_path: Path) -> None:
    store = tmp_path / "kept"
    first = run_sweep(write_batch(GAPS), jobs=1, store=store)
    wider = read_batch(write_batch(GAPS.replace("40 mm", "40 mm, 60 mm")))
    plan = make_plan(wider, Settings(), Store(store), {})
    assert [job.number for job in plan.jobs] == [3]
    assert plan.reasons == {NEW: 1}
    again = sweep(wider, 1, Store(store)).table
    pd.testing.assert_frame_equal(first, again.iloc[:3], check_exact=True, check_dtype=False)
    told = estimate(plan, Store(store), 1)
    assert told.measured == 4
    assert told.seconds is not None
    assert told.seconds > 0.0


def test_what_changed_is_said(write_batch: Write, tmp_path: Path) -> None:
    store, out = Store(tmp_path / "kept"), tmp_path / "out"
    path = write_batch(GAPS)
    sweep(read_batch(path), 1, store).save(out)
    base = path.parent / "short.yaml"
    base.write_text(base.read_text().replace("3 kW", "4 kW", 1))
    plan = make_plan(read_batch(path), Settings(), store, earlier(out))
    assert plan.reasons == {"changed: the scenario": 3}
    plan = make_plan(read_batch(path), Settings(rtol=1e-4), store, earlier(out))
    assert plan.reasons == {"changed: the scenario and the solver's settings": 3}


def test_failed_cases_are_rows_and_fired_again(write_batch: Write, tmp_path: Path,
                                               monkeypatch: pytest.MonkeyPatch) -> None:
    path, store = write_batch(GAPS), Store(tmp_path)
    whole = job_module._record

    def sometimes(job: Any) -> dict[str, Any]:
        return failed("failed", "made to fail") if job.number == 1 else whole(job)

    monkeypatch.setattr(job_module, "_record", sometimes)
    done = sweep(read_batch(path), 1, store)
    assert list(done.table["outcome"])[1] == "failed"
    assert list(done.table["reason"])[1] == "made to fail"
    assert done.failed == [1]
    monkeypatch.undo()
    plan = make_plan(read_batch(path), Settings(), store, {})
    assert plan.reasons == {AGAIN_FAILED: 1}
    assert sweep(read_batch(path), 1, store).failed == []


def test_sizes_that_do_not_go_together_are_rows_that_say_so(write_batch: Write) -> None:
    table = run_sweep(write_batch("axes:\n  - field: drum.water\n    values: [5 l, 900 l]\n"), 1)
    assert list(table["outcome"])[1] == "cannot_be_built"
    assert "drum.water" in table["reason"][1]


def test_mistakes_stop_before_anything_is_fired(write_batch: Write) -> None:
    fired: list[int] = []
    for text, line, found in (
        ("axes:\n  - field: drum.gapp\n    values: [5 mm, 6 mm]\n", 6, "gapp"),
        ("axes:\n  - field: drum.gap\n    values: [5 mm, 6 kg]\n", 6, "6 kg"),
        ("cases:\n  - name: one\n    changes: [drum.gap = wide]\n", 6, "wide"),
    ):
        with pytest.raises(ScenarioError) as caught:
            sweep(read_batch(write_batch(text)), 1,
                  watcher=Watcher(done=lambda number, record: fired.append(number)))
        problem = caught.value.problems[0]
        assert (problem.line, found in str(problem)) == (line, True), str(problem)
        assert problem.file.endswith("batch.yaml")
    assert not fired


def test_equal_cases_are_fired_once(write_batch: Write) -> None:
    count: list[int] = []
    done = sweep(read_batch(write_batch(
        "axes:\n  - field: drum.gap\n    values: [25 mm, 2.5 cm]\n")), 1,
        watcher=Watcher(done=lambda number, record: count.append(number)))
    assert count == [0]
    assert done.table["heat_released_J"].nunique() == 1
    assert done.table["heat_released_J"].notna().all()


def test_an_interrupted_sweep_keeps_what_is_done(write_batch: Write, tmp_path: Path) -> None:
    def after_two(number: int, record: dict[str, Any]) -> None:
        if number == 1:
            raise KeyboardInterrupt

    store = Store(tmp_path)
    done = sweep(read_batch(write_batch(GAPS)), 1, store, watcher=Watcher(done=after_two))
    assert done.stopped
    assert list(done.table["outcome"])[2] == "not_run"
    assert len(list(store.all())) == 2


def test_workers_that_keep_dying_end_in_rows(write_batch: Write,
                                             monkeypatch: pytest.MonkeyPatch) -> None:
    class Dead(Exception):
        pass

    def dying(*_: Any) -> Any:
        raise Dead

    monkeypatch.setattr(pool, "_results", dying)
    monkeypatch.setattr(pool, "deadly", lambda: (Dead,))
    said: list[str] = []
    done = sweep(read_batch(write_batch(GAPS)), 2, watcher=Watcher(says=said.append))
    assert list(done.table["outcome"]) == ["failed"] * 3
    assert "died" in done.table["reason"][0]
    assert len(said) == pool.MOST_DEATHS


def test_only_the_answers_asked_for(write_batch: Write, tmp_path: Path) -> None:
    text = GAPS + "answers: [flue_temperature_peak_C, peak_temperature_firebox_C]\n"
    done = sweep(read_batch(write_batch(text)), 1)
    assert list(done.table.columns) == [
        "drum_gap_mm", "outcome", "reason", "flue_temperature_peak_C",
        "peak_temperature_firebox_C", CLOCK]
    done.save(tmp_path / "out")
    back = pd.read_csv(tmp_path / "out" / "firings.csv")
    assert list(back.columns) == list(done.table.columns)
    assert back["flue_temperature_peak_C"].to_numpy() == pytest.approx(
        done.table["flue_temperature_peak_C"].to_numpy(), rel=1e-8)


def test_an_answer_that_no_firing_gives_is_told(write_batch: Write) -> None:
    path = write_batch(GAPS + "answers: [flue_temperature_peak]\n")
    with pytest.raises(ScenarioError, match="did you mean 'flue_temperature_peak_C'") as caught:
        make_plan(read_batch(path), Settings(), None, {})
    assert caught.value.problems[0].line == 7


def test_answers_known_beforehand_are_those_of_a_firing(write_batch: Write) -> None:
    path = write_batch(GAPS)
    base = load_scenario(path.parent / "short.yaml")
    given = set(flat_answers(simulate(base).summary))
    turned = {name for name in answer_columns(base) if name.startswith("flow_turned")}
    assert given - turned == set(answer_columns(base)) - turned


def test_a_store_that_cannot_be_written_is_told(write_batch: Write, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(ResultsError, match="cannot be written"):
        run_sweep(write_batch(GAPS), store=tmp_path / "file" / "kept")


def test_the_record_says_what_was_varied(write_batch: Write) -> None:
    plan = make_plan(read_batch(write_batch(GAPS)), Settings(), None, {})
    record = Sweep(plan).record()
    assert record["axes"] == [{"field": ["drum.gap"], "unit": "mm", "column": "drum_gap_mm",
                               "values": ["15 mm", "25 mm", "40 mm"]}]
    assert record["provenance"]["hash"] == plan.base.hash
    assert len(record["identities"]) == 3
