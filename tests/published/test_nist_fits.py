"""Fits held to certified ones: NIST Statistical Reference Datasets, nonlinear regression.

From https://www.itl.nist.gov/div898/strd/nls/nls_main.shtml; the files in references/nist_strd are
as published there, with starting values and certified values in their heads. Fitted and told by
the same code as a stove. All sets get there from both certified starts, so no second one is needed.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest

from thermsim.calibrating.differences import EXACT
from thermsim.calibrating.findings import findings
from thermsim.calibrating.fit import fit
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.question import Question, Settings
from thermsim.calibrating.written import record

pytestmark = pytest.mark.published
FOLDER = Path(__file__).parents[1] / "references" / "nist_strd"
MODELS: dict[str, Callable[[Any, Any], Any]] = {
    "BoxBOD": lambda b, x: b[0] * (1.0 - np.exp(-b[1] * x)),
    "Misra1a": lambda b, x: b[0] * (1.0 - np.exp(-b[1] * x)),
    "Chwirut2": lambda b, x: np.exp(-b[0] * x) / (b[1] + b[2] * x),
    "DanWood": lambda b, x: b[0] * x ** b[1],
    "Eckerle4": lambda b, x: b[0] / b[1] * np.exp(-0.5 * ((x - b[2]) / b[1]) ** 2),
    "Lanczos3": lambda b, x: (b[0] * np.exp(-b[1] * x) + b[2] * np.exp(-b[3] * x)
                              + b[4] * np.exp(-b[5] * x)),
    "MGH09": lambda b, x: b[0] * (x**2 + x * b[1]) / (x**2 + x * b[2] + b[3]),
    "Thurber": lambda b, x: ((b[0] + b[1] * x + b[2] * x**2 + b[3] * x**3)
                             / (1.0 + b[4] * x + b[5] * x**2 + b[6] * x**3)),
}
"""as printed in each file's head"""
VALUE_DIGITS, ERROR_DIGITS, SQUARES_DIGITS = 6, 4, 6
FITTED = Settings(steps=EXACT, fine_steps=EXACT, rough=1e-15, closest=1e-15, most=5000, secants=0,
                  by_slope=True)


class Certified(NamedTuple):
    """A set: starts (2, parameters), certified values, standard errors, sum of squares."""

    starts: Any
    values: Any
    errors: Any
    squares: float
    deviation: float
    freedom: int
    y: Any
    x: Any


def read_set(name: str) -> Certified:
    text = (FOLDER / f"{name}.dat").read_text(encoding="ascii")
    rows = np.array([[float(number) for number in found] for found in re.findall(
        r"^\s+b\d+ =\s+(\S+)\s+(\S+)\s+(\S+)\s+(\S+)", text, re.MULTILINE)])

    def head(words: str) -> float:
        found = re.search(rf"{words}:\s+(\S+)", text)
        assert found, words
        return float(found[1])

    data = text.rsplit("Data:", 1)[1].splitlines()[1:]
    table = np.array([[float(number) for number in line.split()] for line in data if line.strip()])
    assert len(table) == head("Number of Observations")
    return Certified(rows[:, :2].T, rows[:, 2], rows[:, 3], head("Residual Sum of Squares"),
                     head("Residual Standard Deviation"), int(head("Degrees of Freedom")),
                     table[:, 0], table[:, 1])


def test_every_set_in_the_folder_is_fitted() -> None:
    assert {path.stem for path in FOLDER.glob("*.dat")} == set(MODELS)


@pytest.mark.parametrize("start", [0, 1], ids=["start 1", "start 2"])
@pytest.mark.parametrize("name", MODELS)
def test_values_and_standard_errors_nist_strd(name: str, start: int) -> None:
    known, model = read_set(name), MODELS[name]
    asked = Question(
        tuple(Guess(f"b{k}", float(value)) for k, value in enumerate(known.starts[start], 1)),
        lambda b: model(b, known.x) - known.y, tuple(f"at {x:g}" for x in known.x))
    with np.errstate(over="ignore", divide="ignore", invalid="ignore"):
        found = findings(fit(asked, FITTED, [known.starts[start]]), errors_stated=False)
    told = json.loads(json.dumps(record(found), allow_nan=False))
    values = [row["now"] for row in told["guesses"]]
    errors = [row["standard_error"] for row in told["guesses"]]
    np.testing.assert_allclose(values, known.values, rtol=10.0**-VALUE_DIGITS)
    np.testing.assert_allclose(errors, known.errors, rtol=10.0**-ERROR_DIGITS)
    quality = told["quality"]
    assert quality["degrees_of_freedom"] == pytest.approx(known.freedom, abs=1e-6)
    assert quality["squares"] == pytest.approx(known.squares, rel=10.0**-SQUARES_DIGITS)
    assert f"Residual standard deviation {known.deviation:.4g}" in " ".join(told["sentences"])
