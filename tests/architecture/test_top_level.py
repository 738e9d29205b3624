"""What stands at the top of the tree: nothing that a run or an example left there."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ALLOWED = {"README.md", "DEVELOPERS.md", "pyproject.toml", "thermsim", "scenarios", "tests",
           "results_demo"}


def test_only_what_belongs_is_kept_at_the_top() -> None:
    """Of the files under version control; a copy without it is skipped."""
    git = shutil.which("git")
    if git is None or not (ROOT / ".git").exists():
        pytest.skip("not under version control")
    told = subprocess.run([git, "-C", str(ROOT), "ls-files"], capture_output=True, text=True,
                          check=True).stdout.splitlines()
    top = {line.split("/")[0] for line in told}
    assert {name for name in top if not name.startswith(".")} == ALLOWED
