"""A calibration file read: firings, guesses, how it is fitted; every mistake in it at once."""

from __future__ import annotations

import math
import os
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from thermsim.calibrating.declared import CALIBRATION, NOTHING_HELD
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.readings import Readings, read_file
from thermsim.dimensions import DIMENSIONS
from thermsim.errors import Problem, QuantityError, ScenarioError
from thermsim.loading import load_scenario
from thermsim.scenario.facts import Fact
from thermsim.scenario.load import load_scenario as load_file
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario
from thermsim.units import Quantity, format_quantity, is_quantity, parse_quantity

READ = Callable[[str, Scenario], Readings]
"""reads a file of readings that belongs to a firing of a scenario"""
DEVIATIONS = math.sqrt(3.0)
"""standard deviations that a doubt spans either way: limits, all between them as likely, GUM (JCGM
100:2008) 4.3.7, as the readings' instruments are taken"""


@dataclass(frozen=True)
class Fired:
    """One firing with its readings. name: of the file of readings, for people."""

    name: str
    scenario: Scenario
    readings: Readings


@dataclass(frozen=True)
class Varied:
    """A guess as it is put into a scenario: which fields, in which unit numbers are written."""

    guess: Guess
    fields: tuple[str, ...]
    unit: str


@dataclass(frozen=True)
class Calibration:
    """What is fitted to what. written: the file as read, for places and text."""

    path: str
    title: str
    base: Scenario
    firings: tuple[Fired, ...]
    varied: tuple[Varied, ...]
    loss: str
    starts: int
    hold_out: tuple[str, ...]
    written: Scenario = field(repr=False)


def read_calibration(path: str | os.PathLike[str], read: READ = read_file) -> Calibration:
    """Read a calibration file, its scenarios and readings; raises ScenarioError with everything
    that is wrong. read: how a file of readings is read."""
    written = load_file(path, declaration=CALIBRATION)
    tree, problems = written.tree, list[Problem]()
    folder = Path(written.path or "").parent
    base = load_scenario(folder / tree["scenario"])
    varied = [made for number, given in enumerate(tree["guesses"], 1)
              if (made := _Guess(written, number, base, problems).read(given)) is not None]
    _same_twice(written, problems)
    firings = [one for number in range(1, len(tree["readings"]) + 1)
               if (one := _firing(written, number, folder, read, problems)) is not None]
    hold_out = tuple(tree["hold_out"] or ())
    problems += _not_in_all(written, firings)
    if len(firings) == len(tree["readings"]):
        problems += _unknown_spots(written, firings, hold_out)
    for key in ("readings", "guesses"):
        if not tree[key]:
            problems.append(written.problem(key, "none are listed", "list at least one"))
    if problems:
        raise ScenarioError(problems)
    return Calibration(os.fspath(path), tree["title"], base, tuple(firings), tuple(varied),
                       tree["loss"], int(tree["starts"]), hold_out, written)


def _firing(written: Scenario, number: int, folder: Path, read: READ,
            problems: list[Problem]) -> Fired | None:
    given = written.tree["readings"][number - 1]
    own = folder / (given["scenario"] or written.tree["scenario"])
    try:
        scenario = load_scenario(own, given["changes"] or ())
    except ScenarioError as error:
        problems += [_of_change(written, f"readings.{number}.changes", one)
                     for one in error.problems]
        return None
    place = folder / given["file"]
    if not place.is_file():
        problems.append(written.problem(f"readings.{number}.file", f"no file '{given['file']}'",
                                        "a file beside this one"))
        return None
    try:
        return Fired(given["file"], scenario, read(str(place), scenario))
    except ScenarioError as error:
        problems += error.problems
        return None


def _of_change(written: Scenario, path: str, problem: Problem) -> Problem:
    """A change's problem, told at the line here that wrote the change."""
    if problem.file.startswith("change "):
        return written.problem(path, problem.found, problem.allowed)
    return problem


def _same_twice(written: Scenario, problems: list[Problem]) -> None:
    seen: list[str] = []
    for number, given in enumerate(written.tree["guesses"], 1):
        for one in given["field"]:
            if one in seen:
                problems.append(written.problem(f"guesses.{number}.field",
                                                f"'{one}' is guessed twice", "keep one"))
            seen.append(one)


def _not_in_all(written: Scenario, firings: list[Fired]) -> list[Problem]:
    """Guesses that the own scenario of a firing cannot take."""
    wrong = []
    base = str(Path(written.path or "").parent / written.tree["scenario"])
    for number, given in enumerate(written.tree["guesses"], 1):
        changes = [f"{one} = {given['from']}" for one in given["field"]]
        for fired in firings:
            if fired.scenario.path == base:
                continue
            try:
                load_text(fired.scenario.text, changes, name=str(fired.scenario.path))
            except ScenarioError as error:
                wrong.append(written.problem(
                    f"guesses.{number}.field", f"{fired.scenario.path}: {error.problems[0].found}",
                    error.problems[0].allowed))
    return wrong


