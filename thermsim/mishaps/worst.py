"""The story of the mishaps: fire as it is, try each at its moments, keep the worst of each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import inf
from typing import Any

from thermsim.batches.job import FAILED, NOT_BUILT, why
from thermsim.batches.pool import PROCESSES, cores, run_jobs
from thermsim.errors import SolverError
from thermsim.mishaps.catalogue import (
    POURED_CALLS,
    Candidate,
    Mishap,
    Settled,
    all_mishaps,
    fired_dry,
    watch_end,
)
from thermsim.mishaps.harms import COUNTED, HARMS, Limits
from thermsim.mishaps.moments import Base, Moment, base_of
from thermsim.mishaps.trials import Trial, fire_trial
from thermsim.mishaps.variants import at, entries_of, firing_change, until_change
from thermsim.scenario.loaded import Scenario
from thermsim.simulation import fire
from thermsim.solver import Settings

WATCH = 3600.0
"""how long is looked on after a mishap [s]"""
LOW_SHARE = 0.3
"""of the drum filled, under which water is low unless told otherwise; common practice, no source"""
SAME_S, SAME_SHARE = 2.0, 0.02
"""a harm that comes as soon without the mishap, within this, is not the mishap's"""


@dataclass(frozen=True)
class Came:
    """A harm of a mishap: seconds after it, where; `already` there, `anyway` without it too."""

    harm: str
    after_s: float | None
    where: str
    already: bool
    anyway: bool

    @property
    def new(self) -> float | None:
        """Seconds after the mishap if the mishap brought it, else None."""
        return None if self.anyway else self.after_s


@dataclass(frozen=True)
class Tried:
    """A mishap at one moment and what came of it; `reason` if it could not be computed."""

    candidate: Candidate
    moment: Moment
    harms: tuple[Came, ...]
    smoke_g: float = 0.0
    smoke_s: float = 0.0
    peak_pressure_bar_gauge: float = 0.0
    watched_s: float = 0.0
    outcome: str = ""
    reason: str = ""
    hottest_dry: Moment | None = None

    def came(self, harm: str) -> Came | None:
        """One harm; None if the plant cannot come to it."""
        return next((one for one in self.harms if one.harm == harm), None)

    @property
    def first(self) -> Came | None:
        """The harm that comes first of those that count; None if none comes."""
        new = [one for one in self.harms if one.harm in COUNTED and one.new is not None]
        return min(new, key=lambda one: one.new or 0.0) if new else None

    @property
    def severity(self) -> tuple[float, ...]:
        """Smaller is worse: times of the harms, the gravest first, then the smoke."""
        times = {one.harm: one.new for one in self.harms}
        found = (times.get(harm) for harm in HARMS)
        return (*(inf if t is None else round(t, 1) for t in found), -self.smoke_g)


@dataclass(frozen=True)
class Judged:
    """A mishap with everything that was tried and the worst of it."""

    mishap: Mishap
    tried: tuple[Tried, ...]

    @property
    def worst(self) -> Tried | None:
        """What was worst of all that could be computed."""
        good = [one for one in self.tried if one.harms]
        return min(good, key=lambda one: one.severity) if good else None

    @property
    def failed(self) -> bool:
        """Whether some of it could not be computed."""
        return any(one.reason for one in self.tried)

    @property
    def least(self) -> float:
        """Least time to a harm that counts [s], for the order; inf if none comes."""
        first = self.worst.first if self.worst else None
        return inf if first is None or first.new is None else first.new


@dataclass(frozen=True)
class Outlook:
    """All mishaps of a scenario, least time first, and what was looked for."""

    title: str
    mishaps: tuple[Judged, ...]
    limits: Limits
    watch_s: float
    base_outcome: str
    firings: int

    @property
    def failed(self) -> bool:
        """Whether something could not be computed."""
        return any(one.failed for one in self.mishaps)


@dataclass
class _Bench:
    """Fires trials in parallel, all from one base."""

    scenario: Scenario
    base: Base
    limits: Limits
    watch: float
    jobs: int
    say: Callable[[str], None]
    fired: int = 1

    def trial(self, number: int, candidate: Candidate, since: Sequence[float], until: float
              ) -> Trial:
        changes = (*candidate.changes, firing_change(candidate.entries), until_change(until))
        return Trial(number, str(number), self.scenario.text, self.scenario.path or "scenario",
                     changes, tuple(since), self.limits, Settings())

    def fire(self, trials: Sequence[Trial]) -> dict[int, dict[str, Any]]:
        records: dict[int, dict[str, Any]] = {}

        def done(number: int, key: str, record: dict[str, Any]) -> None:
            records[number] = record
            self.fired += 1

        workers = max(min(self.jobs, len(trials)), 1)
        run_jobs(trials, workers, PROCESSES, None, None, done, self.say, fire_trial)
        return records


