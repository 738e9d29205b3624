"""What came of a fit, gathered: how sure, what can be told, how well the readings are met."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from thermsim.calibrating.differences import Mapping
from thermsim.calibrating.fit import Fit
from thermsim.calibrating.profile import Profile, profile
from thermsim.calibrating.quality import Quality, quality
from thermsim.calibrating.sureness import FOUND, LEVEL, Sureness, sureness
from thermsim.calibrating.told import Told, what_is_told

Watch = Callable[[str, int, int], None]
"""told of (guess, its number, how many) as profiles are worked out"""


@dataclass(frozen=True)
class Findings:
    """A fit with all that is told of it. before: at the values from before; None if not looked at.
    errors_stated: the misses were divided by errors that somebody stated."""

    fit: Fit
    sure: Sureness
    told: Told
    quality: Quality
    before: Fit | None = None
    errors_stated: bool = True
    profiles: tuple[Profile, ...] = field(default=())


def findings(fit: Fit, before: Fit | None = None, error: str = FOUND, level: float = LEVEL,
             errors_stated: bool = True, profiled: bool = False, mapping: Mapping = map,
             watch: Watch = lambda guess, number, count: None) -> Findings:
    """Gather everything. profiled: work out profiles too, a fit for each value tried. watch: told
    of each guess as its profile begins."""
    sure = sureness(fit, error, level)
    profiles, count = [], len(fit.guesses)
    for k in range(count if profiled else 0):
        watch(fit.guesses[k].name, k + 1, count)
        profiles.append(profile(fit, sure, k, mapping))
    return Findings(fit, sure, what_is_told(fit), quality(fit, sure), before, errors_stated,
                    tuple(profiles))
