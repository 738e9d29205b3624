"""Show that a test turns red when a mistake of tests/mutations.yaml is made in the package.

    python tests/mutate.py 7            one mistake (or several: 7 9 12), or --all
    python tests/mutate.py 7 --green    first see that its test is green without the mistake
    python tests/mutate.py --list       the mistakes and their tests
    python tests/mutate.py --table      write tests/mutations.md anew

The mistake is made in a copy of package and tests in a temporary folder, which has its own folder
of compiled code; the tree itself is never touched. The tests named run as plain Python.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

import yaml

ROOT = Path(__file__).resolve().parents[1]
DATA, TABLE = ROOT / "tests" / "mutations.yaml", ROOT / "tests" / "mutations.md"
COPIED = ("thermsim", "tests", "scenarios", "pyproject.toml")
FAILED = 1
"""pytest: tests ran and some failed; more than this is a run that went wrong, and proves nothing"""
LONGEST = 900.0
"""time [s] after which a test is given up"""
HEAD = """\
# Thirty mistakes that the tests must catch

Made from `tests/mutations.yaml` by `python tests/mutate.py --table`. The mistakes were written
down before it was known which test catches which.

`python tests/mutate.py 7` makes mistake 7 in a copy of the package, runs its test alone against
the copy and shows it red; `--green` first shows it green without the mistake, `--all` takes every
mistake in turn. The last column is what was seen: tests red of those that the name stands for.
"""


class Mistake(NamedTuple):
    """What is done wrong, in which file of the package, and the test that says so."""

    mistake: str
    file: str
    replace: str
    by: str
    test: str
    seen: str = ""

    def made_in(self, text: str) -> str:
        """The text of the file with the mistake in it; raises ValueError if it does not apply."""
        found = text.count(self.replace)
        if found != 1:
            raise ValueError(f"{self.file}: stands there {found} times, not once: {self.replace}")
        return text.replace(self.replace, self.by)


def read_mistakes() -> list[Mistake]:
    """All mistakes, in their order; they are counted from 1."""
    return [Mistake(**row) for row in yaml.safe_load(DATA.read_text(encoding="utf-8"))]


def table_text(mistakes: list[Mistake]) -> str:
    """The text of tests/mutations.md."""
    lines = [HEAD, "| | mistake | in | caught by | command | seen |", "|---|---|---|---|---|---|"]
    for number, one in enumerate(mistakes, 1):
        command = f"`python tests/mutate.py {number}`"
        lines.append(f"| {number} | {one.mistake} | `{one.file}` | `{one.test}` | {command} "
                     f"| {one.seen} |")
    return "\n".join(lines) + "\n"


def copy_tree(folder: Path) -> None:
    """Copy what a test needs."""
    for name in COPIED:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, folder / name,
                            ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy2(ROOT / name, folder / name)


def run_test(folder: Path, test: str) -> tuple[int, str]:
    """Run a test alone on the package in a folder: pytest's exit code and what it printed."""
    surroundings = {**os.environ, "PYTHONPATH": str(folder), "NUMBA_DISABLE_JIT": "1",
                    "XDG_CACHE_HOME": str(folder / "cache"), "PYTHONDONTWRITEBYTECODE": "1"}

    def run(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run([sys.executable, *words], cwd=folder, env=surroundings, text=True,
                              capture_output=True, timeout=LONGEST)

    where = run("-c", "import thermsim; print(thermsim.__file__)").stdout.strip()
    if not where.startswith(str(folder)):
        raise RuntimeError(f"the package that is imported is not the copy: {where}")
    done = run("-m", "pytest", "-q", "-p", "no:cacheprovider", "--rootdir", str(folder), test)
    return done.returncode, done.stdout + done.stderr


def last_words(output: str) -> str:
    """The first failure's error and pytest's last line."""
    errors = re.findall(r"^E +(.*)$", output, re.MULTILINE)
    lines = output.strip().splitlines()
    return "; ".join(part for part in (errors[0] if errors else "", lines[-1] if lines else "")
                     if part)


def is_caught(number: int, one: Mistake, green: bool) -> bool:
    """Make a mistake, run its test, say how it went."""
    print(f"{number}. {one.mistake}\n   {one.test}", flush=True)
    with tempfile.TemporaryDirectory(prefix="mutation-") as name:
        folder = Path(name).resolve()
        copy_tree(folder)
        if green:
            code, output = run_test(folder, one.test)
            print(f"   unchanged: {'green' if code == 0 else 'NOT GREEN'}, exit code {code}: "
                  f"{last_words(output)}", flush=True)
            if code != 0:
                return False
        path = folder / "thermsim" / one.file
        path.write_text(one.made_in(path.read_text(encoding="utf-8")), encoding="utf-8")
        code, output = run_test(folder, one.test)
    caught = code == FAILED
    print(f"   {'caught' if caught else 'NOT caught'}, exit code {code}: {last_words(output)}",
          flush=True)
    return caught


def main() -> int:
    """Command line; 0 if every mistake asked for was caught."""
    ask = argparse.ArgumentParser(description="make a mistake in a copy, see a test turn red")
    ask.add_argument("numbers", nargs="*", type=int, metavar="NUMBER")
    ask.add_argument("--all", action="store_true", help="every mistake in turn")
    ask.add_argument("--green", action="store_true", help="first without the mistake")
    ask.add_argument("--list", action="store_true", help="the mistakes and their tests")
    ask.add_argument("--table", action="store_true", help="write tests/mutations.md anew")
    told = ask.parse_args()
    mistakes = read_mistakes()
    if told.table:
        TABLE.write_text(table_text(mistakes), encoding="utf-8")
    if told.list:
        for number, one in enumerate(mistakes, 1):
            print(f"{number:2}. {one.mistake}\n    {one.file}: {one.test}")
    numbers = range(1, len(mistakes) + 1) if told.all else told.numbers
    if any(not 1 <= n <= len(mistakes) for n in numbers):
        ask.error(f"mistakes are numbered 1 to {len(mistakes)}")
    missed = [n for n in numbers if not is_caught(n, mistakes[n - 1], told.green)]
    if missed:
        print(f"NOT caught: {', '.join(map(str, missed))}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
