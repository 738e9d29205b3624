"""The firing log: what stays from row to row, and every mistake with line and column."""

from __future__ import annotations

from pathlib import Path

import pytest

from thermsim.errors import ResultsError, ScenarioError
from thermsim.readings.firing_log import FiringLog, changes_in, load_log

SCENARIOS = Path(__file__).parents[3] / "scenarios"
PLANT = "thermsim: 1\nstarts_from: cold_start.yaml\n"


@pytest.fixture
def log(tmp_path: Path) -> object:
    """A log beside the shipped cold start, written and read."""
    text = (SCENARIOS / "cold_start.yaml").read_text("utf-8")
    (tmp_path / "cold_start.yaml").write_text(text, "utf-8")
    (tmp_path / "other.yaml").write_text(PLANT + "drum:\n  gap: 30 mm\n", "utf-8")
    (tmp_path / "first.csv").write_text("time,spot,quantity,reading,unit\n", "utf-8")

    def make(*lines: str) -> FiringLog:
        (tmp_path / "log.csv").write_text("\n".join(lines) + "\n", "utf-8")
        return load_log(tmp_path / "log.csv")

    return make


HEAD = "date,scenario,changed,wood,day,feeding,readings,remarks"


def test_changes_and_wood_stay_day_and_feeding_do_not(log) -> None:
    made = log(
        HEAD,
        "2026-09-01,cold_start.yaml,drum.gap = 20 mm,moisture = 30 %,air = 3 C,drum.water = 7 l,,",
        "2026-09-02,,drum.plate = 5 mm,,,,first.csv,thicker",
        "2026-09-03,other.yaml,,moisture = 15 %,air = 20 C,,,")
    trees = [one.scenario.tree for one in made.firings]
    assert [round(1e3 * tree.drum.gap, 6) for tree in trees] == [20.0, 20.0, 20.0]
    assert [round(1e3 * tree.drum.plate, 6) for tree in trees] == [4.0, 5.0, 5.0]
    assert [round(tree.wood.moisture, 6) for tree in trees] == [0.30, 0.30, 0.15]
    assert [round(tree.day.air - 273.15, 6) for tree in trees] == [3.0, 12.0, 20.0]
    assert [round(1e3 * tree.drum.water, 6) for tree in trees] == [7.0, 10.0, 10.0]
    assert [one.own_wood for one in made.firings] == [True, False, True]
    assert [one.changed for one in made.firings] == [("drum.gap = 20 mm",), ("drum.plate = 5 mm",),
                                                    ()]
    assert made.firings[1].readings is not None
    assert made.firings[1].readings.endswith("first.csv")
    assert made.firings[1].remarks == "thicker"


def test_a_layer_is_taken_off_and_put_on_again(log) -> None:
    made = log(HEAD, "2026-09-01,cold_start.yaml,drum.casing.blanket = none,,,,,",
               '2026-09-02,,"drum.casing.2 = {material: blanket, thickness: 30 mm}",,,,,')
    layers = [one.scenario.tree.drum.casing for one in made.firings]
    assert [len(some) for some in layers] == [1, 2]
    assert layers[1][1].thickness == pytest.approx(0.03)


def test_found_by_date_row_and_last(log) -> None:
    made = log(HEAD, "2026-09-01 09:00,cold_start.yaml,,,,,,", "2026-09-01 15:30,,,,,,,",
               "2026-09-02,,,,,,,")
    assert made.find("2026-09-02") is made.find("3") is made.find("last")
    assert made.find("2026-09-01 15:30") is made.firings[1]
    with pytest.raises(ResultsError, match="several firings are called '2026-09-01'"):
        made.find("2026-09-01")
    with pytest.raises(ResultsError, match="no firing is called '4'"):
        made.find("4")


def test_every_mistake_at_once_with_line_and_column(log) -> None:
    with pytest.raises(ScenarioError) as told:
        log("# invented", HEAD, "yesterday,cold_start.yaml,,,,,,",
            "2026-09-02,,drum.gapp = 3 mm,,,,,", "2026-09-01,,,moisture = 90 %,,,nix.csv,",
            "2026-09-05,missing.yaml,,,,,,", "2026-09-06,cold_start.yaml,,,,,,,extra")
    places = {(one.line, one.path): one for one in told.value.problems}
    assert places[3, "date"].column == 1
    assert "no date" in places[3, "date"].found
    assert places[4, "changed"].column == 13
    assert "drum.gapp" in places[4, "changed"].found
    assert "not later" in places[5, "date"].found
    assert "60 %" in places[5, "wood"].allowed
    assert "no file 'nix.csv'" in places[5, "readings"].found
    assert "no file 'missing.yaml'" in places[6, "scenario"].found
    assert "under no column" in places[7, ""].found


@pytest.mark.parametrize(("lines", "found"), [
    ((), "no line"),
    ((HEAD,), "no firing stands in it"),
    (("when,scenario", "2026-09-01,cold_start.yaml"), "unknown column"),
    (("scenario", "cold_start.yaml"), "there is no such column"),
    ((HEAD, "2026-09-01,,,,,,,"), "nothing is written"),
    (("date,date,scenario", "2026-09-01,2026-09-02,cold_start.yaml"), "a second column"),
])
def test_heads_and_empty_files(lines: tuple[str, ...], found: str, log) -> None:
    with pytest.raises(ScenarioError, match=found):
        log(*lines)


def test_changes_of_a_cell_are_parted_outside_brackets() -> None:
    text = "drum.casing = [{material: mild steel; thickness: 2 mm}]; drum.gap = 20 mm"
    assert changes_in(text) == ("drum.casing = [{material: mild steel; thickness: 2 mm}]",
                                "drum.gap = 20 mm")


def test_shipped_log_says_that_it_is_invented() -> None:
    assert "invented" in (SCENARIOS / "firing_log.csv").read_text("utf-8").splitlines()[0]
    assert len(load_log(SCENARIOS / "firing_log.csv").firings) == 3
