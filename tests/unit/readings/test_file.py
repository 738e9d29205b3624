"""The file: every line read or told, all mistakes at once with line and column."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from thermsim.errors import ScenarioError
from thermsim.first_firing.steps import drum_spots, firing_spots
from thermsim.readings.columns import COLUMNS, write_readings
from thermsim.readings.file import ALL, load_readings, understand
from thermsim.readings.known import Known
from thermsim.readings.reading import AT_LEAST, AT_MOST, UNSURE, VALUE, Reading, ReadingsFile
from thermsim.readings.times import Zero

SIX = ("time", "spot", "quantity", "reading", "unit", "note")
One = Callable[[str], Reading]
Read = Callable[..., ReadingsFile]


def problems(text: str, known: Known) -> list[Any]:
    with pytest.raises(ScenarioError) as caught:
        understand(text, "shed.csv", known)
    return caught.value.problems


def test_six_columns_first() -> None:
    assert ALL[:6] == SIX == tuple(column.name for column in COLUMNS)


def test_nothing_is_lost(read: Read) -> None:
    file = read("# walked round once, invented", "5 min,flue,temperature,145,C,a note", "",
                "6 min,flue,temperature,,C,", "7 min,feed,smoke,unsure,,")
    assert len(file) == 2
    assert file.comments == ("walked round once, invented",)
    assert file.not_taken == ("line 5: flue at 6 min",)
    assert file.readings[0].note == "a note"
    assert [one.line for one in file.readings] == [3, 6]


def test_lit_by_the_clock_and_by_the_watch(read: Read) -> None:
    both = read("14:17,flue,temperature,145,C,", "3 min,flue,temperature,90,C,",
                "14:05,,event,lit,,")
    assert [one.time for one in both.readings] == [720.0, 180.0]
    watch = read("25 s,,event,lit,,", "3 min,flue,temperature,90,C,")
    assert watch.readings[0].time == 155.0


def test_lit_by_the_caller(known: Known) -> None:
    text = ",".join(SIX) + "\n14:17,flue,temperature,145,C,"
    file = understand(text, "shed.csv", known, Zero(clock=14 * 3600.0, offset=20.0))
    assert file.readings[0].time == 17 * 60.0 + 20.0


def test_all_mistakes_at_once(known: Known) -> None:
    text = "\n".join([
        ",".join(SIX) + ",emissivity",
        "5 min,flu gas,temperature,145,C,,",
        "5 min,feed,smoke,inn,,,",
        "5,flue,temperature,145,C,,",
        "5 min,flue,temperatur,145,C,,",
        "5 min,flue,temperature,145,bar,,",
        "5 min,stub,temperature,145,C,,rusted",
        '5 min,stub,event,"boilt",,,',
        "14:10,flue,temperature,145,C,,",
        "5 min,drum,pressure,2,bar,,",
        "5 min,flue,temperature,145,C,,,stray",
    ])
    found = problems(text, known)
    assert [one.line for one in found] == [2, 3, 4, 5, 6, 7, 8, 9, 10, 11]
    assert [one.column for one in found] == [7, 18, 1, 12, 28, 31, 18, 1, 23, 32]
    said = "\n".join(map(str, found))
    for words in ("'flue'", "did you mean 'in'", "has no unit", "did you mean 'temperature'",
                  "matt black paint", "did you mean 'boiling'", "when it was lit", "bar(g)",
                  "stands under no column"):
        assert words in said
    assert all(str(one).startswith("shed.csv:") for one in found)


def test_two_mistakes_in_a_line(known: Known) -> None:
    found = problems(",".join(SIX) + "\n25:00,flew,temperature,12..5,C,", known)
    assert {one.path for one in found} == {"time", "spot", "reading"}


@pytest.mark.parametrize(("head", "words"), [
    ("time,spot,quantity,reading,note", "unit"),
    ("time,spot,quantity,reading,unit,note,emissivty", "emissivity"),
    ("time;spot;quantity;reading;unit;note", "divided by ;"),
    ("time,spot,quantity,reading,unit,note,note", "a second column"),
])
def test_wrong_heads(head: str, words: str, known: Known) -> None:
    assert words in "\n".join(map(str, problems(f"{head}\n", known)))


def test_empty(known: Known) -> None:
    assert "no line stands in it" in str(problems("# only words\n", known)[0])
    assert "no reading" in str(problems(",".join(SIX) + "\n", known)[0])


def test_not_text(tmp_path: Any, known: Known) -> None:
    path = tmp_path / "shed.csv"
    path.write_bytes(b"\xff\xfe\x00time")
    with pytest.raises(ScenarioError, match="UTF-8"):
        load_readings(path, known)


@pytest.mark.parametrize(("line", "value", "unit", "says", "measure"), [
    ("5 min,flue,temperature,77,F,", 25.0, "C", VALUE, "column"),
    ("5 min,flue,,145,C,", 145.0, "C", VALUE, "column"),
    ("5 min,flue,temperature,145 C,,", 145.0, "C", VALUE, "column"),
    ("5 min,drum,pressure,2,bar(g),", 2.0, "bar(g)", VALUE, "pressure"),
    ("5 min,chimney foot,draught,1,mm,", 9.80665, "Pa", VALUE, "column"),
    ("5 min,chimney foot,draught,10,mm,,water gauge 1:10", 9.80665, "Pa", VALUE, "column"),
    ("5 min,drum,water level,45,%,", 45.0, "%", VALUE, "percent"),
    ("5 min,drum,water level,121,mm,", 50.0, "%", VALUE, "percent"),  # half of 242 mm inside
    ("5 to 6 min,bucket,mass,120,g,", 120.0, "g", VALUE, "steam"),
    ("5 to 6 min,bucket,volume,1,l,", 998.2, "g", VALUE, "steam"),
    ("45 min,wood fed,mass,2.4,kg,", 2400.0, "g", VALUE, "wood"),
    ("45 min,ash,mass,30,g,", 30.0, "g", VALUE, "grams"),
    ("31 min,drum,event,boiling,,", 1860.0, "s", VALUE, "event"),
    ("40 min,boiling,duration,31,min,", 1860.0, "s", VALUE, "event"),
    ("20 min,drum,event,not boiling,,", 1200.0, "s", AT_LEAST, "event"),
    ("5 min,feed,smoke,in,,", 0.0, "g/s", AT_LEAST, "column"),
    ("5 min,feed,smoke,out,,", 0.0, "g/s", AT_MOST, "column"),
    ("5 min,feed,smoke,unsure,,", 0.0, "g/s", UNSURE, "column"),
    ("5 min,stub,melted,150,C,", 150.0, "C", AT_LEAST, "peak"),
    ("5 min,stub,not browned,200,C,", 200.0, "C", AT_MOST, "peak"),
    ("5 min,stub,glowing,,,", 525.0, "C", AT_LEAST, "column"),  # Draper: 977 F
    ("5 min,firepower_W,value,11,kW,", 11000.0, "W", VALUE, "column"),
    ("5 min,flow_feed_g_per_s,value,14.4,kg/h,", 4.0, "g/s", VALUE, "column"),
])
def test_quantities(line: str, value: float, unit: str, says: str, measure: str, one: One
                    ) -> None:
    reading = one(line)
    assert reading.value == pytest.approx(value, abs=1e-9 if unit != "%" else 0.05)
    assert (reading.unit, reading.says, reading.measure) == (unit, says, measure)


@pytest.mark.parametrize(("line", "words"), [
    ("5 min,flue,temperature,145,C,,infrared", "sees surfaces"),
    ("5 min,stub,temperature,145,C,,smoke match", "does not read that"),
    ("5 min,stub,temperature,145,C,,termocouple", "thermocouple"),
    ("5 min,stub,temperature,5000,C,", "4 C|-60 to 2000"),
    ("5 min,ash pan,pressure,1,bar(g),", "drum"),
    ("5 min,feed,draught,1,mm,", "chimney foot"),
    ("5 min,bucket,mass,120,g,", "20 min to 25 min"),
    ("5 min,drum,water level,300,mm,", "242 mm high"),
    ("5 min,drum,water level,130,%,", "0 to 100 %"),
    ("5 min,stub,melted,,,", None),
    ("5 min,stub,melted,x,C,", "not a number"),
    ("5 min,firepwr_W,value,11,kW,", "firepower_W"),
    ("5 to 6 min,drum,event,boiling,,", "one moment"),
    ("5 min,drum,event,boiling,C,", "where there is no number"),
    ("5 min,feed,smoke,in,g,", "where there is no number"),
    ("5 min,hatch,event,smoke ended,,", "feed"),
    ("5 min,,event,shut ashdoor,,", "ash_door"),
    ("5 min,stub,temperature,145,C,,infrared,0", "at most 1"),
    ("5 min,stub,temperature,145,C,,infrared,,1.2", "over 0, at most 1"),
    ("5 min,stub,temperature,145,C,,infrared,,,,12:1", "needs the distance"),
    ("5 min,stub,temperature,145,C,,infrared,,,,,300 mm", "spot's size"),
    ("5 min,stub,temperature,145,C,,,,,,,,0", "more than 0"),
    ("5 min,stub,temperature,40,C,,infrared,,bright,300 C", "surroundings alone"),
    ("5 min,firebox sides inside,temperature,400,C,,infrared", "hot walls"),
    ("5 min,chimney foot,draught,10,Pa,,water gauge 1:10", "says nothing of Pa"),
    ("5 min,,event,start engine,,", "no event is called"),  # there is none
    ("5 min,firepower_W,value,0,W,", "write one"),  # 5 % of nothing
    ("0 s,drum,event,boiling,,,,,,,,,5 %", "write one"),
])
def test_refused(line: str, words: str | None, read: Read) -> None:
    if words is None:
        with pytest.raises(ScenarioError, match="no reading stands"):
            read(line)
        return
    with pytest.raises(ScenarioError) as caught:
        read(line)
    assert any(word in str(caught.value) for word in words.split("|"))


def test_deeds_and_repeated_events(read: Read) -> None:
    file = read("8 min,,event,ash door shut,,", "25 min,drum,event,boiling,,",
                "36 min,drum,event,boiling,,", "30 min,drum,event,not dry,,")
    happenings = [one.happening for one in file.readings]
    assert [(of.name, of.where, of.nth) for of in happenings if of] == [
        ("shut", "ash_door", 1), ("boiling", None, 1), ("boiling", None, 2), ("dry", None, 1)]


def test_card_filled_in_by_hand(known: Known) -> None:
    """Every spot that the plan of a first firing has read is understood as the column it means."""
    spots = [*firing_spots(known.tree, []), *drum_spots(None)]
    rows = [["3 min", spot.name, spot.quantity, "12", spot.unit, "as written"] for spot in spots]
    rows += [["3 min", "drum plate", "temperature", "80", "C", ""],
             ["3 min", "stub 1 outside", "temperature", "80", "C", ""],
             ["9 min", "gauge glass", "water level", "", "%", "not yet read"]]
    file = understand(write_readings(rows), "card.csv", known)
    assert [one.column for one in file.readings] == [
        *(spot.column for spot in spots), "temperature_drum_dry_wall_C",
        "temperature_stub_1_outside_C"]
    assert len(file.not_taken) == 1


def test_cell_under_an_empty_heading_is_told(known: Known) -> None:
    found = problems(",".join(SIX) + ",,\n5 min,flue,temperature,145,C,,,stray", known)
    assert "'stray' stands under no column" in str(found[0])


def test_as_a_spreadsheet_saves_it(known: Known) -> None:
    text = ('"# walked round, invented",,,,,\r\n' + ",".join(SIX) + "\r\n"
            "5 min,flue,temperature,145,C,\r\n,,,,,\r\n")
    file = understand(text, "shed.csv", known)
    assert file.comments == ("walked round, invented",)
    assert len(file) == 1


def of(*words: str) -> st.SearchStrategy[str]:
    """One of these, nothing, or anything."""
    return st.one_of(st.sampled_from(words), st.sampled_from(words), st.just(""),
                     st.text(max_size=6))


LINE = st.tuples(
    of("5 min", "14:05", "99:99", "5 to 6 min", "6 to 5 min", "-3 s", "0 s", "1e9 h", "5"),
    of("flue", "drum", "feed", "chimney at 9 m", "casing at 1/0 m top", "stub", "bucket",
       "wood fed", "ash", "water", "firepower_W", "air_ratio", "boiling", "steam line",
       "firebox sides inside", "open_feed", "time_s"),
    of("temperature", "pressure", "draught", "smoke", "event", "mass", "volume", "duration",
       "water level", "melted", "not browned", "glowing", "value", "Event"),
    of("in", "lit", "boiling", "not boiling", "shut the moon", "12", "1e400", "-300", "1/0",
       "145 +- 5", "about 5", "5 to 6", "145 C", "0", "-12", "3000", "unsure", "150 +- 400"),
    of("C", "F", "K", "bar(g)", "%", "mm", "Pa", "g", "l", "min", "kW", "bar"), of("a note"),
    of("infrared", "thermocouple", "water gauge 1:0", "water gauge 1:10", "water gauge 10:1",
       "pressure gauge 0 to 6 bar(g)", "pressure gauge x", "other", "bucket"),
    of("0.95", "0", "2", "95 %"), of("matt black paint", "0.9", "0.9 +- 0.2", "bright", "0"),
    of("20 C", "600 C +- 300 C", "-300 C", "5000 C"), of("12:1", "0:0", "1:0", "25 mm", "0 mm"),
    of("300 mm", "0 m", "1 km"), of("5", "0", "-1", "5 %", "3 K", "10 s", "1e300"))


@given(st.lists(LINE, min_size=1, max_size=3))
@settings(max_examples=400, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_whatever_is_typed_is_read_or_told(known: Known, rows: list[tuple[str, ...]]) -> None:
    """No other error than one that names lines; what is read is finite and doubted."""
    text = "\n".join([",".join(ALL), *(",".join(row) for row in rows)])
    try:
        readings = understand(text, "shed.csv", known).readings
    except ScenarioError as error:
        readings = ()
        lines = [one.line for one in error.problems]
    else:
        lines = [one.line for one in readings]
    assert lines
    assert None not in lines
    for one in readings:
        assert np.isfinite([one.time, one.value, one.corrected, one.uncertainty]).all()
        assert one.uncertainty > 0.0
