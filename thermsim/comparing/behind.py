"""The scenario and the tolerance behind a run's folder, to solve it again."""

from __future__ import annotations

from thermsim.comparing.from_files import read_thing
from thermsim.comparing.quantities import is_number
from thermsim.comparing.solver_error import USUAL_RTOL
from thermsim.comparing.things import RUN, Thing
from thermsim.errors import ResultsError
from thermsim.results.result import Result
from thermsim.scenario import Scenario, load_text


def run_behind(source: str) -> tuple[Scenario, float]:
    """The scenario as run and the solver's relative tolerance.

    Raises ResultsError for what is no run's folder, ScenarioError if this version cannot read it.
    """
    thing = read_thing(source)
    if thing.kind != RUN or thing.scenario_text is None:
        raise ResultsError(f"{source}: the solver's error can be measured only where the first "
                           "named is the folder of a run, with its scenario")
    solver = (thing.summary or {}).get("solver") or {}
    rtol = solver.get("rtol", USUAL_RTOL)
    if not is_number(rtol) or not 0.0 < rtol < 1.0:
        raise ResultsError(f"{source}: its summary tells no tolerance of the solver between 0 and "
                           "1")
    return load_text(thing.scenario_text, name=f"{source}/scenario.yaml"), float(rtol)


def check_same(first: Thing, tighter: Result) -> list[str]:
    """Notes on a tighter solution; raises ResultsError if it is of another scenario."""
    made, again = first.provenance or {}, tighter.summary.get("provenance") or {}
    if made.get("hash") != again.get("hash"):
        raise ResultsError(f"{first.source}: the run solved more tightly is of another scenario")
    if made.get("version") != again.get("version"):
        return [f"{first.name} was made by version {made.get('version')}, and solved again by "
                f"{again.get('version')}: what is measured as the solver's error holds the change "
                "of the model too."]
    return []
