"""Progress is seen on a terminal only, and only where it takes long."""

from __future__ import annotations

import io
import sys
import time

import pytest

from thermsim.cli.progress import COMPILING, Progress

UNTIL = 3600.0
IMPATIENT = 0.05


class Terminal(io.StringIO):
    """An error stream that someone watches."""

    def isatty(self) -> bool:
        return True


def wait_for_bar(progress: Progress) -> None:
    deadline = time.monotonic() + 10.0
    while progress._bar is None and time.monotonic() < deadline:
        time.sleep(0.01)


def test_quiet_where_no_one_watches(monkeypatch: pytest.MonkeyPatch) -> None:
    stream = io.StringIO()
    monkeypatch.setattr(sys, "stderr", stream)
    with Progress(UNTIL, compiling=True, patience=0.0) as progress:
        time.sleep(IMPATIENT)
        progress.at(60.0)
    assert stream.getvalue() == ""


def test_short_work_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    stream = Terminal()
    monkeypatch.setattr(sys, "stderr", stream)
    with Progress(UNTIL, compiling=False) as progress:
        progress.at(60.0)
    assert stream.getvalue() == ""


def test_long_work_shows_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    stream = Terminal()
    monkeypatch.setattr(sys, "stderr", stream)
    monkeypatch.setenv("TERM", "xterm")
    with Progress(UNTIL, compiling=True, patience=IMPATIENT) as progress:
        wait_for_bar(progress)
        progress.at(1800.0)
    assert stream.getvalue().startswith(COMPILING)
    assert "30 of 60 min" in stream.getvalue()


def work_that_fails(progress: Progress, error: type[BaseException]) -> None:
    with progress:
        wait_for_bar(progress)
        raise error


@pytest.mark.parametrize("error", [KeyboardInterrupt, ValueError])
def test_ends_whatever_happens(
    error: type[BaseException], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stderr", Terminal())
    progress = Progress(UNTIL, compiling=False, patience=IMPATIENT)
    with pytest.raises(error):
        work_that_fails(progress, error)
    assert progress._bar is None
