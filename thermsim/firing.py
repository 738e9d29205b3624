"""What is done in a firing, bound to a plant: deeds and conditions become acts and rules."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from thermsim.network.firing import (
    CHARGE_TIME,
    RAKED,
    STICKS,
    STICKS_FALL,
    Condition,
    Deed,
    parse_condition,
    parse_deed,
    plain,
    self_acting,
)
from thermsim.network.places import places
from thermsim.network.system import PlantSystem
from thermsim.parts.controls import CHARGE, GUST, HEAT, KINDLING, STROKES
from thermsim.physics.steam import liquid_density, liquid_enthalpy, saturation_temperature
from thermsim.solver import Act, After, Agenda, Effect, Event, Rule

Floats = NDArray[np.float64]
HAND = 1.5
"""time [s] a hand takes to move what has no time of its own; common practice, no source"""
NEAR_BOILING = 0.5
"""water within this of saturation [K] counts as boiling"""
ALMOST_DRY = 1e-3
"""liquid [kg] under which a drum that held water is called dry"""


@dataclass
class Hands:
    """Does deeds to a plant: moves doors, adds pulses, pours water."""

    system: PlantSystem
    fed_dry: float = 0.0
    pours: list[tuple[float, float, float]] = field(default_factory=list)
    charges: list[float] = field(default_factory=list)
    raked_ash: float = 0.0
    lit_at: float | None = None
    jammed: dict[str, float] = field(default_factory=dict)
    """what is jammed, with the position in which it was"""

    def do(self, deed: Deed, t: float, y: Floats) -> Effect:
        """Do one deed at time t; remembers the plant as it is from then on."""
        effect: Effect = getattr(self, f"_{deed.kind}")(deed, t, y)
        self.system.remember(t)
        return effect

    def _pulse(self, kind: int, target: int, rate: float, t: float, seconds: float) -> Effect:
        pulses = self.system.assembly.plant.pulses
        free = np.flatnonzero((pulses["kind"] < 0) | (pulses["end"] <= t))
        if not len(free):
            return Effect(stop=True, note="more things going on at once than can be followed")
        i = int(free[0])
        for column, value in (("kind", kind), ("target", target), ("rate", rate), ("start", t),
                              ("end", t + seconds)):
            pulses[column][i] = value
        return Effect(jumps=(t + seconds,))

    def _light(self, deed: Deed, t: float, y: Floats) -> Effect:
        tree = self.system.assembly.scenario.tree
        if self.lit_at is None:
            self.lit_at = t
        if tree.fire.kind != "sticks":
            return Effect(note=deed.text)
        dry = tree.fire.kindling
        self.fed_dry += dry
        seconds = tree.fire.kindling_time
        effect = self._pulse(KINDLING, 0, dry / seconds, t, seconds)
        new = y.copy()
        new[int(self.system.assembly.plant.fire[0]["kindling"])] += dry
        return Effect(y_new=new, jumps=effect.jumps)

    def _add(self, deed: Deed, t: float, y: Floats) -> Effect:
        dry = deed.amount * (1.0 - self.system.assembly.scenario.tree.wood.moisture)
        self.fed_dry += dry
        self.charges.append(t)
        effect = self._pulse(CHARGE, 0, dry / CHARGE_TIME, t, CHARGE_TIME)
        new = y.copy()
        new[int(self.system.assembly.plant.fire[0]["waiting"])] += dry
        return Effect(y_new=new, jumps=effect.jumps)

    def _heat(self, deed: Deed, t: float, y: Floats) -> Effect:
        target = places(self.system.assembly)[heated_place(self.system, deed.target)]
        return self._pulse(HEAT, target, deed.amount, t, deed.second)

    def _gust(self, deed: Deed, t: float, y: Floats) -> Effect:
        return self._pulse(GUST, 0, deed.amount, t, deed.second)

    def _jam(self, deed: Deed, t: float, y: Floats) -> Effect:
        if deed.target in self.jammed:
            return Effect(note=deed.text)
        plant = self.system.assembly.plant
        control = self._control(deed.target)
        row = plant.controls[control] if control is not None else None
        self.jammed[deed.target] = float(row["after"]) if row is not None else 1.0
        if deed.target not in self_acting(self.system.assembly.scenario.tree):
            return Effect(note=deed.text)
        if row is not None:
            row["before"], row["after"], row["start"], row["end"] = 0.0, 0.0, t, t
            plant.controls[control] = row
        else:
            going = (plant.pulses["kind"] == STROKES) & (
                plant.pulses["target"] == self._supply(deed.target))
            plant.pulses["end"][going] = np.minimum(plant.pulses["end"][going], t)
        return Effect(note=deed.text)

    def _free(self, deed: Deed, t: float, y: Floats) -> Effect:
        was = self.jammed.pop(deed.target, None)
        control = self._control(deed.target)
        if was is not None and control is not None:
            row = self.system.assembly.plant.controls[control]
            row["before"], row["after"], row["start"], row["end"] = was, was, t, t
            self.system.assembly.plant.controls[control] = row
        return Effect(note=deed.text)

    def _control(self, target: str) -> int | None:
        """Row of the control of what is named; None of a hand pump, which has none."""
        controls = self.system.assembly.draft.controls
        if target == STICKS:
            return controls[STICKS_FALL]
        return next((row for name, row in controls.items() if plain(name) == target), None)

    def _supply(self, target: str) -> int:
        return [plain(name) for name in self.system.assembly.scenario.tree.feed].index(target)

    def _set(self, deed: Deed, t: float, y: Floats) -> Effect:
        if deed.target in self.jammed:
            return Effect(note=f"{deed.text}: it is jammed")
        draft, plant = self.system.assembly.draft, self.system.assembly.plant
        name = next(n for n in draft.controls if plain(n) == deed.target)
        opening = draft.tree.openings.get(name) or draft.tree.get(f"drum.{name}")
        seconds = opening.get("moves_in", HAND) if isinstance(opening, Mapping) else HAND
        row = plant.controls[draft.controls[name]]
        gone = np.clip((t - row["start"]) / max(row["end"] - row["start"], 1e-9), 0.0, 1.0)
        row["before"] = row["before"] + gone * (row["after"] - row["before"])
        row["after"], row["start"], row["end"] = deed.amount, t, t + seconds
        plant.controls[draft.controls[name]] = row
        return Effect(jumps=(t + seconds,), note=deed.text)

    def _strokes(self, deed: Deed, t: float, y: Floats) -> Effect:
        tree = self.system.assembly.scenario.tree
        number = self._supply(deed.target)
        if deed.target in self.jammed:
            return Effect(note=f"{deed.text}: it is jammed")
        each = list(tree.feed.values())[number].strokes
        return self._pulse(STROKES, number, each, t, deed.amount / each)

    def _rake(self, deed: Deed, t: float, y: Floats) -> Effect:
        new = y.copy()
        place = int(self.system.assembly.plant.fire[0]["ash"])
        self.raked_ash += (1.0 - RAKED) * y[place]
        new[place] = RAKED * y[place]
        return Effect(y_new=new, note=deed.text)

    def _pour(self, deed: Deed, t: float, y: Floats) -> Effect:
        plant = self.system.assembly.plant
        drum, new = plant.drum[0], y.copy()
        T = deed.second or float(plant.day[0]["air"])
        mass = deed.amount * float(liquid_density(T))
        energy = mass * float(liquid_enthalpy(T))
        new[int(drum["mass"])] += mass
        new[int(drum["energy"])] += energy
        self.pours.append((t, mass, energy))
        hottest = max(y[int(drum["wet"])], y[int(drum["dry"])]) - 273.15
        return Effect(y_new=new, note=f"{deed.text}; drum wall at {hottest:.0f} C")

    def _stop(self, deed: Deed, t: float, y: Floats) -> Effect:
        return Effect(stop=True, note=deed.text)


def heated_place(system: PlantSystem, name: str) -> str:
    """The place that 'heat NAME ...' means: a pass by its first cell's gas, or a place itself."""
    known = places(system.assembly)
    for candidate in (name, f"{name}_1_gas", f"{name}_gas"):
        if candidate in known:
            return candidate
    chimneys = [plain(p.name) for p in system.assembly.scenario.tree.gas_path
                if p.kind == "chimney"]
    return f"{chimneys[0]}_1_gas"