def _unknown_spots(written: Scenario, firings: list[Fired],
                   hold_out: tuple[str, ...]) -> list[Problem]:
    known = {spot for one in firings for spot in one.readings.spots}
    wrong = [written.problem("hold_out", f"nothing is read at '{spot}'",
                             f"one of: {', '.join(sorted(known))}")
             for spot in hold_out if spot not in known]
    if known and known <= set(hold_out):
        wrong.append(written.problem("hold_out", "every spot is held out", "leave some to fit to"))
    return wrong


class _Guess:
    """Reads one guess against the scenario; what is wrong goes into `problems`."""

    def __init__(self, written: Scenario, number: int, base: Scenario,
                 problems: list[Problem]) -> None:
        self.written, self.number, self.base, self.problems = written, number, base, problems

    def bad(self, key: str, found: str, allowed: str) -> None:
        self.problems.append(self.written.problem(f"guesses.{self.number}.{key}", found, allowed))

    def read(self, given: Any) -> Varied | None:
        facts = [self._fact(one, given["from"]) for one in given["field"]]
        if any(fact is None for fact in facts):
            return None
        fact = facts[0]
        assert fact is not None
        if len({one.kind for one in facts if one is not None}) > 1:
            self.bad("field", "fields of different kinds cannot take the same value",
                     "a guess for each")
            return None
        ends = [self._quantity(key, given[key], fact.kind) for key in ("from", "to")]
        if ends[0] is None or ends[1] is None:
            return None
        low, high, was = ends[0].value, ends[1].value, float(fact.value)
        if not low < high:
            self.bad("to", f"'{given['to']}' is not above '{given['from']}'", "a range")
            return None
        if not low <= was <= high:
            self.bad("from", f"the scenario's own value, {fact.text or was}, is not between "
                     f"'{given['from']}' and '{given['to']}'", "a range that holds it")
            return None
        held = self._held(given["prior"], fact)
        if held is None:
            return None
        guess = self._guess(given, fact, (low, high), ends[0].unit)
        if held.doubtful:
            guess = replace(guess, mean=held.value,
                            spread=0.5 * (held.high - held.low) / DEVIATIONS)
        return Varied(guess, tuple(given["field"]), DIMENSIONS[fact.kind].si)

    def _guess(self, given: Any, fact: Fact, ends: tuple[float, float], unit: str) -> Guess:
        one, like = DIMENSIONS[fact.kind].units[unit], given["from"]
        factor, offset = float(one.factor), float(one.offset)
        return Guess(
            " and ".join(given["field"]), float(fact.value), *ends, unit=one.name,
            text=lambda value: format_quantity(value, fact.kind, like),
            in_unit=lambda value: float(value) / factor - offset)

    def _fact(self, name: str, text: str) -> Fact | None:
        """What the scenario knows of a field; found by the change that would alter it."""
        try:
            changed = load_text(self.base.text, (f"{name} = {text}",), name="scenario",
                                folder=str(Path(self.base.path or "").parent))
        except ScenarioError as error:
            for one in error.problems:
                self.bad("field", f"{name} = {text}: {one.found}", one.allowed)
            return None
        path = next((fact.path for fact in changed.facts if fact.file == "change 1"), None)
        fact = self.base.fact(path) if path else None
        if fact is None or fact.value is None:
            self.bad("field", f"the scenario says nothing of '{name}'",
                     "write there what it is taken to be")
        elif not is_quantity(fact.kind) or fact.kind == "count":
            self.bad("field", f"'{name}' is no quantity that can be moved little by little",
                     "a length, a share, a temperature ...")
        else:
            return fact
        return None

    def _quantity(self, key: str, text: str, kind: str) -> Quantity | None:
        try:
            return parse_quantity(text, kind)
        except QuantityError as error:
            self.bad(key, error.found, error.allowed)
            return None

    def _held(self, text: str | None, fact: Fact) -> Quantity | None:
        """What is held of it: as written here, or as the scenario doubts it."""
        value = float(fact.value)
        if text is None:
            low, high = (value if end is None else end for end in (fact.low, fact.high))
            return Quantity(value, low, high, fact.text, fact.unit, fact.kind)
        if text.strip() == NOTHING_HELD:
            return Quantity(value, value, value, text, fact.unit, fact.kind)
        made = self._quantity("prior", text, fact.kind)
        if made is not None and not made.doubtful:
            self.bad("prior", f"'{text}' has no doubt", f"write 25 mm +- 4 mm, or {NOTHING_HELD}")
            return None
        return made
