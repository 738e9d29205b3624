"""Findings in sentences: each guess, what cannot be told apart, how well the readings are met."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from thermsim.calibrating.findings import Findings
from thermsim.calibrating.quality import ODD
from thermsim.calibrating.told import MOVED

SAME = 1.0
"""rise of the weight, in squared errors as found, up to which an end counts as the same: one
standard error of one guess; the rest is left to bringing the best to rest"""
MOST_TOLD = 5
BIAS = 2.0
"""standard errors of a spot's mean miss from which on it is told"""
BOUND_WORDS = {"low": "lower", "high": "upper"}


def tell(found: Findings) -> list[str]:
    """All sentences, in the order in which they are wanted."""
    return [*_guesses(found), *_apart(found), *_starts(found), *_quality(found), *_left(found)]


def _guesses(found: Findings) -> Iterator[str]:
    """Of each guess: was, now, between; at a bound; by its profile."""
    sure = found.sure
    for k, guess in enumerate(found.fit.guesses):
        value, (low, high) = float(sure.values[k]), sure.intervals[k]
        said = f"{guess.name}: was {guess.text(guess.was)}, now {guess.text(value)}"
        if sure.untold[k]:
            yield f"{said}; nothing decides it."
            continue
        unseen = " No reading sees it." if found.told.moved[k] < MOVED and guess.held else ""
        yield (f"{said}, between {guess.text(low)} and {guess.text(high)} "
               f"({100 * sure.level:g} %).{unseen}")
        side = sure.at_bound[k]
        if side:
            bound = guess.low if side == "low" else guess.high
            yield (f"{guess.name} stands at its {BOUND_WORDS[side]} bound, {guess.text(bound)}: "
                   "ask whether the bound is right, or something else is not as written. "
                   "The 'between' of all guesses is rough then.")
    for one in found.profiles:
        low_text = one.guess.text(one.low) if one.low is not None else "no lower end"
        high_text = one.guess.text(one.high) if one.high is not None else "no upper end"
        yield f"{one.guess.name}, by its profile: {low_text} to {high_text}."


def _apart(found: Findings) -> Iterator[str]:
    """What cannot be told, by itself or apart."""
    sentences = found.told.sentences()
    yield from (one for one in sentences if "tell it well" not in one
                and "no reading sees it" not in one)


def _starts(found: Findings) -> Iterator[str]:
    """What became of the starts, where there were several; whether the best came to rest."""
    ends, rest = found.fit.ends, found.fit.rest
    if len(ends) > 1:
        followed = [end for end in ends if end.followed and not end.failed]
        same = found.fit.weight + SAME * found.sure.error**2
        alike = sum(end.weight <= same for end in followed)
        yield (f"{len(ends)} starts, {len(followed)} followed down: {alike} ended at this fit"
               f"{'.' if alike == len(followed) else ', the others at worse ones.'}")
    reasons = [end.how for end in ends if end.failed]
    for reason in list(dict.fromkeys(reasons))[:MOST_TOLD]:
        yield f"Starts that failed, {reasons.count(reason)}: {reason}"
    if rest is not None and not rest.rested:
        yield f"The fit did not come to rest: it {rest.how}."


def _quality(found: Findings) -> Iterator[str]:
    """Size of the misses, before and now."""
    made, sure = found.quality, found.sure
    if found.before is not None:
        counted = "" if found.fit.settings.loss == "linear" else ", large ones counted less"
        yield (f"Squared misses of {len(found.fit.misses)} readings{counted}: "
               f"{found.before.readings_weight:.3g} before, {found.fit.readings_weight:.3g} now.")
    if made.freedom <= 0.0:
        yield "As many guesses as readings: nothing is left by which to judge the fit."
        return
    if not found.errors_stated:
        yield (f"Residual standard deviation {np.sqrt(made.ratio):.4g} with {made.freedom:.3g} "
               "degrees of freedom.")
        return
    ratio = f"{made.ratio:.2g} for each of {made.freedom:.3g} degrees of freedom"
    if made.chance < ODD:
        yield (f"Squared misses, in stated errors: {ratio}. That is more than the instruments "
               "explain: something is not as written, or not in the model, or errors are stated "
               "too small.")
    elif made.chance > 1.0 - ODD:
        yield (f"Squared misses, in stated errors: {ratio}. That is less than the stated errors "
               "would give: they are stated large.")
    else:
        yield f"Squared misses, in stated errors: {ratio}, as the instruments explain."
    if sure.error > 1.0:
        yield (f"All 'between' are widened by {sure.error:.2g}, as the misses are larger than the "
               "stated errors.")


def _left(found: Findings) -> Iterator[str]:
    """What is left in the misses: signs that stick together, a spot that is off, single ones."""
    for spot in found.quality.spots:
        if spot.runs is not None and spot.runs.sticking:
            yield (f"{spot.spot}: misses of one sign stick together ({spot.runs.found} runs, "
                   f"{spot.runs.expected:.3g} +- {spot.runs.spread:.2g} by chance): the curve has "
                   "another shape.")
        if abs(spot.mean) * np.sqrt(spot.count) > BIAS * max(found.sure.error, 1e-300) and (
                spot.count > 1):
            way = "over" if spot.mean > 0.0 else "under"
            yield (f"{spot.spot}: computed {way} the readings, by {abs(spot.mean):.2g} errors in "
                   f"the mean of {spot.count}.")
    names = found.fit.question.labels
    for label in [names[k] for k in np.flatnonzero(found.fit.jumps)][:MOST_TOLD]:
        yield (f"{label}: stands on a jump of its curve, where a little more or less of a guess "
               "moves it at once; it says less than it seems to.")
    if found.errors_stated:
        for label, miss in found.quality.large[:MOST_TOLD]:
            way = "over" if miss > 0.0 else "under"
            yield f"{label}: computed {abs(miss):.2g} errors {way} the reading."
