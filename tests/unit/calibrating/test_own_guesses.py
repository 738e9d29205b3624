"""Guesses that belong to one firing, and firings kept out of the fit."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from thermsim.calibrating.calibrate import Calibrated, find
from thermsim.calibrating.from_file import read_calibration
from thermsim.calibrating.stove import (
    misses_as_written,
    of_firings,
    put_of,
    put_of_base,
    question,
)
from thermsim.calibrating.varied import tell_elsewhere
from thermsim.errors import ScenarioError, SolverError
from thermsim.loading import load_scenario

Write = Callable[..., Path]
OWN = """\
thermsim: 1
title: Each firing with water of its own, invented
scenario: short.yaml
readings:
  - file: readings.csv
  - file: second.csv
    scenario: second.yaml
guesses:
  - field: drum.water
    firings: [readings.csv]
    from: 6 l
    to: 16 l
    prior: nothing
  - field: drum.water
    firings: [second.csv]
    from: 6 l
    to: 16 l
    prior: nothing
  - field: firebox.emissivity
    from: 40 %
    to: 100 %
    prior: nothing
starts: 1
"""
OTHER_TRUTH = ("drum.water = 12 l", "firebox.emissivity = 85 %")
"""of the second firing: more water, the same sheet"""


@pytest.mark.parametrize(("old", "new", "line", "found", "allowed"), [
    ("firings: [second.csv]", "firings: [secund.csv]", 15, "no firing has 'secund.csv'",
     "one of: readings.csv, second.csv"),
    ("firings: [second.csv]", "firings: [readings.csv]", 14,
     "'drum.water' is guessed twice for readings.csv", "keep one"),
    ("    firings: [second.csv]\n", "", 14, "'drum.water' is guessed twice for readings.csv",
     "keep one"),
    ("firebox.emissivity\n    from: 40 %\n    to: 100 %\n    prior: nothing", "gas_path.stub."
     "emissivity\n    from: 40 %\n    to: 100 %\n  - field: gas_path.2.emissivity\n    from: 40 %\n"
     "    to: 100 %", 22, "'gas_path.2.emissivity' is guessed twice", "keep one"),
    ("starts: 1", "hold_out: [second.csv]", 15, "second.csv: held out, so nothing tells it",
     "a firing that is fitted to: readings.csv"),
    ("starts: 1", "hold_out: [readings.csv, second.csv]", 23, "every spot is held out",
     "leave some to fit to"),
    ("starts: 1", "hold_out: [third.csv]", 23, "nothing is read at 'third.csv'", "second.csv"),
    ("  - file: second.csv", "  - file: readings.csv", 6, "'readings.csv' is listed already",
     "a file of its own"),
])
def test_mistakes_are_told_with_their_line(write_calibration: Write, old: str, new: str,
                                           line: int, found: str, allowed: str) -> None:
    place = write_calibration(OWN.replace(old, new, 1))
    with pytest.raises(ScenarioError) as told:
        read_calibration(place)
    assert any(problem.line == line and found in problem.found and allowed in problem.allowed
               for problem in told.value.problems), str(told.value)


def test_own_guesses_move_their_own_firing_alone(write_calibration: Write) -> None:
    made = read_calibration(write_calibration(OWN))
    asked = question(made)
    assert [guess.name for guess in asked.guesses] == [
        "drum.water in readings.csv", "drum.water in second.csv", "firebox.emissivity"]
    was = np.array([guess.was for guess in asked.guesses])
    here = asked.misses(was)
    of = np.array(list(of_firings(made)))
    for number, name in ((0, "readings.csv"), (1, "second.csv")):
        moved = was.copy()
        moved[number] *= 0.8
        away = np.abs(asked.misses(moved) - here)
        assert away[of == name].max() > 1.0
        assert away[of != name].max() == 0.0
    shared = was.copy()
    shared[2] *= 0.8
    away = np.abs(asked.misses(shared) - here)
    assert all(away[of == name].max() > 0.1 for name in ("readings.csv", "second.csv"))


def test_where_guesses_belong(write_calibration: Write) -> None:
    """The first firing is fired as the file's scenario stands, so its guesses are that one's."""
    made = read_calibration(write_calibration(OWN))
    assert [placed.number for placed in put_of(made, "readings.csv")] == [0, 2]
    assert [placed.number for placed in put_of(made, "second.csv")] == [1, 2]
    assert [placed.number for placed in put_of_base(made)] == [0, 2]


def found_of(write: Write, text: str, **more: object) -> Calibrated:
    return find(read_calibration(write(text, OTHER_TRUTH)), jobs=1, **more)  # type: ignore[arg-type]


def test_hidden_guesses_of_each_firing_are_found_and_written_back(write_calibration: Write,
                                                                  tmp_path: Path) -> None:
    """Eight litres in the first, twelve in the second, one sheet."""
    done = found_of(write_calibration, OWN, answers=("flue_temperature_peak_C",), draws=20)
    values, errors = done.found.sure.values, done.found.sure.standard_errors
    assert (np.abs(values - [0.008, 0.012, 0.85]) < 0.15 * errors).all()
    assert [back.file for back in done.backs] == [
        "calibrated.yaml", "calibrated_readings.yaml", "calibrated_second.yaml"]
    folder = tmp_path / "found"
    done.save(folder)
    for name, litres in (("calibrated", 8.0), ("calibrated_readings", 8.0),
                         ("calibrated_second", 12.0)):
        water = load_scenario(folder / f"{name}.yaml").fact("drum.water")
        assert water is not None
        assert 1e3 * water.value == pytest.approx(litres, rel=0.02)
    said = done.words()
    assert ("calibrated_second.yaml: the scenario of second.csv, with what was found of it alone "
            "and of the plant.") in said
    assert "The firing of second.csv with what was found, against that before:" in said
    told = json.loads((folder / "calibration.json").read_text())
    assert [row["firings"] for row in told["guesses"]] == [["readings.csv"], ["second.csv"], []]
    assert [row["firing"] for row in told["firings"]] == ["readings.csv", "second.csv"]
    curves = pd.read_csv(folder / "curves.csv")
    assert set(curves["firing"]) == {"readings.csv", "second.csv"}
    assert (curves["low"] <= curves["now"]).all()
    assert (curves["low_drawn"] <= curves["high_drawn"]).all()


def test_a_whole_firing_is_foretold_by_the_others(write_calibration: Write) -> None:
    text = OWN.replace("""  - field: drum.water
    firings: [second.csv]
    from: 6 l
    to: 16 l
    prior: nothing
