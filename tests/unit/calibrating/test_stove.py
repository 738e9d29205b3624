"""The stove: files read, mistakes told with their lines, guesses found, results kept."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from thermsim.calibrating.calibrate import calibrate, find
from thermsim.calibrating.from_file import read_calibration
from thermsim.calibrating.readings import read_file
from thermsim.calibrating.stove import question
from thermsim.errors import ResultsError, ScenarioError
from thermsim.loading import load_scenario
from thermsim.readings.file import load_readings
from thermsim.readings.firings import known_of
from thermsim.readings.residuals import residuals
from thermsim.simulation import simulate, solve_firing

Write = Callable[..., Path]
SHED = ("shed_readings", "shed_second_firing", "shed_readings_second")


def test_priors_are_written_or_the_scenario_s_own_doubt(write_calibration: Write) -> None:
    made = read_calibration(write_calibration())
    water, emissivity = (one.guess for one in made.varied)
    # limits of +- 3 l, all between as likely: 3/sqrt(3), GUM 4.3.7
    assert (water.mean, water.spread) == pytest.approx((0.010, 0.003 / 3**0.5))
    fact = made.base.fact("firebox.emissivity")
    assert fact is not None
    assert emissivity.mean == pytest.approx(fact.value)
    assert emissivity.spread == pytest.approx((fact.high - fact.low) / 2.0 / 3**0.5)
    assert water.text(0.0123) == "12.3 l"
    assert water.in_unit(0.0123) == pytest.approx(12.3)


def test_nothing_held(write_calibration: Write) -> None:
    place = write_calibration()
    place.write_text(place.read_text().replace("10 l +- 3 l", "nothing"))
    place.write_text(place.read_text().replace("to: 100 %", "to: 100 %\n    prior: nothing"))
    assert not any(one.guess.held for one in read_calibration(place).varied)


@pytest.mark.parametrize(("old", "new", "line", "found"), [
    ("drum.water", "drum.watter", 7, "unknown key"),
    ("drum.water", "drum.casing.2.material", 7, "is no quantity"),
    ("from: 6 l", "from: 6 kg", 7, "6 kg"),
    ("to: 16 l", "to: 4 l", 9, "is not above"),
    ("from: 6 l", "from: 12 l", 8, "is not between"),
    ("10 l +- 3 l", "10 l", 10, "has no doubt"),
    ("10 l +- 3 l", "10 kg +- 3 kg", 10, "kg"),
    ("file: readings.csv", "file: nowhere.csv", 5, "no file"),
    ("starts: 1", "starts: 0", 14, "0"),
    ("starts: 1", "hold_out: [chimney]", 14, "nothing is read at 'chimney'"),
    ("firebox.emissivity", "drum.water", 11, "is guessed twice"),
])
def test_mistakes_are_told_with_their_line(write_calibration: Write, old: str, new: str, line: int,
                                           found: str) -> None:
    place = write_calibration()
    place.write_text(place.read_text().replace(old, new, 1))
    with pytest.raises(ScenarioError) as told:
        read_calibration(place)
    assert any(problem.line == line and found in str(problem) for problem in told.value.problems), (
        str(told.value))


def test_all_mistakes_at_once(write_calibration: Write) -> None:
    place = write_calibration()
    place.write_text(place.read_text().replace("to: 16 l", "to: 4 l").replace(
        "readings.csv", "nowhere.csv"))
    with pytest.raises(ScenarioError) as told:
        read_calibration(place)
    assert len(told.value.problems) == 2


def test_a_guess_must_stand_in_every_scenario(write_calibration: Write, tmp_path: Path) -> None:
    """The second firing is told without a drum: it cannot take the drum's water."""
    place = write_calibration()
    place.write_text(place.read_text().replace(
        "guesses:", "  - file: second.csv\n    scenario: second.yaml\n"
        "    changes: ['drum = none']\nguesses:"))
    with pytest.raises(ScenarioError):
        read_calibration(place)


@pytest.mark.parametrize("readings", ["shed_readings", "shed_readings_second"])
def test_misses_are_those_of_the_whole_tables(readings: str, scenarios: Path) -> None:
    """Read at the moments alone, a firing misses by as much as its tables do; between rows 5 s
    apart straight lines are a little off."""
    scenario = load_scenario(scenarios / ("cold_start.yaml" if readings == SHED[0]
                                          else f"{SHED[1]}.yaml"))
    path = str(scenarios / f"{readings}.csv")
    seen = read_file(path, scenario)
    run, _ = solve_firing(scenario)
    full = residuals(seen.readings, simulate(scenario))
    assert len(load_readings(path, known_of(scenario))) >= len(seen.readings) == len(full)
    np.testing.assert_allclose(seen.misses(run), full, atol=0.05, rtol=0.01)