def watched(system: PlantSystem, condition: Condition) -> Callable[[float, Floats], float]:
    """A value that is zero or more where an above-or-below condition holds."""
    sign = 1.0 if condition.kind == "above" else -1.0
    plant, value = system.assembly.plant, condition.value
    if condition.place == "wood":
        unlit, alight = int(plant.fire[0]["unlit"]), int(plant.fire[0]["alight"])
        dry = value * (1.0 - system.assembly.scenario.tree.wood.moisture)
        hand = int(plant.fire[0]["waiting"])
        return lambda t, y: sign * (y[unlit] + y[alight] + y[hand] - dry)
    if condition.place in ("water", "water_temperature"):
        scale = float(plant.drum[0]["volume"])
        if condition.place == "water":
            return lambda t, y: sign * (system.in_drum(y).level * scale - value)
        return lambda t, y: sign * (system.in_drum(y).water - value)
    if condition.place == "pressure":
        outside = float(plant.day[0]["pressure"])
        return lambda t, y: sign * (system.in_drum(y).pressure - outside - value)
    if condition.place == "level":
        return lambda t, y: sign * (system.in_drum(y).level - value)
    state = places(system.assembly)[condition.place]
    return lambda t, y: sign * (y[state] - value)


def boiling_value(system: PlantSystem) -> Callable[[float, Floats], float]:
    """Zero or more while liquid water is within 0.5 K of saturation at the drum's pressure."""
    def value(t: float, y: Floats) -> float:
        now = system.in_drum(y)
        if now.level <= 0.0:
            return -1.0
        return float(now.water - saturation_temperature(now.pressure) + NEAR_BOILING)

    return value


