"""Sweeps case by case, met by where they lie on the axes."""

from __future__ import annotations

import random
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermsim.comparing import compare
from thermsim.comparing.comparison import compare_things
from thermsim.comparing.solver_error import Documented
from thermsim.comparing.sweeps import case_words
from thermsim.comparing.things import SWEEP, Thing
from thermsim.errors import ResultsError

HEAD = ("drum_gap_mm,baffle_mm,outcome,time_to_boil_s,peak_temperature_C_stub,solve_seconds\n")
BEFORE = HEAD + ("15,80,boiled,2500,90,0.3\n15,110,boiled,2400,95,0.3\n25,80,boiled,1900,150,0.3\n"
                 "25,110,boiled,1860,152,0.3\n")
AFTER = HEAD + ("35,80,boiled,1700,160,0.9\n25,110,boiled,1800,155,0.9\n"
                "25.0,80.0,boiled,1900.5,150.2,0.9\n15,110,smothered,,60,0.9\n"
                "15,80,boiled,2500,90,0.9\n")


def test_cases_are_met_by_their_axes(sweep: Callable[..., str]) -> None:
    made = compare(sweep("before", BEFORE), sweep("after", AFTER))
    cases = made.cases.set_index(["case", "name"])
    assert len(made.cases) == 4 * 3
    boil = cases.loc[("drum gap 25 mm, baffle 110 mm", "time_to_boil_s")]
    assert (boil["before"], boil["after"], boil["difference after"]) == (1860.0, 1800.0, -60.0)
    assert boil["ratio after"] == pytest.approx(1800.0 / 1860.0)
    assert not cases.loc[("drum gap 15 mm, baffle 80 mm", "time_to_boil_s")]["difference after"]


def test_largest_over_the_cases(sweep: Callable[..., str]) -> None:
    """The boil that did not happen goes first; stub 95 to 60; of three boils one is noise."""
    made = compare(sweep("before", BEFORE), sweep("after", AFTER))
    found = made.outputs.set_index("name")
    assert found.loc["time_to_boil_s", "at"] == "drum gap 15 mm, baffle 110 mm"
    assert found.loc["peak_temperature_C_stub", "difference"] == -35.0
    assert list(found["places"]) == [4, 4, 4]
    assert list(found["places beyond"]) == [1, 2, 2]
    assert "solve_seconds" not in found.index


def test_cases_that_only_one_has_are_said(sweep: Callable[..., str]) -> None:
    made = compare(sweep("before", BEFORE), sweep("after", AFTER))
    assert made.notes[-1] == "Only in after, not in before: drum gap 35 mm, baffle 80 mm."
    story = "\n".join(made.words())
    assert "4 cases are in the first and in another." in story
    assert "1 end differently in after, as that with drum gap 15 mm, baffle 110 mm: boiled in " \
        "before, smothered in after." in story


def test_named_cases(sweep: Callable[..., str]) -> None:
    text = "case,outcome,time_to_boil_s\nas it is,boiled,1800\ntall,boiled,1700\n"
    made = compare(sweep("a", text), sweep("b", text.replace("1700", "1600")))
    assert "Time to boil differs most with tall: 28 min 20 s in a, 26 min 40 s in b" in \
        "\n".join(made.words())


def test_the_same_place_twice_is_met_in_order(sweep: Callable[..., str]) -> None:
    text = "drum_gap_mm,outcome,time_to_boil_s\n15,boiled,1\n15,boiled,2\n"
    made = compare(sweep("a", text), sweep("b", text.replace("boiled,2", "boiled,900")))
    assert made.largest[1].at == "drum gap 15 mm, (again, 1)"
    assert made.largest[1].difference == 898.0


def test_other_axes_cannot_be_met(sweep: Callable[..., str]) -> None:
    other = "drum_gap_mm,outcome,time_to_boil_s\n15,boiled,1\n"
    with pytest.raises(ResultsError, match=r"those of .* in drum_gap_mm, baffle_mm"):
        compare(sweep("a", BEFORE), sweep("b", other))


