"""Misses by spot and over time, the one furthest off, and what is said of them."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from thermsim.readings.held import Held, hold
from thermsim.readings.lines import group_lines, reading_lines
from thermsim.readings.reading import ReadingsFile
from thermsim.readings.words import tell
from thermsim.readings.written import as_json, save_held, table_of

Read = Callable[..., ReadingsFile]
TC = ",thermocouple,,,,,,5"
"""a thermocouple of 5 K behind six cells"""


@pytest.fixture
def walk(read: Read, firing: Any) -> Held:
    """Firebox: misses 2, 4, 6, 8 K; stub: 0, 0, -40 K; an event and marks; the model at 0.1 K/s."""
    return hold(read(
        *(f"{minute} min,firebox side,temperature,{20 + 6 * minute - miss},C,{TC}"
          for minute, miss in ((5, 2), (10, 4), (15, 6), (20, 8))),
        *(f"{minute} min,stub,temperature,{20 + 6 * minute - miss},C,{TC}"
          for minute, miss in ((5, 0), (10, 0), (20, -40))),
        "24 min,drum,event,boiling,,,,,,,,,12 s", "5 min,feed,smoke,unsure,,",
        "10 min,stub,melted,60,C,", "10 min,stub,not melted,60,C,", "11 min,flue,temperature,,C,",
    ), firing)


def test_by_spot(walk: Held) -> None:
    """Mean and scatter by hand: of 2, 4, 6, 8 the mean is 5 and the variance 20/3."""
    groups = {group.label: group for group in walk.by_spot}
    box = groups["firebox sides outside"]
    assert (box.readings, box.agreeing, box.unit) == (4, 4, "K")
    assert box.bias == pytest.approx(5.0)
    assert box.scatter == pytest.approx(math.sqrt(20.0 / 3.0))
    assert box.bias_in_uncertainties == pytest.approx(1.0)
    assert box.rms_in_uncertainties == pytest.approx(math.sqrt(30.0) / 5.0)
    assert groups["stub 1 outside, limit"].readings == 2
    assert groups["boiling"].bias == pytest.approx(60.0)
    assert "feed, smoke" not in groups


def test_over_time_covers_all(walk: Held) -> None:
    assert sum(group.readings for group in walk.over_time) == walk.all.readings == 10
    assert walk.over_time[0].name == "5 to 10 min"


def test_overall(walk: Held) -> None:
    warm = walk.temperatures
    assert warm is not None
    assert (warm.readings, warm.bias) == (7, pytest.approx(-20.0 / 7.0))
    assert walk.worst is not None
    assert walk.worst.reading.line == 12  # 80 C, and a crayon of 60 C had not melted


def test_words(walk: Held) -> None:
    said = "\n".join(tell(walk))
    for words in ("11 readings, 1 of them unsure", "1 more line not yet read",
                  "3 K too cold on the mean of 7", "Agrees: firebox sides outside",
                  "boiling: read 24 min, the model 25 min, 1 min too late",
                  "Limit passed: stub 1 outside at 10 min at most 60 C (not melted)",
                  "Furthest off is line 12", "line 8 stands apart from the other readings of stub",
                  "one reading alone", "match: line 10 at the feed", "licensed inspection"):
        assert words in said, words
    assert "safe" not in said.lower()


def test_words_of_an_event_that_never_came(read: Read, firing: Any) -> None:
    firing.events = firing.events[firing.events["event"] != "boiling"]
    said = "\n".join(tell(hold(read("24 min,drum,event,boiling,,"), firing)))
    assert "boiling, read 24 min: in the model it never came" in said


def test_words_where_all_is_unsure(read: Read, firing: Any) -> None:
    said = tell(hold(read("5 min,feed,smoke,unsure,,"), firing))
    assert said[0].startswith("1 reading, 1 of them unsure")


def test_table_and_record_hold_every_line(walk: Held, tmp_path: Path) -> None:
    table = table_of(walk)
    assert table["line"].tolist() == [one.line for one in walk.file.readings]
    assert (table["model"] - table["corrected"])[:7].tolist() == pytest.approx(
        table["miss"][:7].tolist())
    save_held(walk, tmp_path, tell(walk))
    back = pd.read_csv(tmp_path / "readings.csv")
    assert back["spot"].tolist() == table["spot"].tolist()
    record = json.loads((tmp_path / "readings.json").read_text())
    assert record == json.loads(as_json(walk))
    assert len(record["readings"]) == len(walk.rows)
    assert {path.name for path in tmp_path.iterdir()} == {
        "readings.csv", "by_spot.csv", "over_time.csv", "readings.json", "readings.txt"}


def test_lines(walk: Held) -> None:
    lines = list(reading_lines(walk))
    assert len(lines) == 1 + len(walk.rows)
    assert lines[1][:4] == ("2", "5 min", "firebox sides outside", "48 C")
    assert lines[1][-2:] == ("+2.0 K", "+0.4")
    assert lines[7][-1] == "-8.0  off"
    assert len({len(line) for line in lines}) == 1
    assert len(list(group_lines(walk.by_spot))) == 1 + len(walk.by_spot)