def test_a_guessed_emissivity_corrects_the_readings_anew(scenarios: Path) -> None:
    """Read and fired with the same other emissivity, or read with the scenario's and fired with
    that other one: the same."""
    place, other = str(scenarios / "shed_readings.csv"), ("firebox.emissivity = 60 %",)
    plain = load_scenario(scenarios / "cold_start.yaml")
    changed = load_scenario(scenarios / "cold_start.yaml", other)
    seen, again = read_file(place, plain), read_file(place, changed)
    run, _ = solve_firing(changed)
    at = [k for k, spot in enumerate(seen.spots) if spot == "firebox side"]
    assert at
    sizes = [np.array([one.readings[k].uncertainty for k in at]) for one in (seen, again)]
    np.testing.assert_allclose(seen.misses(run)[at] * sizes[0], again.misses(run)[at] * sizes[1],
                               rtol=1e-9)
    kept = residuals(seen.readings, seen.seen(run))[at]
    assert np.abs(kept - seen.misses(run)[at]).max() > 0.1


def test_hidden_guesses_are_found(write_calibration: Write) -> None:
    """Readings without error and nothing held: what was planted comes back, on one core and two."""
    place = write_calibration()
    place.write_text(place.read_text().replace("10 l +- 3 l", "nothing").replace(
        "to: 100 %", "to: 100 %\n    prior: nothing"))
    one = calibrate(place, jobs=1)
    values, errors = one.found.sure.values, one.found.sure.standard_errors
    assert (np.abs(values - [0.008, 0.85]) < 0.1 * errors).all()
    assert values[0] == pytest.approx(0.008, rel=0.01)
    two = calibrate(place, jobs=2)
    assert two.found.sure.values == pytest.approx(values)
    assert two.found.sure.covariance == pytest.approx(one.found.sure.covariance)


def test_several_firings_and_held_out_spots(write_calibration: Write) -> None:
    place = write_calibration()
    place.write_text(place.read_text().replace(
        "guesses:", "  - file: second.csv\n    scenario: second.yaml\nguesses:")
        + "hold_out: [flue]\n")
    made = read_calibration(place)
    asked = question(made)
    assert len(asked.labels) == 8
    assert asked.labels[0] == "readings.csv, water at 6 min"
    assert asked.spots[-1] == "second.csv, firebox side"
    assert len(question(made, held_out=True).labels) == 4
    done = find(made, jobs=1)
    assert done.held is not None
    assert np.abs(done.held.now).max() < np.abs(done.held.before).max()
    assert any(line.startswith("4 readings were held out") for line in done.words())


def test_kept(write_calibration: Write, tmp_path: Path) -> None:
    done = calibrate(write_calibration(), jobs=1, answers=("heat_released_J",
                                                           "flue_temperature_peak_C"))
    folder = tmp_path / "found"
    done.save(folder)
    numbers = json.loads((folder / "calibration.json").read_text())
    water = load_scenario(folder / "calibrated.yaml").fact("drum.water")
    assert water is not None
    # written to five figures, and its doubt to three
    assert water.value == pytest.approx(done.found.sure.values[0], rel=1e-4)
    assert (water.high - water.low) / 2.0 / 3**0.5 == pytest.approx(
        done.found.sure.standard_errors[0], rel=1e-2)
    assert numbers["changes"] == list(done.changes)
    assert np.array(numbers["covariance"]["rows"]).shape == (2, 2)
    assert numbers["answers"][1]["low"] < numbers["answers"][1]["value"]
    assert list(pd.read_csv(folder / "guesses.csv")["guess"]) == ["drum.water",
                                                                  "firebox.emissivity"]
    assert len(pd.read_csv(folder / "misses.csv")) == 6
    assert (folder / "calibration.txt").read_text().startswith("Trial, invented")


def test_unknown_answer_is_told_before_anything_is_fired(write_calibration: Write) -> None:
    with pytest.raises(ResultsError, match="time_to_boil_s"):
        calibrate(write_calibration(), answers=("time_to_bail_s",))


def test_best_next_reading_is_of_use(write_calibration: Write) -> None:
    """With the reading that is named best, the answer's doubt is what was foretold."""
    place = write_calibration()
    done = calibrate(place, jobs=1, answers=("flue_temperature_peak_C",))
    outlook = done.outlooks[0]
    assert outlook.gains[0].left < outlook.gains[-1].left <= 1.0
    assert outlook.spread > 0.0
    assert outlook.low < outlook.value < outlook.high
