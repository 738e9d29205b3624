"""What is written under `do` and `when`, read word for word."""

from __future__ import annotations

import pytest

from thermsim.errors import QuantityError
from thermsim.network.firing import Condition, Deed, parse_condition, parse_deed, self_acting
from thermsim.network.node_index import NodeIndex


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("light the fire", Deed("light", text="light the fire")),
        ("add 0.5 kg", Deed("add", amount=0.5, text="add 0.5 kg")),
        ("shut the ash door", Deed("set", "ash_door", 0.0, text="shut the ash door")),
        ("set feed to 30 %", Deed("set", "feed", 0.3, text="set feed to 30 %")),
        ("pour 2 l", Deed("pour", amount=0.002, text="pour 2 l")),
        ("rake the grate", Deed("rake", text="rake the grate")),
        ("heat chimney 800 W for 3 min",
         Deed("heat", "chimney", 800.0, 180.0, "heat chimney 800 W for 3 min")),
        ("gust of 20 Pa for 5 s", Deed("gust", "", 20.0, 5.0, "gust of 20 Pa for 5 s")),
        ("gust of -1 mbar for 1 min", Deed("gust", "", -100.0, 60.0, "gust of -1 mbar for 1 min")),
        ("jam the safety valve", Deed("jam", "safety_valve", text="jam the safety valve")),
        ("free sticks", Deed("free", "sticks", text="free sticks")),
        ("stop", Deed("stop", text="stop")),
    ],
)
def test_deeds(text: str, wanted: Deed) -> None:
    assert parse_deed(text) == wanted


def test_poured_water_may_have_a_temperature() -> None:
    assert parse_deed("pour 1 l at 15 C").second == pytest.approx(288.15)


@pytest.mark.parametrize(
    ("text", "kind", "place", "value"),
    [
        ("flue above 120 C", "above", "flue", 393.15),
        ("wood below 300 g", "below", "wood", 0.3),
        ("10 min after boiling", "after", "boiling", 600.0),
        ("the char bed above 500 C", "above", "char_bed", 773.15),
        ("water above 60 C", "above", "water_temperature", 333.15),
    ],
)
def test_conditions(text: str, kind: str, place: str, value: float) -> None:
    found = parse_condition(text)
    assert (found.kind, found.place) == (kind, place)
    assert found.value == pytest.approx(value)
    assert isinstance(found, Condition)


@pytest.mark.parametrize("text", ["fly", "add some", "add 5 min", "set feed to", "gust of 20 Pa",
                                  "gust of 5 s for 20 Pa", "jam"])
def test_deeds_that_cannot_be_read_say_what_can(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_deed(text)


def test_an_unknown_event_names_those_there_are() -> None:
    with pytest.raises(QuantityError) as told:
        parse_condition("5 min after boilin")
    assert "boiling" in told.value.allowed


def test_names_of_states_are_taken_once() -> None:
    index = NodeIndex()
    index.add("bed", "solid", 300.0)
    with pytest.raises(ValueError, match="two states"):
        index.add("bed", "solid", 300.0)
    with pytest.raises(ValueError, match="unknown kind"):
        index.add("other", "colour", 1.0)


def test_what_works_by_itself_is_shut_when_it_jams() -> None:
    drum = {"stop_valve": {}, "safety_valve": {"can_be_shut_off": False}, "vacuum_valve": None}
    tree = {"drum": drum, "feed": {"Hand pump": {}}, "fire": {"kind": "sticks"}}
    assert self_acting(tree) == ["safety_valve", "hand_pump", "sticks"]
    assert self_acting({**tree, "fire": {"kind": "given"}}) == ["safety_valve", "hand_pump"]


def test_nothing_is_colder_than_absolute_zero() -> None:
    with pytest.raises(QuantityError, match="colder than anything can be"):
        parse_condition("flue above -500 C")
    assert parse_condition("flue above -270 C").value == pytest.approx(3.15)
