"""Findings as tables and JSON: every number of which the sentences speak, and more."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pandas as pd

from thermsim.calibrating.findings import Findings
from thermsim.calibrating.words import tell

SCHEMA = 1


def guesses_table(found: Findings) -> pd.DataFrame:
    """A row a guess; its numbers are in the unit of its row."""
    sure, rows = found.sure, []
    profiles = {one.guess.name: one for one in found.profiles}
    for k, guess in enumerate(found.fit.guesses):
        shown = guess.in_unit
        per = shown(1.0) - shown(0.0)  # units may have an offset: differences do not
        low, high = sure.intervals[k]
        own = profiles.get(guess.name)
        row: dict[str, Any] = {
            "guess": guess.name, "unit": guess.unit, "was": shown(guess.was),
            "now": shown(float(sure.values[k])),
            "standard_error": per * float(sure.standard_errors[k]),
            "low": shown(float(low)), "high": shown(float(high)), "at_bound": sure.at_bound[k],
            "from": shown(guess.low), "to": shown(guess.high),
            "held": None if guess.mean is None else shown(guess.mean),
            "held_spread": None if guess.spread is None else per * guess.spread,
            "spread_left": float(found.told.left[k])}
        if own is not None:
            row |= {"profile_low": None if own.low is None else shown(own.low),
                    "profile_high": None if own.high is None else shown(own.high)}
        rows.append(row)
    return pd.DataFrame(rows)


def misses_table(found: Findings) -> pd.DataFrame:
    """A row a reading: how far it is missed, in its stated errors, before and now."""
    question = found.fit.question
    made: dict[str, Any] = {"reading": question.labels, "spot": question.spot}
    if found.before is not None:
        made["miss_before_in_errors"] = found.before.misses
    made["miss_in_errors"] = found.fit.misses
    return pd.DataFrame(made)


def profiles_table(found: Findings) -> pd.DataFrame:
    """A row a value that was tried for a profile: how much the fit worsens there, in squared
    errors as found; `wanted` is the rise at the interval's ends."""
    wanted = found.sure.quantile**2
    return pd.DataFrame([
        {"guess": one.guess.name, "unit": one.guess.unit, "value": one.guess.in_unit(value),
         "rise": rise, "wanted": wanted} for one in found.profiles for value, rise in one.tried])


def record(found: Findings) -> dict[str, Any]:
    """Everything, as JSON takes it."""
    sure, made = found.sure, found.quality
    whole: dict[str, Any] = cleaned({
        "schema": SCHEMA,
        "guesses": guesses_table(found).to_dict("records"),
        "covariance": {"unit": "of the guesses, in the units of their rows",
                       "guesses": [guess.name for guess in found.fit.guesses],
                       "rows": covariance_in_units(found), "error": sure.error,
                       "degrees_of_freedom": sure.freedom, "level": sure.level},
        "correlation": sure.correlation.tolist(),
        "profiles": profiles_table(found).to_dict("records"),
        "untold": [{"seen": one.seen, "spread_left": one.known,
                    "parts": {guess.name: share for guess, share in one.named(found.fit.guesses)}}
                   for one in found.told.untold],
        "quality": {"squares": made.squares, "degrees_of_freedom": made.freedom,
                    "squares_per_degree": made.ratio, "chance": made.chance,
                    "spots": [{"spot": spot.spot, "count": spot.count, "mean": spot.mean,
                               "size": spot.size,
                               "runs": None if spot.runs is None else spot.runs.found,
                               "runs_expected": None if spot.runs is None else spot.runs.expected}
                              for spot in made.spots]},
        "starts": [{"weight": end.weight, "evaluations": end.evaluations,
                    "ended": end.how} for end in found.fit.ends],
        "misses": misses_table(found).to_dict("records"),
        "sentences": tell(found),
    })
    return whole


def covariance_in_units(found: Findings) -> list[list[float]]:
    """Covariance in the units in which the guesses are shown."""
    per = np.array([guess.in_unit(1.0) - guess.in_unit(0.0) for guess in found.fit.guesses])
    made: list[list[float]] = (found.sure.covariance * np.outer(per, per)).tolist()
    return made


def cleaned(value: Any) -> Any:
    """JSON has no infinity and no missing number.

    >>> cleaned({"low": float("nan"), "rows": [float("inf"), 1.0]})
    {'low': None, 'rows': [None, 1.0]}
    """
    if isinstance(value, dict):
        return {str(key): cleaned(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [cleaned(inner) for inner in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value
