"""How a firing ended, in the builder's terms: boiled, did not boil, smothered, dry, never drew."""

from __future__ import annotations

import numpy as np

from thermsim.results.events import draught_established, dry_time
from thermsim.results.firing_run import FiringRun
from thermsim.solver import Outcome

BOILED = Outcome("boiled", "The water boiled.", "")
NOT_BOILED = Outcome("not_boiled", "The water did not boil in the time computed.",
                     "Compute longer, fire harder, or lose less heat.")
SMOTHERED = Outcome("smothered", "The fire went out with wood still there.",
                    "More kindling, thinner or drier sticks, or more air.")
DRY = Outcome("dry", "The drum ran dry.", "Put in more water or feed it; draw the fire in time.")
DRY_FIRED = Outcome("fired_dry", "The drum was fired without water, as asked.",
                    "Pour water in little at a time.")
NO_DRAUGHT = Outcome("never_drew", "It never drew: smoke kept coming out of the openings.",
                     "A taller or warmer chimney, a wider gap, fewer baffles, a smaller feed.")
NO_FIRE = Outcome("no_fire", "Nothing was lit.", "")
HEATED = Outcome("ran", "The firing ran to its end; there is no drum.", "")
SENTENCES = {one.key: one.sentence for one in (BOILED, NOT_BOILED, SMOTHERED, DRY, DRY_FIRED,
                                               NO_DRAUGHT, NO_FIRE, HEATED)}
"""what an outcome's key means, for tables of many firings"""
GLOWING = 0.03
"""a fire gasifying less than this share of its strongest has gone out"""
WORTH = 0.02
"""dry wood [kg] that counts as still there"""
LASTING = 60.0


def physical_outcome(run: FiringRun, boil: float | None) -> Outcome:
    """The outcome that matters most for whoever built it; a solver's failure comes first."""
    solver = run.solution.outcome
    if not solver.complete or solver.key == "rule_undoes_itself":
        return solver
    burnt = run.gauge("dry_burnt")
    if burnt.max(initial=0.0) <= 0.0:
        return NO_FIRE
    if run.assembly.plant.drum[0]["there"] and dry_time(run) is not None:
        return DRY
    if smothered(run):
        return SMOTHERED
    if boil is not None:
        return BOILED
    if draught_established(run) is None:
        return NO_DRAUGHT
    drum = run.assembly.scenario.tree.drum
    if not drum:
        return HEATED
    return DRY_FIRED if drum.water == 0 and not run.pours else NOT_BOILED


def smothered(run: FiringRun) -> bool:
    """Whether the fire is out at the end although wood is left (a given fire never is)."""
    fire = run.assembly.plant.fire[0]
    if fire["given"]:
        return False
    end = run.solution.trajectory.t1
    y = run.solution.trajectory(end)
    if y[int(fire["unlit"])] + y[int(fire["alight"])] < WORTH:
        return False
    burnt = run.gauge("dry_burnt")
    last = burnt[run.times > end - LASTING]
    return bool(len(last) and np.mean(last) < GLOWING * burnt.max())