def find_worst(scenario: Scenario, chosen: Settled | None = None, low_share: float = LOW_SHARE,
               watch: float = WATCH, jobs: int | None = None,
               say: Callable[[str], None] = lambda text: None) -> Outlook:
    """Every mishap of a scenario at its worst moment, least time to a harm first.

    low_share: of the drum filled, under which water counts as low. watch: seconds looked on after
    a mishap. jobs: processes at once; all cores if not given.
    """
    chosen = chosen or Settled()
    base = base_of(fire(scenario))
    reason = why(base.summary)
    if reason:
        raise SolverError(f"the firing without a mishap could not be computed: {reason}")
    limits = Limits(low_share, base.strongest)
    bench = _Bench(scenario, base, limits, watch, jobs or cores(), say)
    mishaps = all_mishaps(scenario.tree, base, chosen)
    judged = _judge(bench, mishaps)
    judged.append(_poured(bench, judged, chosen))
    judged.sort(key=lambda one: one.least)
    return Outlook(scenario.tree.title, tuple(judged), limits, watch,
                   str(base.summary["outcome"]), bench.fired)


def _judge(bench: _Bench, mishaps: Sequence[Mishap]) -> list[Judged]:
    """Fire all candidates of all mishaps beside the firing as it is, looked on as long."""
    flat = [(mishap, candidate) for mishap in mishaps for candidate in mishap.candidates]
    since = [candidate.moment.time for _, candidate in flat]
    if not flat:
        return [Judged(mishap, ()) for mishap in mishaps]
    bench.say(f"{len(flat) + 1} firings: {sum(bool(m.candidates) for m in mishaps)} mishaps, each "
              "at up to three moments, and the firing as it is, looked on as long.")
    plain = Candidate(Moment("as it is", 0.0), tuple(entries_of(bench.scenario.tree)))
    trials = [bench.trial(0, plain, since, max(since) + bench.watch)]
    trials += [bench.trial(k, candidate, [candidate.moment.time],
                           candidate.moment.time + bench.watch)
               for k, (_, candidate) in enumerate(flat, 1)]
    records = bench.fire(trials)
    without = records[0].get("seen") or [None] * len(flat)
    tried = [_tried(candidate, candidate.moment, records[k], without[k - 1])
             for k, (_, candidate) in enumerate(flat, 1)]
    return [Judged(mishap, tuple(one for (owner, _), one in zip(flat, tried, strict=True)
                                 if owner is mishap)) for mishap in mishaps]


def _tried(candidate: Candidate, moment: Moment, record: dict[str, Any],
           without: dict[str, Any] | None) -> Tried:
    bad = record["outcome"] in (*FAILED, NOT_BUILT)
    if "seen" not in record:
        return Tried(candidate, moment, (), outcome=record["outcome"], reason=record["reason"])
    seen = record["seen"][0]
    harms = []
    for harm, found in seen["harms"].items():
        other = without["harms"][harm] if without else None
        harms.append(Came(harm, found["after_s"], found["where"], found["already"],
                          _as_soon(found["after_s"], other)))
    hottest = None
    if record.get("hottest_dry_s") is not None:
        hottest = Moment(f"with the dry plate at its hottest, {record['hottest_dry_C']:.0f} C",
                         record["hottest_dry_s"])
    return Tried(candidate, moment, tuple(harms), seen["smoke_g"], seen["smoke_s"],
                 seen["peak_pressure_bar_gauge"], seen["watched_s"], record["outcome"],
                 record["reason"] if bad else "", hottest)


def _as_soon(after: float | None, without: dict[str, Any] | None) -> bool:
    if after is None or without is None or without["after_s"] is None:
        return False
    return bool(after >= without["after_s"] * (1.0 - SAME_SHARE) - SAME_S)


def _poured(bench: _Bench, judged: Sequence[Judged], chosen: Settled) -> Judged:
    """Water poured on the dry plate at its hottest: after the feed stuck, or fired without any."""
    tree = bench.scenario.tree
    name = f"{chosen.pour} of water poured into the hot dry drum"
    if not tree.drum:
        return Judged(Mishap("water_on_dry_drum", name, POURED_CALLS,
                             why_not="there is no drum"), ())
    dry = fired_dry(tree, bench.base)
    record = bench.fire([bench.trial(0, dry, [bench.base.lit], bench.base.end)])[0]
    runs = [one for found in judged if found.mishap.key == "feed_stuck" for one in found.tried
            if one.hottest_dry]
    ways: list[tuple[Candidate, Moment]] = []
    if runs:
        hottest = max(runs, key=lambda one: one.hottest_dry.time if one.hottest_dry else 0.0)
        assert hottest.hottest_dry is not None
        ways.append((hottest.candidate, hottest.hottest_dry))
    if record.get("hottest_dry_s") is not None:
        ways.append((dry, Moment("fired without water, with the plate at its hottest, "
                                 f"{record['hottest_dry_C']:.0f} C", record["hottest_dry_s"])))
    if not ways:
        return Judged(Mishap("water_on_dry_drum", name, POURED_CALLS, why_not=record["reason"]
                             or "the drum never runs dry"), ())
    candidates = [replace(candidate, moment=moment, entries=(
        *(entry for entry in candidate.entries if entry not in watch_end(tree)),
        at(moment.time, f"pour {chosen.pour}"), *watch_end(tree))) for candidate, moment in ways]
    records = bench.fire([bench.trial(k, one, [one.moment.time], one.moment.time + bench.watch)
                          for k, one in enumerate(candidates)])
    tried = tuple(_tried(one, one.moment, records[k], None) for k, one in enumerate(candidates))
    return Judged(Mishap("water_on_dry_drum", name, POURED_CALLS, tuple(candidates)), tried)