def test_the_order_of_axes_does_not_matter(sweep: Callable[..., str]) -> None:
    a = "x_mm,y_mm,outcome,time_to_boil_s\n1,2,boiled,10\n2,1,boiled,20\n"
    b = "y_mm,x_mm,outcome,time_to_boil_s\n2,1,boiled,10\n1,2,boiled,20\n"
    assert compare(sweep("a", a), sweep("b", b)).verdicts == []


def test_inputs_of_the_base(
    sweep: Callable[..., str], changed_scenario: Callable[..., str]
) -> None:
    made = compare(sweep("a", BEFORE, changed_scenario()),
                   sweep("b", BEFORE, changed_scenario("drum.water = 12 l")))
    assert made.inputs["name"].tolist() == ["drum.water"]
    assert made.inputs["difference b"].tolist() == pytest.approx([2.0])


def test_answers_that_one_lacks_are_said(sweep: Callable[..., str]) -> None:
    less = "drum_gap_mm,outcome\n15,boiled\n"
    more = "drum_gap_mm,outcome,time_to_boil_s\n15,boiled,1800\n"
    made = compare(sweep("a", less), sweep("b", more))
    assert "Column only in b: time_to_boil_s." in made.notes
    assert made.verdicts == []


def test_a_sweep_is_no_run(sweep: Callable[..., str], run: Callable[..., str]) -> None:
    with pytest.raises(ResultsError, match=r"is a run and .* is a sweep: they share no table"):
        compare(sweep("a", BEFORE), run("b"))


def test_named_cases_beside_a_grid(sweep: Callable[..., str]) -> None:
    text = "drum_gap_mm,case,outcome,time_to_boil_s\n15,,boiled,1800\n,tall,boiled,1700\n"
    made = compare(sweep("a", text), sweep("b", text.replace("1700", "1600")))
    assert [one.at for one in made.largest] == ["drum gap 15 mm", "tall"]


def test_a_thousand_cases_take_no_time(sweep: Callable[..., str]) -> None:
    import time

    head = "gap_mm,outcome," + ",".join(f"flow_{k}_g" for k in range(40)) + "\n"
    rows = [f"{k},boiled,{','.join(str(k + j) for j in range(40))}" for k in range(1000)]
    paths = sweep("a", head + "\n".join(rows)), sweep("b", head + "\n".join(reversed(rows)))
    began = time.perf_counter()
    assert compare(*paths).verdicts == []
    assert time.perf_counter() - began < 5.0


def test_a_case_in_words() -> None:
    assert case_words(["chimney_height_m", "wood_kind"], ("2.5", "ash", 0)) == \
        "chimney height 2.5 m, wood ash kind"


def table(cells: list[tuple[float, float | None]]) -> Thing:
    import pandas as pd

    rows = [(gap, "boiled" if boil is not None else "smothered", boil) for gap, boil in cells]
    return Thing("s", "s", SWEEP, firings=pd.DataFrame(
        rows, columns=["drum_gap_mm", "outcome", "time_to_boil_s"]))


CELLS = st.lists(st.tuples(st.floats(1.0, 99.0), st.none() | st.floats(1.0, 1e4)), min_size=1,
                 max_size=6, unique_by=lambda cell: f"{cell[0]:.9g}")


@given(cells=CELLS, seed=st.integers(0, 99))
def test_the_order_of_rows_does_not_matter(cells: list[tuple[float, float | None]],
                                           seed: int) -> None:
    mixed = list(cells)
    random.Random(seed).shuffle(mixed)
    made = compare_things([table(cells), table(mixed)], Documented())
    assert made.verdicts == []
    assert not any(one.changed for one in made.largest)


@given(a=CELLS, b=CELLS)
def test_the_other_way_round_the_sign_turns(a: list[tuple[float, float | None]],
                                            b: list[tuple[float, float | None]]) -> None:
    def differences(first: Thing, other: Thing) -> dict[str, float | None]:
        rows = compare_things([first, other], Documented()).case_rows
        return {case: row.difference(1) for case, row in rows if row.name == "time_to_boil_s"}

    there, back = differences(table(a), table(b)), differences(table(b), table(a))
    assert there == {case: None if gap is None else -gap for case, gap in back.items()}
