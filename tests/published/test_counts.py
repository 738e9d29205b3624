"""How much is held against the world: enough rows, sources and topics, not all by libraries."""

from __future__ import annotations

import csv
import importlib
import sys
from pathlib import Path

from rows import REFERENCES, cases

HERE = Path(__file__).parent
SAME_FORMULA = ("computed with a general library", "computed once")
LEAST_ROWS, LEAST_SOURCES = 250, 40


def rows_by_topic() -> dict[str, list[dict[str, str]]]:
    """The rows of every topic module's laws."""
    sys.path.insert(0, str(HERE))
    found = {}
    for path in sorted(HERE.glob("test_*.py")):
        module = importlib.import_module(path.stem)
        laws, topic = getattr(module, "LAWS", None), path.stem.removeprefix("test_")
        if laws is None:
            continue
        ids = {param.values[0].row.id for param in cases(topic, laws)}
        with (REFERENCES / f"{topic}.csv").open(newline="", encoding="utf-8") as file:
            found[topic] = [row for row in csv.DictReader(file) if row["id"] in ids]
    return found


def test_rows_sources_and_topics() -> None:
    by_topic = rows_by_topic()
    rows = [row for some in by_topic.values() for row in some]
    assert len(rows) >= LEAST_ROWS
    assert len({row["source"] for row in rows}) >= LEAST_SOURCES
    most = max(by_topic, key=lambda topic: len(by_topic[topic]))
    assert len(by_topic[most]) <= len(rows) / 4, most
    same = [row for row in rows if row["basis"].startswith(SAME_FORMULA)]
    assert len(same) <= len(rows) / 2
    assert not [row["id"] for row in rows if row["basis"].startswith("from memory, unconfirmed")]
    print(len(rows), len(same), {topic: len(some) for topic, some in by_topic.items()})


ELSEWHERE = {
    "conduction": {"K-3.5": "test_critical_radius"},
    "draught": {**dict.fromkeys(("D-en-B-K", "D-en-B-rhom", "D-en-C-K", "D-en-C-rhom"),
                                "tests/cases/test_chimneys.py"),
                "D11": "tests/cases/test_plausible.py"},
    "materials": dict.fromkeys(
        (*(f"M-High-dutyfireclay-{T}-k" for T in (400, 600, 800, 1200)),
         *(f"M-L1400-{T}-k" for T in (400, 600, 800, 1000, 1200)), "M-perl50", "M-perl150",
         "M-vermLow"),
        "no such material is offered; they show how far grades lie apart"),
}
"""rows that no law of a topic module answers, and why"""


def test_every_row_is_answered() -> None:
    for topic, used in rows_by_topic().items():
        with (REFERENCES / f"{topic}.csv").open(newline="", encoding="utf-8") as file:
            every = {row["id"] for row in csv.DictReader(file)}
        assert every - {row["id"] for row in used} == set(ELSEWHERE.get(topic, {})), topic
