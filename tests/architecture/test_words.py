"""Words that the project's own files must not hold."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import thermsim

PACKAGE = Path(thermsim.__file__).parent
PROMISE = re.compile(r"\bsafe(ly)?\b", re.IGNORECASE)
ALLOWED = ("never 'safe'", "yaml.safe")
"""saying that the word is never used; the loader's own function"""


@pytest.mark.parametrize(
    "path", sorted([*PACKAGE.rglob("*.py"), *PACKAGE.rglob("*.yaml")]),
    ids=lambda p: str(p.relative_to(PACKAGE)),
)
def test_nothing_is_called_harmless(path: Path) -> None:
    """A computation cannot promise it; hazards are named instead."""
    found = [line for line in path.read_text(encoding="utf-8").splitlines()
             if PROMISE.search(line) and not any(words in line for words in ALLOWED)]
    assert not found
