"""What happens during a firing: timed acts, rules, and events that are only noted.

At one moment the timed acts go first, then the rules in file order, again and again until none
of them is both ready and true. Only acts, rules and the kinks they announce interrupt the
integration; events do so only if something is to follow them.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from thermsim.solver.outcome import RULE_UNDOES_ITSELF, STOPPED_BY_RULE, Outcome
from thermsim.solver.system import Array
from thermsim.solver.watches import Crossing, Watch

SAME_MOMENT = 1e-6
"""times closer than this are one moment [s]"""
UNDOING_ACTS = 50
UNDOING_SPAN = 1.0
"""a rule that acts more than UNDOING_ACTS times within UNDOING_SPAN [s] undoes itself"""

Value = Callable[[float, Array], float]


@dataclass(frozen=True)
class Effect:
    """What an act did: a new state, later moments at which the rates have a kink, an end."""

    y_new: Array | None = None
    jumps: tuple[float, ...] = ()
    stop: bool = False
    note: str = ""


Apply = Callable[[float, Array], Effect | None]


@dataclass(frozen=True)
class Act:
    """Something done at a given time [s]; `order` is its place in the file."""

    time: float
    order: int
    name: str
    apply: Apply


@dataclass(frozen=True)
class After:
    """Something done so many seconds after an event, an act or a rule first happened."""

    event: str
    seconds: float
    order: int
    name: str
    apply: Apply


@dataclass(frozen=True)
class Rule:
    """Something done when value(t, y) >= 0: once, or each time anew if `again` (or not latched).

    A rule that acts again must have been false in between.
    """

    name: str
    order: int
    value: Value
    apply: Apply
    latched: bool = True
    again: bool = False

    @property
    def repeats(self) -> bool:
        """Whether it may act more than once."""
        return self.again or not self.latched


@dataclass(frozen=True)
class Event:
    """Something only noted, when value(t, y) comes to be >= 0 (direction +1) or <= 0 (-1).

    With direction 0 either change of sign is noted. Latched: the first time only. What already
    holds at the start is noted there, if `at_start`.
    """

    name: str
    value: Value
    direction: int = 1
    latched: bool = True
    at_start: bool = True


@dataclass(frozen=True)
class Happening:
    """A line of the log; `kind` is act, rule or event."""

    time: float
    kind: str
    name: str
    note: str = ""


class Agenda:
    """The list of what is to happen in one firing, and the log of what has happened."""

    def __init__(
        self,
        acts: Sequence[Act] = (),
        rules: Sequence[Rule] = (),
        events: Sequence[Event] = (),
        afters: Sequence[After] = (),
        kinks: Sequence[float] = (),
    ) -> None:
        self.acts = tuple(acts)
        self.rules = tuple(sorted(rules, key=lambda rule: rule.order))
        self.events = tuple(events)
        self.afters = tuple(afters)
        self.kinks = tuple(kinks)
        known = {act.name for act in self.acts} | {rule.name for rule in self.rules}
        known |= {event.name for event in self.events} | {after.name for after in self.afters}
        for after in self.afters:
            if after.event not in known:
                raise ValueError(f"{after.name}: nothing is called {after.event!r}")
        self._event_watches = {e.name: Watch(e.name, e.value, e.direction) for e in self.events}
        self.begin()

    def begin(self) -> None:
        """Forget everything that happened: a new firing."""
        self.happenings: list[Happening] = []
        self._pending = sorted(self.acts, key=lambda act: (act.time, act.order))
        self._kinks = list(self.kinks)
        self._ready = {rule: True for rule in self.rules}
        self._acted: dict[Rule, deque[float]] = {
            rule: deque(maxlen=UNDOING_ACTS + 1) for rule in self.rules
        }
        self._held: dict[str, bool] = {}
        self._first: dict[str, float] = {}

    def time_of(self, name: str) -> float | None:
        """When an event, act or rule first happened [s]; None if it has not."""
        return self._first.get(name)

    def next_time(self, t: float) -> float:
        """The next moment after t at which the integration must stop; inf if there is none."""
        later = t + SAME_MOMENT
        times = [act.time for act in self._pending] + self._kinks
        return min((time for time in times if time > later), default=math.inf)

    def watches(self) -> list[Watch]:
        """What the integration must look out for from here on."""
        awaited = {after.event for after in self.afters}
        found = []
        for rule in self.rules:
            if rule.repeats or self._ready[rule]:
                found.append(Watch(f"rule {rule.name}", rule.value, terminal=True))
            if rule.repeats and not self._ready[rule]:
                found.append(Watch(f"ready {rule.name}", rule.value, direction=-1))
        for event in self.events:
            seen = event.name in self._first
            if seen and event.latched:
                continue
            ends = event.name in awaited and not seen
            found.append(Watch(f"event {event.name}", event.value, event.direction, terminal=ends))
        return found

    def record(self, crossings: Sequence[Crossing]) -> None:
        """Log the events that the integration has met, and which rules have become ready."""
        for crossing in crossings:
            kind, _, name = crossing.name.partition(" ")
            if kind == "event":
                self._held[name] = crossing.became
                self._note_event(crossing.time, name, crossing.became)
            else:
                rule = next(rule for rule in self.rules if rule.name == name)
                self._ready[rule] = True

    def at_moment(self, t: float, y: Array) -> tuple[Array, Outcome | None]:
        """Do all that is due at time t; the state after it, and an outcome if that was the end."""
        self._see(t, y)
        while True:
            self._make_ready(t, y)
            due = self._due(t)
            if due is not None:
                effect = due.apply(t, y.copy()) or Effect()
                kind, name = "act", due.name
            else:
                rule = self._true_rule(t, y)
                if rule is None:
                    return y, None
                self._ready[rule] = False
                effect = rule.apply(t, y.copy()) or Effect()
                kind, name = "rule", rule.name
                self._acted[rule].append(t)
            self._log(t, kind, name, effect.note)
            self._kinks += effect.jumps
            if effect.y_new is not None:
                y = effect.y_new
            self._see(t, y)
            outcome = self._end(t, kind, name, effect)
            if outcome is not None:
                return y, outcome

    def _end(self, t: float, kind: str, name: str, effect: Effect) -> Outcome | None:
        """The outcome, if what was just done ends the firing."""
        if effect.stop:
            return STOPPED_BY_RULE.told(f"{name} at {t:.1f} s")
        for rule, times in self._acted.items():
            if len(times) > UNDOING_ACTS and t - times[0] <= UNDOING_SPAN:
                return RULE_UNDOES_ITSELF.told(f"{rule.name} at {t:.1f} s")
        return None

    def _make_ready(self, t: float, y: Array) -> None:
        """A rule that may act again is ready once it is false."""
        for rule in self.rules:
            if rule.repeats and not self._ready[rule] and not rule.value(t, y) >= 0.0:
                self._ready[rule] = True

    def _due(self, t: float) -> Act | None:
        """Take the next timed act off the list, if its time has come."""
        if self._pending and self._pending[0].time <= t + SAME_MOMENT:
            return self._pending.pop(0)
        return None

    def _true_rule(self, t: float, y: Array) -> Rule | None:
        """The first rule in file order that is ready and true."""
        return next((r for r in self.rules if self._ready[r] and r.value(t, y) >= 0.0), None)

    def _see(self, t: float, y: Array) -> None:
        """Note the events that hold now and did not: through an act, or at the very start."""
        for event in self.events:
            now = self._event_watches[event.name].holds(t, y)
            before = self._held.get(event.name)
            self._held[event.name] = now
            if now is before:
                continue
            if before is None and not (now and event.at_start and event.direction):
                continue
            if now or event.direction == 0:
                self._note_event(t, event.name, now)

    def _note_event(self, t: float, name: str, became: bool) -> None:
        event = next(event for event in self.events if event.name == name)
        if event.latched and name in self._first:
            return
        note = ""
        if event.direction == 0:
            note = "rising" if became else "falling"
        self._log(t, "event", name, note)

    def _log(self, t: float, kind: str, name: str, note: str) -> None:
        self.happenings.append(Happening(t, kind, name, note))
        if name in self._first:
            return
        self._first[name] = t
        for after in self.afters:
            if after.event == name:
                act = Act(t + after.seconds, after.order, after.name, after.apply)
                self._pending.append(act)
                self._pending.sort(key=lambda act: (act.time, act.order))
