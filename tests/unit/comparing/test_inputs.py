"""Inputs of two scenarios leaf by leaf: what is the same however written, and what is not."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from thermsim.comparing.inputs import changed_inputs, input_difference
from thermsim.comparing.things import RUN, Thing

ADD = "firing = [{at: 0 s, do: add 800 g}, {at: 0 s, do: light the fire}, "
SHUT = "{when: flue above 120 C, do: shut ash_door}"
FEED = "{when: wood below 0.3 kg, do: add 0.6 kg, again: yes}"


def things(*texts: str | None) -> list[Thing]:
    return [Thing(f"t{k}", f"t{k}", RUN, scenario_text=text) for k, text in enumerate(texts)]


@pytest.fixture
def rows(changed_scenario: Callable[..., str]) -> Callable[..., dict[str, tuple[str, ...]]]:
    """`rows(*changes)`: texts of the inputs that changes of the cold start make differ."""

    def find(*changes: str) -> dict[str, tuple[str, ...]]:
        found = changed_inputs(things(changed_scenario(), changed_scenario(*changes)))
        assert not found.notes
        return {row.name: row.texts for row in found.rows}

    return find


def test_a_size_in_its_unit(changed_scenario: Callable[..., str]) -> None:
    """25 mm to 1 1/2 in: 38.1 mm, 13.1 mm more, 1.524 times."""
    texts = changed_scenario(), changed_scenario("drum.gap = 1 1/2 in")
    row = changed_inputs(things(*texts)).rows[0]
    assert (row.name, row.unit, row.texts) == ("drum.gap", "mm", ("25 mm", "1 1/2 in"))
    assert row.values == pytest.approx((25.0, 38.1))
    assert row.difference(1) == pytest.approx(13.1)
    assert row.ratio(1) == pytest.approx(1.524)
    assert input_difference(row, 1) == "+13.1 mm"


def test_a_temperature_has_no_ratio_and_differs_in_kelvin(
    changed_scenario: Callable[..., str]
) -> None:
    row = changed_inputs(things(changed_scenario(), changed_scenario("day.air = 2 C"))).rows[0]
    assert row.values == pytest.approx((12.0, 2.0))
    assert row.ratio(1) is None
    assert input_difference(row, 1) == "-10 K"


@pytest.mark.parametrize("same", ["drum.gap = 0.025 m", "day.air = 285.15 K",
                                  f"{ADD}{SHUT}, {FEED}]", "firebox.width = 25 cm"])
def test_other_spellings_are_the_same(rows: Callable[..., dict[str, tuple[str, ...]]],
                                      same: str) -> None:
    assert rows(same) == {}


def test_a_doubt_is_noted_and_no_input(changed_scenario: Callable[..., str]) -> None:
    """Runs use the middle."""
    texts = changed_scenario(), changed_scenario("drum.gap = 25 mm +- 3 mm")
    found = changed_inputs(things(*texts))
    assert found.rows == []
    assert found.notes == ["Written with another doubt, of which no run makes use: drum.gap."]


def test_a_default_written_out_is_the_same(rows: Callable[..., dict[str, tuple[str, ...]]]
                                           ) -> None:
    assert rows("wood.moisture = 0.2") == {}


def test_defaults_count(rows: Callable[..., dict[str, tuple[str, ...]]]) -> None:
    """How the wood was stored decides its moisture where that is not written."""
    found = rows("wood.stored = under a roof two summers")
    assert found["wood.stored"] == ("under a roof one summer", "under a roof two summers")
    first, second = found["wood.moisture"]
    assert first == "20 % (default)"
    assert second.endswith("% (default)")
    assert second != first


def test_what_one_has_and_the_other_not(rows: Callable[..., dict[str, tuple[str, ...]]]) -> None:
    found = rows("drum.vent = none", "openings.feed.column = none")
    assert all("not there" in texts or "(default)" in " ".join(texts) for texts in found.values())
    assert found


def test_a_deed_put_in_between_does_not_shift_the_rest(
    rows: Callable[..., dict[str, tuple[str, ...]]]
) -> None:
    found = rows(f"{ADD}{{at: 9 min, do: rake the grate}}, {SHUT}, {FEED}]")
    assert found == {"firing, 1 after 2": ("not there", "at 9 min: rake the grate")}


def test_another_moment_of_the_door_is_one_line(
    rows: Callable[..., dict[str, tuple[str, ...]]]
) -> None:
    found = rows(f"{ADD}{{at: 60 s, do: shut ash_door}}, {FEED}]")
    assert found == {"firing.3": ("when flue above 120 C: shut ash_door",
                                  "at 60 s: shut ash_door")}


def test_three_at_once(changed_scenario: Callable[..., str]) -> None:
    texts = [changed_scenario(*changes) for changes in ((), ("drum.gap = 15 mm",),
                                                        ("day.air = 2 C",))]
    rows = {row.name: row.texts for row in changed_inputs(things(*texts)).rows}
    assert rows == {"day.air": ("12 C", "12 C", "2 C"), "drum.gap": ("25 mm", "15 mm", "25 mm")}


def test_no_scenario_known(changed_scenario: Callable[..., str]) -> None:
    found = changed_inputs(things(changed_scenario(), None))
    assert found.rows == []
    assert "behind t1" in found.notes[0]


def test_a_scenario_of_another_version_is_compared_as_written(
    changed_scenario: Callable[..., str]
) -> None:
    newer = changed_scenario().replace("gap: 25 mm", "gap: 30 mm\n  colour: black")
    found = changed_inputs(things(changed_scenario(), newer))
    assert {row.name: row.texts for row in found.rows} == {
        "drum.gap": ("25 mm", "30 mm"), "drum.colour": ("not there", "black")}
    assert "as written" in found.notes[0]
    assert "drum.colour: unknown key" in found.notes[0]


def test_a_text_that_is_no_scenario(changed_scenario: Callable[..., str]) -> None:
    found = changed_inputs(things(changed_scenario(), "[1, 2"))
    assert found.rows == []
    assert "not compared" in found.notes[0]
