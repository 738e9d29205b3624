"""Time: integration, schedule and rules, outcomes. Knows arrays and a rate function, no physics."""

from thermsim.solver.agenda import Act, After, Agenda, Effect, Event, Happening, Rule
from thermsim.solver.integrate import integrate
from thermsim.solver.jacobian import ColouredJacobian, colour_columns, jacobian_of
from thermsim.solver.outcome import (
    FINISHED,
    IMPLAUSIBLE_STATE,
    INTERRUPTED,
    RULE_UNDOES_ITSELF,
    SOLVER_FAILED,
    STOPPED_BY_RULE,
    Outcome,
)
from thermsim.solver.solve import Solution, solve
from thermsim.solver.system import ArraySystem, Counts, Settings, System
from thermsim.solver.trajectory import Piece, Trajectory
from thermsim.solver.watches import Crossing, Watch

__all__ = [
    "FINISHED",
    "IMPLAUSIBLE_STATE",
    "INTERRUPTED",
    "RULE_UNDOES_ITSELF",
    "SOLVER_FAILED",
    "STOPPED_BY_RULE",
    "Act",
    "After",
    "Agenda",
    "ArraySystem",
    "ColouredJacobian",
    "Counts",
    "Crossing",
    "Effect",
    "Event",
    "Happening",
    "Outcome",
    "Piece",
    "Rule",
    "Settings",
    "Solution",
    "System",
    "Trajectory",
    "Watch",
    "colour_columns",
    "integrate",
    "jacobian_of",
    "solve",
]
