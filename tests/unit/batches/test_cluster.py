"""The same numbers from a cluster: a scheduler and two workers on this machine's loopback."""

from __future__ import annotations

import re
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pandas as pd
import pytest

pytest.importorskip("distributed", reason="the extra 'dask' is not installed")

Write = Callable[..., Path]
GAPS = "axes:\n  - field: drum.gap\n    values: [15 mm, 25 mm, 40 mm, 60 mm]\n"
PATIENCE = 60.0
ADDRESS = re.compile(r"Scheduler at:\s+(tcp://127\.0\.0\.1:\d+)")

WHO_FIRED = """
import sys
from distributed import Client
client = Client(sys.argv[1])
print(*client.run(lambda: "thermsim.simulation" in __import__("sys").modules).values())
"""
"""asks every worker whether it has loaded the model"""


@contextmanager
def started(log: Path, *words: str) -> Iterator[None]:
    """A process of dask's own command, its words in a file, ended afterwards."""
    with log.open("w") as told:
        process = subprocess.Popen([sys.executable, "-m", "dask", *words],
                                   stdout=subprocess.DEVNULL, stderr=told)
        try:
            yield
        finally:
            process.terminate()
            process.wait(timeout=30)


def address_in(log: Path) -> str:
    """The address that a scheduler tells when it is up."""
    since = time.monotonic()
    while time.monotonic() - since < PATIENCE:
        found = ADDRESS.search(log.read_text())
        if found:
            return found[1]
        time.sleep(0.05)
    raise AssertionError(log.read_text())


def sweep(batch: Path, out: Path, *more: str) -> pd.DataFrame:
    done = subprocess.run(
        [sys.executable, "-m", "thermsim", "sweep", str(batch), "--out", str(out), *more],
        capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return pd.read_csv(out / "firings.csv").drop(columns="solve_seconds")


def test_a_cluster_gives_the_numbers_of_one_core(write_batch: Write, tmp_path: Path) -> None:
    batch = write_batch(GAPS)
    log = tmp_path / "scheduler.log"
    worker = ("worker", "--nthreads", "1", "--no-dashboard", "--local-directory",
              str(tmp_path / "dask"))
    with started(log, "scheduler", "--host", "127.0.0.1", "--port", "0", "--no-dashboard"):
        address = address_in(log)
        with (started(tmp_path / "one.log", *worker, address),
              started(tmp_path / "two.log", *worker, address)):
            clustered = sweep(batch, tmp_path / "there", "--backend", "dask", "--scheduler",
                              address)
            asked = subprocess.run([sys.executable, "-c", WHO_FIRED, address],
                                   capture_output=True, text=True, check=True)
    assert asked.stdout.split() == ["True", "True"]
    alone = sweep(batch, tmp_path / "here", "--jobs", "1")
    pd.testing.assert_frame_equal(clustered, alone, check_exact=True)
    kept = list((tmp_path / "there" / "firings").glob("??/*.json"))
    assert len(kept) == 4


def test_no_scheduler_there_is_one_line(write_batch: Write, tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "thermsim", "sweep", str(write_batch(GAPS)), "--out",
         str(tmp_path / "out"), "--backend", "dask", "--scheduler", "tcp://127.0.0.1:1"],
        capture_output=True, text=True)
    assert done.returncode == 2
    assert "no scheduler answers at tcp://127.0.0.1:1" in done.stderr
    assert "Traceback" not in done.stderr
