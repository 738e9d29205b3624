"""What a firing of straight lines gives for readings, by hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pandas as pd
import pytest

from thermsim.errors import ResultsError
from thermsim.readings.meeting import EMPTY, ENDED, NEVER, meet, shortfall
from thermsim.readings.reading import Happening, Reading

One = Callable[[str], Reading]


@pytest.mark.parametrize(("line", "value"), [
    ("5 min 3 s,flue,temperature,50,C,", 20.0 + 0.1 * 303.0),  # between rows
    ("5 to 10 min,flue,temperature,50,C,", 20.0 + 0.1 * 450.0),  # the mean
    ("5 to 10 min,stub,melted,50,C,", 80.0),  # the hottest within it
    ("10 min,stub,browned,50,C,", 80.0),  # the hottest so far
    ("10 min,chimney foot,draught,3,Pa,", 2.4),
    ("33 min 20 s,drum,pressure,1,bar(g),", 1.0),  # 50 Pa/s for 2000 s
    ("1000 s,drum,water level,40,%,", 40.0),
    # 7.2 kg/h is 2 g/s; over 15 min 1800 g
    ("25 to 40 min,bucket,mass,1800,g,", 1800.0),
    ("10 min,wood fed,mass,800,g,", 800.0),
    ("40 min,wood fed,mass,1400,g,", 1400.0),
    ("10 to 40 min,wood fed,mass,600,g,", 600.0),
    ("1000 s,ash,mass,10,g,", 10.0),
    ("1000 s,water,mass,9,kg,", 9000.0),
    ("20 min,drum,event,boiling,,", 1500.0),
    ("8 min,feed,event,draught turned,,", 500.0),
    ("8 min,,event,shut ash_door,,", 480.0),
    ("8 min,feed,smoke,in,,", -0.2),
])
def test_values(line: str, value: float, one: One, firing: Any) -> None:
    assert meet(one(line), firing).value == pytest.approx(value, abs=1e-6)


def test_counted_from_lighting(one: One, lit_late: Any) -> None:
    late = lit_late
    assert meet(one("5 min,flue,temperature,50,C,"), late).value == pytest.approx(60.0)
    assert meet(one("20 min,drum,event,boiling,,"), late).value == pytest.approx(1400.0)


def test_second_event_meets_the_second(read: Callable[..., Any], firing: Any) -> None:
    file = read("20 min,drum,event,boiling,,", "36 min,drum,event,boiling,,",
                "39 min,drum,event,boiling,,")
    found = [meet(one, firing) for one in file.readings]
    assert [one.value for one in found] == [1500.0, 2200.0, None]
    assert found[2].note == NEVER


def test_after_the_end_the_last_row_is_held(one: One, firing: Any) -> None:
    found = meet(one("55 min,flue,temperature,50,C,"), firing)
    assert (found.value, found.stand_in, found.note) == (None, pytest.approx(320.0), ENDED)


def test_no_value_at_that_moment(one: One, firing: Any) -> None:
    found = meet(one("1 min,air_ratio,value,1.5,,,,,,,,,0.2"), firing)
    assert (found.value, found.note) == (None, EMPTY)


def test_another_plant_is_told(one: One, firing: Any) -> None:
    firing.series = firing.series.drop(columns="temperature_stub_1_outside_C")
    with pytest.raises(ResultsError, match="another plant"):
        meet(one("5 min,stub,temperature,50,C,"), firing)


@pytest.mark.parametrize(("name", "where", "column", "values", "left"), [
    # at 320 m water boils at 98.96 C; boiling counts from half a degree under it
    ("boiling", None, "temperature_water_C", (12.0, 55.23), 0.5),
    ("dry", None, "water_kg", (10.0, 2.5), 0.25),
    ("flow turned", "feed", "flow_feed_g_per_s", (-4.0, -1.0), 1.0 / 4.001),
    ("smoke ended", "feed", "smoke_feed_g_per_s", (2.0, 1.0), 0.5),
    ("draught established", None, "flow_feed_g_per_s", (-4.0, -1.0), 1.0),
])
def test_shortfalls(name: str, where: str | None, column: str, values: tuple[float, float],
                    left: float, firing: Any) -> None:
    firing.series = pd.DataFrame({"time_s": [0.0, 3000.0], column: values})
    assert shortfall(Happening(name, where, None), firing) == pytest.approx(left, abs=2e-3)
