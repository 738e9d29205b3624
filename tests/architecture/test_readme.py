"""Commands that the documents show exist and take what is shown."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from thermsim.cli.main import parser

ROOT = Path(__file__).parents[2]
DOCUMENTS = [ROOT / "README.md", ROOT / "DEVELOPERS.md"]
SHOWN = re.compile(r"^\s*(?:\$ )?(thermsim .*)$", re.MULTILINE)
BLOCK = re.compile(r"^```[^\n]*\n(.*?)^```", re.MULTILINE | re.DOTALL)


def commands() -> list[str]:
    """Every `thermsim` command line in a block of code; several joined by && count singly."""
    text = "\n".join(path.read_text(encoding="utf-8") for path in DOCUMENTS if path.exists())
    lines = [line for block in BLOCK.findall(text) for line in block.splitlines()]
    parts = [part.strip() for line in lines for part in line.split("&&")]
    return [part.split("#")[0].strip() for part in parts if SHOWN.match(part)]


@pytest.mark.parametrize("command", commands())
def test_command_is_understood(command: str) -> None:
    arguments = shlex.split(command)[1:]
    if arguments != ["--version"]:
        assert parser().parse_args(arguments).act
