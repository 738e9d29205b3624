"""A planted change told apart from planted wood and weather, by real firings.

Everything is planted within what the log doubts (tests/planted_change.py), what each part truly did
is known from firing the planted plants. Of one plant and log with few doubts, so that it takes
seconds; over the whole log's doubts: tests/benchmarks/planted_changes.py, by hand.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from planted_change import Planted, plant, settled

from thermsim.readings.firing_log import load_log
from thermsim.two_firings.words import headlines, tell

ROOT = Path(__file__).parents[2]
LOG = load_log(ROOT / "scenarios" / "firing_log.csv")
FEW = ("wood.moisture", "day.air", "drum.gap")


@pytest.fixture(scope="module", params=[1, 3])
def planted(request: pytest.FixtureRequest) -> Planted:
    return plant(settled(LOG, FEW), request.param, 2, 8)


def test_boiling_is_told_apart(planted: Planted) -> None:
    rows = {row["part"]: row for row in planted.rows() if row["what"] == "boiling"}
    assert abs(rows["change"]["true"]) > 60.0
    for part in ("day", "wood", "change"):
        row = rows[part]
        assert abs(row["true"] - row["found"]) <= 1.5 * row["band"], row
        assert row["band"] < 60.0
    boiling = next(one for one in planted.found.told if one.name == "boiling")
    assert boiling.change.told
    assert not boiling.unexplained


def test_nearly_all_parts_lie_within_their_bands(planted: Planted) -> None:
    rows = [row for row in planted.rows() if row["band"] > 0.0]
    held = [abs(row["true"] - row["found"]) <= row["band"] for row in rows]
    assert len(rows) > 30
    assert sum(held) >= 0.85 * len(rows)
    assert all(abs(row["true"] - row["found"]) <= 2.5 * row["band"] for row in rows)


def test_words_name_the_change_and_the_wood(planted: Planted) -> None:
    words = tell(planted.found)
    text = "\n".join(words)
    assert "Boiling came" in text
    assert "the change: " in text
    assert "told apart" in text
    assert headlines(planted.found)[0].name == "boiling"
    assert not [word for word in words if "nan" in word.split()]


def test_readme_quotes_the_committed_result() -> None:
    table = (ROOT / "results_demo" / "two_firings" / "apart.txt").read_text(encoding="utf-8")
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for part in ("the day", "the wood", "the change"):
        line = next(one for one in table.splitlines() if one.startswith(f"  {part}: "))
        told = line.split(": ", 1)[1].split(";")[0]
        assert f"| {told} |" in readme, told
