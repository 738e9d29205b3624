"""An engine that blows through a nozzle: its own exhaust holds up its back pressure."""

from __future__ import annotations

from thermsim.kernel import kernel
from thermsim.physics.blast_nozzle import nozzle_back_pressure
from thermsim.physics.engine import Diagram, steam_flow

STEPS = 60
CLOSE = 1e-12
"""of the flow against an open exhaust: where the search ends"""


@kernel
def flow_against_nozzle(
    p1: float, p_out: float, ports: float, rho1: float, d: Diagram, swept: float, speed: float,
    missing: float, nozzle_area: float, rho_steam: float,
) -> tuple[float, float]:  # fmt: skip
    """Give the steam that the engine takes [kg/s] and the back pressure it meets [Pa, absolute].

    The flow falls as the back pressure rises, and the back pressure rises with the flow, so there
    is one pair: p_out + ports + `nozzle_back_pressure`. Found by false position with the Illinois
    rule to 1e-12 of the flow. p_out: in the chimney, ports: what ports and pipe cost [Pa];
    rho_steam: of the exhaust at rest under p_out; the rest as `steam_flow`. `missing` is taken as
    given: work it out for the open exhaust. No nozzle's area: hardly any flow.
    Source: the two laws it joins.
    """
    low = 0.0
    base = p_out + ports
    high = steam_flow(p1, base, rho1, d, swept, speed, missing)
    if high <= 0.0:
        return 0.0, base
    f_low = high
    pb = base + nozzle_back_pressure(high, nozzle_area, p_out, rho_steam)
    f_high = steam_flow(p1, pb, rho1, d, swept, speed, missing) - high
    width = CLOSE * high
    side = 0
    m = high
    for _ in range(STEPS):
        m = low + (high - low) * f_low / (f_low - f_high)
        pb = base + nozzle_back_pressure(m, nozzle_area, p_out, rho_steam)
        f = steam_flow(p1, pb, rho1, d, swept, speed, missing) - m
        if abs(f) <= width:
            break
        if f > 0.0:
            low, f_low = m, f
            if side > 0:
                f_high *= 0.5
            side = 1
        else:
            high, f_high = m, f
            if side < 0:
                f_low *= 0.5
            side = -1
    return m, pb
