"""A sweep that is killed, by whatever hand, loses nothing finished, and goes on where it was."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pandas as pd
import pytest

Write = Callable[..., Path]
MANY = "axes:\n  - field: drum.gap\n    from: 12 mm\n    to: 50 mm\n    count: 12\n"
PATIENCE = 120.0


def command(batch: Path, out: Path, *more: str) -> list[str]:
    return [sys.executable, "-m", "thermsim", "sweep", str(batch), "--out", str(out), *more]


def finished(out: Path) -> int:
    return len(list((out / "firings").glob("??/*.json")))


def await_some(out: Path, process: subprocess.Popen[str], least: int) -> None:
    """Wait until some firings are kept and others are not."""
    since = time.monotonic()
    while finished(out) < least:
        assert process.poll() is None, process.communicate()
        assert time.monotonic() - since < PATIENCE
        time.sleep(0.02)


@contextmanager
def running(*words: str) -> Iterator[subprocess.Popen[str]]:
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
                               start_new_session=True)
    try:
        yield process
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
        process.communicate()


def children(pid: int) -> list[int]:
    """Processes that a process started, and theirs."""
    told = subprocess.run(["ps", "-eo", "pid=,ppid="], capture_output=True, text=True, check=True)
    parents = {int(a): int(b) for a, b in (line.split() for line in told.stdout.splitlines())}
    found = [child for child, parent in parents.items() if parent == pid]
    return found + [grandchild for child in found for grandchild in children(child)]


def again(batch: Path, out: Path) -> tuple[str, pd.DataFrame]:
    """Run the same sweep to its end: what it said, and its table."""
    done = subprocess.run(command(batch, out, "--jobs", "1"), capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return done.stderr, pd.read_csv(out / "firings.csv")


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_parent_killed_outright(write_batch: Write, tmp_path: Path, jobs: str) -> None:
    batch, out = write_batch(MANY), tmp_path / "out"
    with running(*command(batch, out, "--jobs", jobs)) as process:
        await_some(out, process, 3)
        process.kill()
        process.wait()
    time.sleep(0.5)  # a worker may still end the firing in its hands
    before = finished(out)
    assert 3 <= before < 12
    said, table = again(batch, out)
    assert f"{12 - before} to fire, {before} kept" in said
    assert len(table) == 12
    assert table["heat_released_J"].notna().all()


def test_worker_killed_outright(write_batch: Write, tmp_path: Path) -> None:
    batch, out = write_batch(MANY), tmp_path / "out"
    with running(*command(batch, out, "--jobs", "2")) as process:
        await_some(out, process, 2)
        killed = [pid for pid in children(process.pid)
                  if b"loky.backend.popen" in Path(f"/proc/{pid}/cmdline").read_bytes()]
        assert killed
        os.kill(killed[0], signal.SIGKILL)
        _, said = process.communicate(timeout=PATIENCE)
        assert process.returncode == 0, said
    assert "worker died" in said
    table = pd.read_csv(out / "firings.csv")
    assert table["heat_released_J"].notna().all()
    assert len(table) == 12


def test_interrupt_keeps_what_is_done_and_exits_130(write_batch: Write, tmp_path: Path) -> None:
    more = MANY.replace("count: 12", "count: 60")  # else all may be done before it is seen
    batch, out = write_batch(more), tmp_path / "out"
    with running(*command(batch, out, "--jobs", "2")) as process:
        await_some(out, process, 2)
        os.killpg(process.pid, signal.SIGINT)  # as a terminal does: to all of them
        _, said = process.communicate(timeout=PATIENCE)
    assert process.returncode == 130, said
    assert "Interrupted" in said
    assert "thermsim/" not in said  # no traceback of ours; joblib's threads may end with one
    record = json.loads((out / "batch.json").read_text())
    assert record["stopped"] is True
    table = pd.read_csv(out / "firings.csv")
    told = table["outcome"] != "not_run"  # none of them, if workers kept what was not yet told
    assert told.sum() < 60
    assert not told.any() or table["heat_released_J"].notna().equals(told)
    _, whole = again(batch, out)
    assert (whole["outcome"] != "not_run").all()


def test_two_sweeps_share_a_store(write_batch: Write, tmp_path: Path) -> None:
    batch, store = write_batch(MANY), tmp_path / "store"
    outs = [tmp_path / name for name in ("one", "two")]
    sweeps = [command(batch, out, "--jobs", "1", "--store", str(store)) for out in outs]
    with running(*sweeps[0]) as one, running(*sweeps[1]) as two:
        for process in (one, two):
            _, said = process.communicate(timeout=PATIENCE)
            assert process.returncode == 0, said
    tables = [pd.read_csv(out / "firings.csv").drop(columns="solve_seconds") for out in outs]
    pd.testing.assert_frame_equal(*tables, check_exact=True)
    assert len(list(store.glob("??/*.json"))) == 12
    assert not list(store.glob("??/*.part"))
