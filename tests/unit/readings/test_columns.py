"""The file of readings: written and read back, and mistakes told with line and column."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.errors import ScenarioError
from thermsim.readings.columns import (
    COLUMNS,
    NAMES,
    QUANTITIES,
    parse_readings,
    read_readings,
    write_readings,
)

HEAD = "time,spot,quantity,reading,unit,note\n"


def mistakes(text: str) -> list[str]:
    with pytest.raises(ScenarioError) as told:
        parse_readings(text, "r.csv")
    return [str(problem) for problem in told.value.problems]


def test_the_first_six_columns_stay_as_they_are() -> None:
    """Files that people have filled in must stay readable."""
    assert NAMES[:6] == ("time", "spot", "quantity", "reading", "unit", "note")
    assert all(not column.needed for column in COLUMNS[5:])


def test_read_in_si() -> None:
    found = parse_readings(HEAD + "12 min 30 s,flue,temperature,145,C,by the door\n"
                           "1 h,drum,pressure,2.5,bar(g),\n20 min,glass,water level,,%,\n")
    assert [one.time for one in found] == [750.0, 3600.0, 1200.0]
    assert found[0].value == pytest.approx(418.15)
    assert (found[0].note, found[0].line) == ("by the door", 2)
    assert found[1].value == pytest.approx(2.5e5)
    assert found[2].value is None


def test_a_reading_may_carry_its_doubt() -> None:
    one = parse_readings(HEAD + "1 min,flue,temperature,145 +- 5,C,\n")[0]
    assert (one.low, one.high) == pytest.approx((413.15, 423.15))


def test_columns_may_stand_in_any_order_and_the_note_be_missing() -> None:
    one = parse_readings("unit,reading,quantity,spot,time\nPa,8.5,draught,foot,3 min\n")[0]
    assert (one.value, one.spot, one.note) == (8.5, "foot", "")


@pytest.mark.parametrize(("text", "place", "says"), [
    ("5,flue,temperature,3,C,\n", "r.csv:2:1 time", "no unit"),
    ("5 C,flue,temperature,3,C,\n", "r.csv:2:1 time", "a time is wanted"),
    ("-5 min,flue,temperature,3,C,\n", "r.csv:2:1 time", "before lighting"),
    ("5 min,,temperature,3,C,\n", "r.csv:2:7 spot", "nothing is written"),
    ("5 min,flue,temprature,3,C,\n", "r.csv:2:12 quantity", "did you mean 'temperature'"),
    ("5 min,flue,temperature,hot,C,\n", "r.csv:2:24 reading", "not a number"),
    ("5 min,flue,temperature,3,bar,\n", "r.csv:2:26 unit", "no unit of temperature"),
    ("5 min,drum,pressure,3,bar,\n", "r.csv:2:23 unit", "bar(g)"),
    ("5 min,drum,pressure,3,,\n", "r.csv:2:23 unit", "no unit of pressure"),
    ("5 min,flue,temperature,3,C,a,b\n", "r.csv:2:30", "behind the last column"),
    ("5 min\n", "r.csv:2:6 spot", "nothing is written"),
])
def test_mistakes_have_line_and_column(text: str, place: str, says: str) -> None:
    told = mistakes(HEAD + text)
    assert any(one.startswith(place) and says in one for one in told), told


def test_all_mistakes_at_once() -> None:
    told = mistakes(HEAD + "5,flue,temperature,3,C,\n\n6 min,flue,wind,3,C,\n")
    assert [one.split(" ")[0] for one in told] == ["r.csv:2:1", "r.csv:4:12"]


@pytest.mark.parametrize(("head", "says"), [
    ("", "no line stands in it"), ("time,spot,quantity,reading,units\n", "did you mean 'unit'"),
    ("time,spot,quantity,reading,unit,unit\n", "a second column"),
    ("time,spot,reading,unit\n", "quantity: there is no such column")])
def test_the_first_line_is_held(head: str, says: str) -> None:
    assert any(says in one for one in mistakes(head))


def test_a_file_that_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "r.csv"
    path.write_bytes(b"\xff\xfe\x00t")
    with pytest.raises(ScenarioError, match="UTF-8"):
        read_readings(path)


TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1,
                max_size=12).filter(lambda text: text == text.strip() and text.strip(',"'))


@settings(max_examples=60)
@given(spot=TEXTS, note=TEXTS, number=st.floats(-200, 900), quantity=st.sampled_from(["draught"]))
def test_what_is_written_reads_back(spot: str, note: str, number: float, quantity: str) -> None:
    assert quantity in QUANTITIES
    text = write_readings([("90 s", spot, quantity, f"{number:.3f}", "Pa", note)])
    one = parse_readings(text)[0]
    assert (one.time, one.spot, one.note) == (90.0, spot, note)
    assert one.value == pytest.approx(float(f"{number:.3f}"))


def test_a_row_of_another_length_is_refused() -> None:
    with pytest.raises(ValueError, match="5 cells"):
        write_readings([("90 s", "flue", "draught", "", "Pa")])