""", "").replace("    firings: [readings.csv]\n", "") + "hold_out: [second.csv]\n"
    done = find(read_calibration(write_calibration(text)), jobs=1)
    assert done.held is not None
    assert len(done.found.fit.misses) == len(done.held.now) == 6
    # readings without error of the same plant on another day: met within the fit's own error
    assert np.abs(done.held.before).max() > 1.0
    assert np.abs(done.held.now).max() < 0.2
    said = "\n".join(done.words())
    assert "6 readings were held out: missed by " in said
    assert "second.csv, held out: 6 readings, missed by " in said
    assert "Held out of second.csv, by spot, with how many were read: water " in said
    kept = [row for row in done.missed if row.held_out]
    assert {row.firing for row in kept} == {"second.csv"}
    assert [row.now for row in kept] == pytest.approx(done.held.now.tolist())


def test_before_and_after_of_every_firing(write_calibration: Write) -> None:
    """As it was is the scenario itself; as found is the scenario that is written."""
    text = OWN.replace("starts: 1", "starts: 1\nhold_out: [flue]")
    done = found_of(write_calibration, text)
    assert [one.firing for one in done.fired] == ["", "second.csv"]
    first = done.fired[0]
    rows = {row.name: row for row in first.comparison.output_rows}
    peak = rows["flue_temperature_peak_C"]
    assert peak.values[0] == first.before.summary["flue_temperature_peak_C"]
    assert peak.values[1] == first.after.summary["flue_temperature_peak_C"]
    assert first.after.scenario.hash == done.scenario.hash


def test_what_cannot_be_fired_is_told_and_the_rest_kept(write_calibration: Write, tmp_path: Path,
                                                        monkeypatch: pytest.MonkeyPatch) -> None:
    """A whole firing whose tables fail, and an outlook that fails, after a good fit."""
    import thermsim.calibrating.calibrate as story
    import thermsim.simulation as simulation

    def fails(*_: object, **__: object) -> None:
        raise SolverError("it would not be solved")

    calibration = read_calibration(write_calibration(OWN))
    monkeypatch.setattr(simulation, "simulate", fails)
    monkeypatch.setattr(story, "look_ahead", fails)
    done = find(calibration, jobs=1, answers=("heat_released_J",))
    said = "\n".join(done.words())
    assert "calibrated.yaml could not be fired before and after: it would not be solved" in said
    assert "It could not be worked out: it would not be solved" in said
    done.save(tmp_path / "found")
    assert (tmp_path / "found" / "calibrated_second.yaml").is_file()
    assert (tmp_path / "found" / "guesses.png").is_file()
    assert not list((tmp_path / "found").glob("curves_*"))


def test_before_is_as_each_scenario_stands(write_calibration: Write, tmp_path: Path) -> None:
    """The second firing's own scenario says 12 l, the first's 10 l: before, each is fired so."""
    shared = OWN.replace("    firings: [readings.csv]\n", "").replace("""  - field: drum.water
    firings: [second.csv]
    from: 6 l
    to: 16 l
    prior: nothing
""", "")
    place = write_calibration(shared)
    (tmp_path / "second.yaml").write_text(
        (tmp_path / "second.yaml").read_text() + "drum:\n  water: 12 l\n")
    calibration = read_calibration(place)
    assert calibration.varied[0].elsewhere == (("second.csv", pytest.approx(0.012)),)
    assert tell_elsewhere(calibration.varied) == [
        "drum.water: 12 l in the scenario of second.csv before, not 10 l."]
    asked = question(calibration)
    was = np.array([guess.was for guess in asked.guesses])
    other = was.copy()
    other[0] = 0.012
    made, of = misses_as_written(asked), np.array(list(of_firings(calibration)))
    for name, values in (("readings.csv", was), ("second.csv", other)):
        assert made[of == name] == pytest.approx(asked.misses(values)[of == name], abs=1e-6)
