"""The firings that a calibration file lists: each with its scenario, its readings and a name.

Whatever else comes to list firings gives them from here too, as `Fired`: the rest of the package
knows no other source.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from thermsim.calibrating.readings import Readings
from thermsim.errors import Problem, ScenarioError
from thermsim.loading import load_scenario
from thermsim.readings.firing_log import FiringLog, load_log
from thermsim.scenario.loaded import Scenario

READ = Callable[[str, Scenario], Readings]
"""reads a file of readings that belongs to a firing of a scenario"""


@dataclass(frozen=True)
class Fired:
    """One firing with its readings. name: of the file of readings, for people and for guesses."""

    name: str
    scenario: Scenario
    readings: Readings


def read_log(written: Scenario, folder: Path, problems: list[Problem]) -> FiringLog | None:
    """The firing log that a file names; None without one, or if it cannot be read."""
    name = written.tree["log"]
    if name is None:
        return None
    if not (folder / name).is_file():
        problems.append(written.problem("log", f"no file '{name}'", "a file beside this one"))
        return None
    try:
        log = load_log(folder / name)
    except ScenarioError as error:
        problems += error.problems
        return None
    if not any(one.readings for one in log.firings):
        problems.append(written.problem("log", f"no firing of '{name}' has a file of readings",
                                        "a log with readings"))
    return log


def firing_names(written: Scenario, log: FiringLog | None) -> list[str]:
    """Names of all firings, as guesses may use them: the files of their readings."""
    logged = [Path(one.readings).name for one in log.firings if one.readings] if log else []
    return [*(str(given["file"]) for given in written.tree["readings"]), *logged]


def read_firings(written: Scenario, folder: Path, read: READ, log: FiringLog | None,
                 problems: list[Problem]) -> list[Fired]:
    """All firings that can be used, listed ones first, then those of the log; what is wrong with
    the others goes into `problems`."""
    listed = _listed(written, folder, read, problems)
    return listed + _logged(written, log, [one.name for one in listed], read, problems)


def _logged(written: Scenario, log: FiringLog | None, names: list[str], read: READ,
            problems: list[Problem]) -> list[Fired]:
    """Firings of the log that have readings, each with its own scenario."""
    found: list[Fired] = []
    for one in log.firings if log is not None else ():
        if one.readings is None:
            continue
        name = Path(one.readings).name
        if name in names:
            problems.append(written.problem("log", f"'{name}' is listed already",
                                            "a file of its own for each firing"))
            continue
        names.append(name)
        try:
            found.append(Fired(name, one.scenario, read(one.readings, one.scenario)))
        except ScenarioError as error:
            problems += error.problems
    return found


def _listed(written: Scenario, folder: Path, read: READ, problems: list[Problem]) -> list[Fired]:
    """Firings under `readings`."""
    names = [str(given["file"]) for given in written.tree["readings"]]
    found = []
    for number, name in enumerate(names, 1):
        if name in names[:number - 1]:
            problems.append(written.problem(f"readings.{number}.file",
                                            f"'{name}' is listed already",
                                            "a file of its own for each firing"))
            continue
        one = _read(written, number, folder, read, problems)
        found += [one] if one is not None else []
    return found


def _read(written: Scenario, number: int, folder: Path, read: READ,
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
