"""Marks everything here `published`, records deviations, and writes the table of the README."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

HERE = Path(__file__).parent
README = HERE / "README.md"
BEGIN, END = "<!-- table -->", "<!-- end of table -->"
SAME_FORMULA = ("computed with a general library", "computed once")
"""how the basis of a row begins whose value is the same formula worked out elsewhere"""


class Held(NamedTuple):
    """What one check found. deviation: relative; tolerance likewise."""

    topic: str
    source: str
    basis: str
    deviation: float
    tolerance: float
    wider: bool = False
    """held to a tolerance of our own, the reason beside the law, and not to the row's"""


RECORD = pytest.StashKey[list[Held]]()


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--write-table", action="store_true",
                     help="rewrite the table of tests/published/README.md from this run")


def pytest_configure(config: pytest.Config) -> None:
    config.stash[RECORD] = []


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.published)


@pytest.fixture
def recorded(request: pytest.FixtureRequest) -> list[Held]:
    """All that was found in this run so far."""
    return request.config.stash[RECORD]


@pytest.fixture
def held(recorded: list[Held]) -> Callable[[Any], None]:
    """`held(case)`: the law meets its row within the tolerance."""

    def hold(case: Any) -> None:
        row = case.row
        found = float(case.law(**row.inputs))
        away = abs(found - row.value) / abs(row.value)
        topic = case.topic.replace("_", " ")
        recorded.append(Held(topic, row.source, row.basis, away, case.rel_tol,
                             case.rel_tol > row.rel_tol))
        assert away <= case.rel_tol, (
            f"{row.id} {row.inputs}: {found:.9g}; {row.source} has {row.value:.9g} {row.unit}")

    return hold


@pytest.fixture
def compared(recorded: list[Held]) -> Callable[..., None]:
    """`compared(topic, library, found, expected, rel_tol)`: a state drawn, both laws alike."""

    def compare(topic: str, library: str, found: float, expected: float, rel_tol: float) -> None:
        away = abs(found - expected) / abs(expected)
        recorded.append(Held(topic, library, f"live comparison with {library}", away, rel_tol))
        assert away <= rel_tol, (topic, found, expected)

    return compare


HEADINGS = ("topic", "rows", "sources", "same formula by a library",
            "wider than the row's tolerance", "worst deviation", "of its tolerance",
            "live comparisons")


def table(record: list[Held]) -> str:
    """Topic, rows, sources, worst deviation, as Markdown."""
    lines = [_line(*HEADINGS), "|---" * len(HEADINGS) + "|"]
    for topic in sorted({one.topic for one in record}):
        mine = [one for one in record if one.topic == topic]
        worst = max(mine, key=lambda one: one.deviation / one.tolerance)
        lines.append(_row(topic, mine, f"{worst.deviation:.2g}",
                          f"{worst.deviation / worst.tolerance:.0%}"))
    return "\n".join([*lines, _row("**all**", record, "", "")])


def _row(name: str, some: list[Held], worst: str, share: str) -> str:
    rows = [one for one in some if not one.basis.startswith("live")]
    same = sum(one.basis.startswith(SAME_FORMULA) for one in rows)
    return _line(name, len(rows), len({one.source for one in rows}), same,
                 sum(one.wider for one in rows), worst, share, len(some) - len(rows))


def _line(*cells: object) -> str:
    return "| " + " | ".join(map(str, cells)) + " |"


def pytest_sessionfinish(session: pytest.Session) -> None:
    if not session.config.getoption("--write-table", default=False):
        return
    before, _, rest = README.read_text(encoding="utf-8").partition(BEGIN)
    _, _, after = rest.partition(END)
    made = table(session.config.stash[RECORD])
    README.write_text(f"{before}{BEGIN}\n{made}\n{END}{after}", encoding="utf-8")
