"""Figures of a calibration: what is drawn, handed to the plots."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pandas as pd

from thermsim.batches.table import flat_answers
from thermsim.calibrating.curves_pictured import fired_of, held_of, spots_pictured
from thermsim.calibrating.guesses import Guess
from thermsim.calibrating.outlook import Outlook
from thermsim.calibrating.profile import Profile
from thermsim.calibrating.written_back import file_names
from thermsim.comparing.quantities import shown, unit_of
from thermsim.plots.figure_files import write_pictures
from thermsim.plots.fit_correlation import correlation_figure
from thermsim.plots.fit_curves import fit_curves_figure
from thermsim.plots.fit_held_out import held_out_figure
from thermsim.plots.fit_misses import A_SHEET as MISSES_A_SHEET
from thermsim.plots.fit_misses import fit_misses_figure
from thermsim.plots.fit_profiles import A_SHEET as PROFILES_A_SHEET
from thermsim.plots.fit_profiles import Curve, profiles_figure
from thermsim.plots.strips import A_SHEET, Legend, Strip, strips_figure

if TYPE_CHECKING:
    from thermsim.calibrating.calibrate import Calibrated

CURVES_A_SHEET = 6
LONGEST_TITLE = 92
"""letters that a sheet has room for"""
OURS = ("guesses*.png", "profiles*.png", "correlation.png", "answers*.png", "misses_*.png",
        "curves_*.png", "held_out.png")
NORMAL_95 = 1.96
"""spreads of a normal distribution within which 95 % of it lie (tables)"""
ROOM = 0.25
Makers = dict[str, Callable[[], Any]]


def save_calibration_figures(made: Calibrated, folder: Path) -> list[Path]:
    """Write all figures as PNG; gives the paths. Those of a calibration before are taken away."""
    for pattern in OURS:
        for old in folder.glob(pattern):
            old.unlink()
    return write_pictures(figures_of(made), folder, small=True)


def figures_of(made: Calibrated) -> Makers:
    """Every figure by the name of its file."""
    found, makers = made.found, Makers()
    _sheets(makers, "guesses", "Guesses", made, strips_of(made), A_SHEET, partial(
        strips_figure, legend=Legend(
            "before", "found", f"between, {100 * found.sure.level:g} %, by straight lines",
            "by its profile" if found.profiles else "", "held before the readings, 95 %")))
    _sheets(makers, "profiles", "Profiles", made,
            [_profile(made, one) for one in found.profiles], PROFILES_A_SHEET, profiles_figure)
    if len(found.fit.guesses) > 1:
        makers["correlation"] = partial(
            correlation_figure, _title("How the guesses hang together", made),
            [guess.name for guess in found.fit.guesses], found.sure.correlation)
    answers = [one for one in made.outlooks if np.isfinite(one.value)]
    _sheets(makers, "answers", "Answers", made, [_answer(made, one) for one in answers], A_SHEET,
            partial(strips_figure, legend=Legend(
                "before", "with what was found", "between, by straight lines",
                "by firings drawn" if any(one.sampled for one in answers) else "")))
    names = file_names([one.name for one in made.calibration.firings])
    for one, name in zip(made.calibration.firings, names, strict=True):
        _sheets(makers, f"misses_{name}", f"Misses · {one.name}", made,
                list(_misses(made, one.name)), MISSES_A_SHEET,
                lambda title, parts: fit_misses_figure(title, pd.concat(parts)))
        _sheets(makers, f"curves_{name}", f"Curves · {one.name}", made,
                spots_pictured(made, one), CURVES_A_SHEET, fit_curves_figure)
    rows = held_out_rows(made)
    if len(rows):
        makers["held_out"] = partial(
            held_out_figure, _title("Held out, predicted against measured", made), rows,
            list(dict.fromkeys(rows["spot"])))
    return makers


def _sheets(makers: Makers, name: str, head: str, made: Calibrated, parts: list[Any], most: int,
            draw: Callable[..., Any]) -> None:
    """As many sheets as the parts need; a number behind the name where there are several."""
    sheets = [parts[k:k + most] for k in range(0, len(parts), most)]
    for number, sheet in enumerate(sheets, 1):
        several = len(sheets) > 1
        count = f" {number}/{len(sheets)}" if several else ""
        makers[f"{name}_{number}" if several else name] = partial(
            draw, _title(f"{head}{count}", made), sheet)


def _title(head: str, made: Calibrated) -> str:
    whole = f"{head} · {made.calibration.title}"
    return whole if len(whole) <= LONGEST_TITLE else f"{whole[:LONGEST_TITLE - 1].rstrip()}…"


def strips_of(made: Calibrated) -> list[Strip]:
    """A strip for each guess, in its own unit, from bound to bound."""
    sure = made.found.sure
    profiles = {one.guess.name: one for one in made.found.profiles}
    return [_strip(guess, float(sure.values[k]), sure.intervals[k], bool(sure.untold[k]),
                   profiles.get(guess.name)) for k, guess in enumerate(sure.guesses)]


def _strip(guess: Guess, now: float, interval: Any, untold: bool, profile: Profile | None
           ) -> Strip:
    low, high = (float(end) for end in interval)
    words = [f"{guess.text(guess.was)} before, {guess.text(now)} found",
             "nothing decides it" if untold else
             f"between {guess.text(low)} and {guess.text(high)}"]
    held = None
    if guess.mean is not None and guess.spread is not None:
        half = NORMAL_95 * guess.spread
        held = (guess.in_unit(guess.mean - half), guess.in_unit(guess.mean + half))
    second = None
    if profile is not None:
        second = tuple(None if end is None else guess.in_unit(end)
                       for end in (profile.low, profile.high))
        told = [guess.text(end) if end is not None else "open"
                for end in (profile.low, profile.high)]
        words.append(f"by its profile {told[0]} to {told[1]}")
    return Strip(guess.name, guess.in_unit(guess.low), guess.in_unit(guess.high),
                 (guess.text(guess.low), guess.text(guess.high)), guess.in_unit(guess.was),
                 guess.in_unit(now),
                 (None, None) if untold else (guess.in_unit(low), guess.in_unit(high)),
                 tuple(words), held, (second[0], second[1]) if second else None)


def _profile(made: Calibrated, one: Profile) -> Curve:
    sure, guess = made.found.sure, one.guess
    k = [held.name for held in sure.guesses].index(guess.name)
    per = guess.in_unit(1.0) - guess.in_unit(0.0)
    return Curve(guess.name, guess.unit, np.array([guess.in_unit(value) for value, _ in one.tried]),
                 np.array([rise for _, rise in one.tried]), guess.in_unit(float(sure.values[k])),
                 per * float(sure.standard_errors[k]), sure.quantile**2)


def _answer(made: Calibrated, one: Outlook) -> Strip:
    """An answer on a strip round all that is told of it."""
    unit = unit_of(one.answer)
    fired = next((fired for fired in made.fired if not fired.firing), None)
    was = None if fired is None else flat_answers(fired.before.summary).get(one.answer)
    was = float(was) if isinstance(was, int | float) else None
    drawn = (one.sampled[0], one.sampled[2]) if one.sampled is not None else None
    ends = [end for end in (was, one.value, one.low, one.high, *(drawn or ()))
            if end is not None and np.isfinite(end)]
    room = ROOM * max(max(ends) - min(ends), 1e-9)
    low, high = min(ends) - room, max(ends) + room
    words = [f"{shown(was, unit)} before, {shown(one.value, unit)} found",
             f"between {shown(one.low, unit)} and {shown(one.high, unit)}"]
    if drawn is not None:
        words.append(f"by firings drawn {shown(drawn[0], unit)} to {shown(drawn[1], unit)}")
    return Strip(one.answer, low, high, (shown(low, unit), shown(high, unit)), was, one.value,
                 (one.low, one.high), tuple(words), None, drawn)


def _misses(made: Calibrated, firing: str) -> Iterator[pd.DataFrame]:
    """The readings of a firing, a table for each spot."""
    rows = pd.DataFrame([{"spot": row.spot, "before": row.before, "now": row.now,
                          "held_out": row.held_out} for row in made.missed
                         if row.firing == firing])
    for spot in dict.fromkeys(rows["spot"] if len(rows) else ()):
        yield rows[rows["spot"] == spot]


def held_out_rows(made: Calibrated) -> pd.DataFrame:
    """Temperatures that are values and were held out, with the model's before and now."""
    out = {(row.firing, row.number) for row in made.missed if row.held_out}
    rows = []
    firings = [one for one in made.calibration.firings if any(one.name == name for name, _ in out)]
    for one in firings:
        fired = fired_of(made, one.name)
        if fired is None:
            continue
        before, now = (held_of(one, result) for result in (fired.before, fired.after))
        for k, (was, is_now) in enumerate(zip(before.rows, now.rows, strict=True)):
            reading = is_now.reading
            if (one.name, k) in out and is_now.has_miss and was.has_miss and (
                    reading.is_temperature):
                of = f" ({one.name})" if len(firings) > 1 else ""
                rows.append({"spot": f"{reading.written}{of}", "corrected": reading.corrected,
                             "before": was.met.value, "now": is_now.met.value,
                             "uncertainty": reading.uncertainty})
    return pd.DataFrame(rows)
