"""A calibration file read: firings, guesses, how it is fitted; every mistake in it at once."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from thermsim.calibrating.declared import CALIBRATION
from thermsim.calibrating.fired import READ, Fired, firing_names, read_firings, read_log
from thermsim.calibrating.readings import read_file
from thermsim.calibrating.varied import Varied, read_guesses
from thermsim.errors import Problem, ScenarioError
from thermsim.loading import load_scenario
from thermsim.scenario.load import load_scenario as load_file
from thermsim.scenario.loaded import Scenario


@dataclass(frozen=True)
class Calibration:
    """What is fitted to what. hold_out: spots, and names of whole firings, kept out of the fit.
    written: the file as read, for places and text."""

    path: str
    title: str
    base: Scenario
    firings: tuple[Fired, ...]
    varied: tuple[Varied, ...]
    loss: str
    starts: int
    hold_out: tuple[str, ...]
    written: Scenario = field(repr=False)

    @property
    def several(self) -> bool:
        """Whether there is more than one firing."""
        return len(self.firings) > 1

    def is_held_out(self, firing: str, spot: str) -> bool:
        """Whether a reading at a spot in a firing is kept out of the fit."""
        return firing in self.hold_out or spot in self.hold_out


def read_calibration(path: str | os.PathLike[str], read: READ = read_file) -> Calibration:
    """Read a calibration file, its scenarios and readings; raises ScenarioError with everything
    that is wrong. read: how a file of readings is read."""
    written = load_file(path, declaration=CALIBRATION)
    tree, problems = written.tree, list[Problem]()
    folder = Path(written.path or "").parent
    base = load_scenario(folder / tree["scenario"])
    log = read_log(written, folder, problems)
    names = firing_names(written, log)
    firings = read_firings(written, folder, read, log, problems)
    varied = read_guesses(written, base, firings, names, problems)
    hold_out = tuple(tree["hold_out"] or ())
    if len(firings) == len(names):
        problems += _wrongly_held_out(written, firings, hold_out)
    problems += _only_held_out(written, names, hold_out)
    if not tree["guesses"]:
        problems.append(written.problem("guesses", "none are listed", "list at least one"))
    if not tree["readings"] and tree["log"] is None:
        problems.append(written.problem("readings", "none are listed",
                                        "list at least one, or name a log"))
    if problems:
        raise ScenarioError(problems)
    return Calibration(os.fspath(path), tree["title"], base, tuple(firings), tuple(varied),
                       tree["loss"], int(tree["starts"]), hold_out, written)


def _wrongly_held_out(written: Scenario, firings: Sequence[Fired],
                      hold_out: tuple[str, ...]) -> list[Problem]:
    """Spots and firings that are none, and nothing left to fit to."""
    names = [one.name for one in firings]
    spots = sorted({spot for one in firings for spot in one.readings.spots})
    wrong = [written.problem("hold_out", f"nothing is read at '{name}'",
                             f"one of: {', '.join([*spots, *names])}")
             for name in hold_out if name not in spots and name not in names]
    left = any(spot not in hold_out for one in firings if one.name not in hold_out
               for spot in one.readings.spots)
    if spots and not left:
        wrong.append(written.problem("hold_out", "every spot is held out", "leave some to fit to"))
    return wrong


def _only_held_out(written: Scenario, names: Sequence[str],
                   hold_out: tuple[str, ...]) -> list[Problem]:
    """Guesses of their own of firings that are all held out."""
    return [written.problem(f"guesses.{number}.firings",
                            f"{', '.join(given['firings'])}: held out, so nothing tells it",
                            "a firing that is fitted to: "
                            + ", ".join(name for name in names if name not in hold_out))
            for number, given in enumerate(written.tree["guesses"], 1)
            if given["firings"] and set(given["firings"]) <= set(hold_out)]
