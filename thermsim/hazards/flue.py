"""The flue: wet or tarred walls, chimney fire, the draught there against the draught needed."""

from __future__ import annotations

from typing import Any

import numpy as np

from thermsim.hazards.check import (
    A_RUN,
    BEYOND,
    NEAR,
    WITHIN,
    Check,
    Checks,
    figure,
    least,
    untold,
)
from thermsim.hazards.evidence import ZERO_C, Evidence
from thermsim.hazards.smoke import ENOUGH
from thermsim.network.sizes import ROUND_DRUM
from thermsim.physics.chimney_tar import (
    LITTLE,
    LITTLE_ABOVE,
    SOME,
    SOOT_FIRE_T,
    TAR_BELOW,
    TarRisk,
    tar_risk,
)
from thermsim.physics.clearances import practice_clearance

TAR, DRAUGHT, FIRE = "flue.tar", "flue.draught", "flue.chimney_fire"
TAR_SOURCE = "EN 13384-1 5.3 and 5.8.2, from memory; tar by temperature common practice"
BY_SQUARE = ("losses go with the square of the flow (Darcy and Weisbach); flow and air ratio of "
             "the firing")


def flue_checks(e: Evidence) -> Checks:
    """Of the gas path's end."""
    if not e.fired or e.tree["gas_path"][-1]["kind"] == ROUND_DRUM:
        yield untold(TAR, "chimney top", "how warm it stays hangs on the fire", A_RUN,
                     source=TAR_SOURCE)
        return
    state = at_top(e)
    risk = None if state is None else tar_risk(*(t + ZERO_C for t in state))
    if state is not None and risk is not None:
        yield tar_check(e, state, risk)
    yield chimney_fire(risk)
    made = draught(e)
    if made is not None:
        yield made


def settled(e: Evidence) -> Any:
    """Rows from draught established to the last hot burning."""
    begun = e.answer("draught_established_s")
    return e.burning & (e.times >= (0.0 if begun is None else begun))


def at_top(e: Evidence) -> tuple[float, float, float] | None:
    """(coldest inner wall, water dew point, gas) of the last length, middle values while it burns
    [C]; None where that is not known."""
    name, dew, rows = str(e.tree["gas_path"][-1]["name"]), e.answer("water_dew_point_C"), settled(e)
    gas, inner = e.names(name, "gas"), e.names(name, "inside")
    if dew is None or not rows.any() or not gas or not inner:
        return None
    wall = min(float(np.median(e.column(c)[rows])) for c in inner)
    return wall, float(dew), float(np.median(e.column(gas[-1])[rows]))


def tar_check(e: Evidence, state: tuple[float, float, float], risk: TarRisk) -> Check:
    """Dew point and tar: wet or heavily tarred is beyond, some tar near. The share counts from the
    day's air: dew point over wall, or 120 C over the gas, the greater."""
    wall, dew, gas = (max(t - e.air, 1e-3) for t in state)
    used = max(dew / wall, (TAR_BELOW - ZERO_C - e.air) / gas)
    verdict = WITHIN if risk.word == LITTLE else NEAR if risk.word == SOME else BEYOND
    more = "; a fire short of air makes tar at any heat" if verdict == WITHIN else \
        "; blanket round the chimney, or let warmer gas go"
    return Check(TAR, "chimney top, inside", verdict, f"{risk.word}: {risk.why}, most of the time"
                 f"{more}", risk.over_dew_point, f"over the dew point, and gas over "
                 f"{LITTLE_ABOVE - ZERO_C:.0f} C", "K over the dew point", used, TAR_SOURCE)


def chimney_fire(risk: TarRisk | None) -> Check:
    """Tar burns; what the pipe then shines at."""
    fouls = "" if risk is None else f"inside it is told as {risk.word}; "
    away = practice_clearance("smoke pipe of one wall")
    return untold(FIRE, "chimney fire", f"{fouls}tar in a chimney burns at about "
                  f"{SOOT_FIRE_T - ZERO_C:.0f} C: look into it and sweep it before it glistens, "
                  f"keep what burns {away:.2f} m off; if it roars shut every door and call the "
                  "fire brigade, no water into it", "when it was last swept",
                  source="EN 1443, from memory; practice")


def draught(e: Evidence) -> Check | None:
    """Draught at the chimney foot against what brings in air enough."""
    rows = settled(e)
    ratio = e.column("air_ratio")
    rows = rows & np.isfinite(ratio) & (ratio > 0.0)
    if not rows.any():
        return None
    there = float(np.median(e.column("draught_at_chimney_foot_Pa")[rows]))
    middle = float(np.median(ratio[rows]))
    needed = there * (ENOUGH / middle) ** 2
    word = "more" if needed > there else "no more"
    says = (f"The chimney pulls {there:.1f} Pa at its foot while it burns. An air ratio of "
            f"{ENOUGH} needs about {needed:.1f} Pa, {word} than is there, for it burns at "
            f"{figure(middle)}.")
    return least(DRAUGHT, "chimney, draught", says, there, needed, "Pa", BY_SQUARE)