def dry_value(system: PlantSystem) -> Callable[[float, Floats], float]:
    """Zero or more once hardly any liquid is left."""
    volume = float(system.assembly.plant.drum[0]["volume"])
    return lambda t, y: ALMOST_DRY - 1000.0 * volume * system.in_drum(y).level


def make_agenda(system: PlantSystem, hands: Hands) -> Agenda:
    """All acts, rules and afters of the scenario's firing, in file order."""
    tree: Any = system.assembly.scenario.tree
    acts: list[Act] = []
    rules: list[Rule] = []
    afters: list[After] = []
    events: list[Event] = []
    for order, given in enumerate(tree.firing):
        deeds = [parse_deed(text) for text in given.do]
        if given.at is not None:
            acts += [Act(given.at, order, deed.text, _doing(hands, deed)) for deed in deeds]
            continue
        condition = parse_condition(given.when)
        name = f"{condition.text}: {', '.join(deed.text for deed in deeds)}"
        if condition.kind == "after":
            event = "light the fire" if condition.place == "lighting" else condition.place
            afters += [After(event, condition.value, order, deed.text, _doing(hands, deed))
                       for deed in deeds]
            needed = {"boiling": boiling_value, "dry": dry_value}.get(event)
            if needed and event not in {e.name for e in events}:
                events.append(Event(event, needed(system), at_start=False))
            continue
        rules.append(Rule(name, order, watched(system, condition), _all(hands, deeds),
                          again=bool(given.again)))
    points = system.assembly.plant.given[:, 0]
    return Agenda(acts, rules, events, afters, kinks=[float(p) for p in points])


def _doing(hands: Hands, deed: Deed) -> Callable[[float, Floats], Effect]:
    return lambda t, y: hands.do(deed, t, y)


def _all(hands: Hands, deeds: list[Deed]) -> Callable[[float, Floats], Effect]:
    def apply(t: float, y: Floats) -> Effect:
        jumps: tuple[float, ...] = ()
        stop = False
        notes = []
        for deed in deeds:
            effect = hands.do(deed, t, y)
            y = effect.y_new if effect.y_new is not None else y
            jumps += effect.jumps
            stop |= effect.stop
            notes += [effect.note] if effect.note not in ("", deed.text) else []
        return Effect(y_new=y, jumps=jumps, stop=stop, note="; ".join(notes))

    return apply
