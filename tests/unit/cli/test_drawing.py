"""Figures drawn beside the command: by the helper, and here when it cannot."""

from __future__ import annotations

import signal
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from thermsim.cli import drawing
from thermsim.cli.drawing import Drawing, can_fork

RESULT = SimpleNamespace(
    series=None, events=None, ledger=None, summary={},
    scenario=SimpleNamespace(tree=SimpleNamespace(title="invented", tubes=[])))


@pytest.fixture
def figures(monkeypatch: pytest.MonkeyPatch) -> None:
    """In place of the real figures: each writes its name into a file of its own."""
    import thermsim.plots
    from thermsim.plots import saved

    def save(result: Any, folder: Path, names: Any = tuple(saved.FIGURES)) -> None:
        for name in names:
            (folder / name).write_text(result.scenario.tree.title)

    monkeypatch.setattr(saved, "save_figures", save)
    monkeypatch.setattr(thermsim.plots, "save_figures", save)


def names(folder: Path) -> list[str]:
    from thermsim.plots.saved import FIGURES

    assert {path.read_text() for path in folder.iterdir()} <= {"invented"}
    return sorted(set(FIGURES) & {path.name for path in folder.iterdir()})


@pytest.mark.parametrize("forks", [True, False])
def test_every_figure_is_drawn(figures: None, monkeypatch: pytest.MonkeyPatch, tmp_path: Path,
                               forks: bool) -> None:
    from thermsim.plots.saved import FIGURES

    forks = forks and can_fork()
    monkeypatch.setattr(drawing, "can_fork", lambda: forks)
    Drawing().draw(RESULT, tmp_path)
    assert names(tmp_path) == sorted(FIGURES)


@pytest.mark.skipif(not can_fork(), reason="no second process here")
def test_a_helper_that_died_is_made_good(figures: None, tmp_path: Path) -> None:
    from thermsim.plots.saved import FIGURES

    made = Drawing()
    made._helper.kill()
    made._helper.join()
    assert made._helper.exitcode == -signal.SIGKILL
    made.draw(RESULT, tmp_path)
    assert names(tmp_path) == sorted(FIGURES)


@pytest.mark.skipif(not can_fork(), reason="no second process here")
def test_a_helper_goes_when_nothing_is_to_be_drawn(figures: None) -> None:
    made = Drawing()
    made.end()
    assert made._helper.exitcode == 0
