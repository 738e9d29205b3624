"""Figures of a run drawn in a process beside the command.

It starts with the command and loads the drawing library while the firing is being computed, which
is half of what a warm run would otherwise wait for; then it parts in two and draws.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from contextlib import suppress
from pathlib import Path
from types import SimpleNamespace
from typing import Any


def can_fork() -> bool:
    """Whether a second process is to be had in no time, with a processor to run on."""
    return sys.platform == "linux" and len(os.sched_getaffinity(0)) > 1


class Drawing:
    """A helper that stands ready; `draw` has all figures written and waits for them.

    Without a helper, or if it fails, `draw` does it here. It ends with the command.
    """

    def __init__(self) -> None:
        self._helper: Any = None
        if not can_fork():
            return
        fork = multiprocessing.get_context("fork")
        self._pipe, there = fork.Pipe()
        self._helper = fork.Process(target=_serve, args=(there, self._pipe))
        self._helper.start()
        there.close()

    def draw(self, result: Any, folder: Path) -> None:
        """Write all figures into the folder; what the helper could not do is done here."""
        tree = result.scenario.tree
        shown = SimpleNamespace(
            series=result.series, events=result.events, ledger=result.ledger,
            summary=result.summary,
            scenario=SimpleNamespace(tree=SimpleNamespace(title=tree.title, tubes=tree.tubes)))
        if self._helper is not None:
            with suppress(OSError):
                self._pipe.send((shown, folder))
            self.end()
        if self._helper is None or self._helper.exitcode:
            from thermsim.plots import save_figures

            save_figures(shown, folder)

    def end(self) -> None:
        """Let the helper go, and wait until it has gone."""
        if self._helper is not None:
            self._pipe.close()
            self._helper.join()


def _serve(pipe: Any, inherited: Any) -> None:
    """Draw once the result comes, in two halves at a time.

    inherited: the command's end of the pipe; kept open here, it would hide that the command ended.
    """
    inherited.close()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the command itself answers to Ctrl-C
    from thermsim.plots.saved import figures_for, save_figures, warm_up

    warm_up()
    try:
        shown, folder = pipe.recv()
    except EOFError:  # the command ended without a result
        return
    names = list(figures_for(shown))
    other = os.fork()
    if other == 0:
        code = 1
        try:
            save_figures(shown, folder, names[1::2])
            code = 0
        finally:
            os._exit(code)
    save_figures(shown, folder, names[::2])
    if os.waitstatus_to_exitcode(os.waitpid(other, 0)[1]):
        raise SystemExit(1)
