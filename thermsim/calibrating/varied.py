"""Guesses as a calibration file writes them: each read against the firings to which it belongs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from thermsim.calibrating.declared import NOTHING_HELD
from thermsim.calibrating.fired import Fired
from thermsim.calibrating.guesses import Guess
from thermsim.dimensions import DIMENSIONS
from thermsim.errors import Problem, QuantityError, ScenarioError
from thermsim.scenario.facts import Fact
from thermsim.scenario.load import load_text
from thermsim.scenario.loaded import Scenario
from thermsim.units import Quantity, format_quantity, is_quantity, parse_quantity

DEVIATIONS = math.sqrt(3.0)
"""standard deviations that a doubt spans either way: limits, all between them as likely, GUM (JCGM
100:2008) 4.3.7, as the readings' instruments are taken"""


@dataclass(frozen=True)
class Varied:
    """A guess as it is put into a scenario: which fields, in which unit numbers are written.

    firings: names of those to which it belongs; all if empty. elsewhere: firings whose own scenario
    says otherwise of it, and what.
    """

    guess: Guess
    fields: tuple[str, ...]
    unit: str
    firings: tuple[str, ...] = ()
    elsewhere: tuple[tuple[str, float], ...] = ()

    def belongs_to(self, firing: str) -> bool:
        """Whether it is put into the scenario of a firing."""
        return not self.firings or firing in self.firings


def read_guesses(written: Scenario, base: Scenario, firings: Sequence[Fired],
                 names: Sequence[str], problems: list[Problem]) -> list[Varied]:
    """All guesses that can be used. names: of all firings, also of those that cannot be used."""
    found = []
    paths: dict[str, str] = {}
    for number, given in enumerate(written.tree["guesses"], 1):
        own = tuple(given["firings"] or ())
        strangers = [one for one in own if one not in names]
        problems += [written.problem(f"guesses.{number}.firings", f"no firing has '{one}'",
                                     f"one of: {', '.join(names)}") for one in strangers]
        there = [one for one in firings if one.name in own]
        if strangers or (own and not there):
            continue
        reader = _Guess(written, number, there[0].scenario if own else base, problems, paths)
        made = reader.read(given)
        if made is not None:
            found.append(replace(made, elsewhere=_elsewhere(made, paths, firings)))
    _twice_in_one(written, paths, names, problems)
    problems += _not_in_all(written, base, firings)
    return found


def _elsewhere(made: Varied, paths: dict[str, str], firings: Sequence[Fired]
               ) -> tuple[tuple[str, float], ...]:
    """Firings whose own scenario has another value than the guess begins with."""
    told = []
    for one in firings:
        fact = one.scenario.fact(paths[made.fields[0]]) if made.belongs_to(one.name) else None
        if fact is not None and fact.value is not None and not math.isclose(
                float(fact.value), made.guess.was, rel_tol=1e-9):
            told.append((one.name, float(fact.value)))
    return tuple(told)


def tell_elsewhere(varied: Sequence[Varied]) -> list[str]:
    """A sentence for each firing whose own scenario says otherwise of a guess."""
    return [f"{one.guess.name}: {one.guess.text(value)} in the scenario of {name} before, not "
            f"{one.guess.text(one.guess.was)}." for one in varied for name, value in one.elsewhere]


def _twice_in_one(written: Scenario, paths: dict[str, str], names: Sequence[str],
                  problems: list[Problem]) -> None:
    """Fields that two guesses would put into the same firing."""
    seen: list[tuple[str, str]] = []
    for number, given in enumerate(written.tree["guesses"], 1):
        own = tuple(given["firings"] or names)
        for one in given["field"]:
            at = [(paths.get(one, one), name) for name in own]
            again = [name for pair in at for name in pair[1:] if pair in seen]
            if again:
                where = "" if len(again) == len(names) else f" for {', '.join(again)}"
                problems.append(written.problem(f"guesses.{number}.field",
                                                f"'{one}' is guessed twice{where}", "keep one"))
            seen += at


def _not_in_all(written: Scenario, base: Scenario, firings: Sequence[Fired]) -> list[Problem]:
    """Guesses that the own scenario of a firing cannot take."""
    wrong = []
    for number, given in enumerate(written.tree["guesses"], 1):
        changes = [f"{one} = {given['from']}" for one in given["field"]]
        own = tuple(given["firings"] or ())
        for fired in firings:
            read_already = fired.name not in own[1:] if own else fired.scenario.text == base.text
            if read_already:
                continue
            try:
                load_text(fired.scenario.text, changes, name=str(fired.scenario.path))
            except ScenarioError as error:
                wrong.append(written.problem(
                    f"guesses.{number}.field", f"{fired.scenario.path}: {error.problems[0].found}",
                    error.problems[0].allowed))
    return wrong


class _Guess:
    """Reads one guess against a scenario; what is wrong goes into `problems`, and by which path
    the scenario knows each field into `paths`."""

    def __init__(self, written: Scenario, number: int, base: Scenario,
                 problems: list[Problem], paths: dict[str, str]) -> None:
        self.written, self.number, self.base, self.problems = written, number, base, problems
        self.paths = paths

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
        return Varied(guess, tuple(given["field"]), DIMENSIONS[fact.kind].si,
                      tuple(given["firings"] or ()))

    def _guess(self, given: Any, fact: Fact, ends: tuple[float, float], unit: str) -> Guess:
        one, like = DIMENSIONS[fact.kind].units[unit], given["from"]
        factor, offset = float(one.factor), float(one.offset)
        own = f" in {' and '.join(given['firings'])}" if given["firings"] else ""
        return Guess(
            f"{' and '.join(given['field'])}{own}", float(fact.value), *ends, unit=one.name,
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
            self.paths[name] = str(path)
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
