"""A piston steam engine by its hypothetical indicator diagram: work, pressure and steam.

Steam comes in at the stop valve's pressure p1 up to the cut-off, expands along p V = constant to
the end of the stroke, and is pushed out at the back pressure pb until the exhaust closes; what is
shut in then is compressed along the same curve. Volumes are in swept volumes of one end: cut-off
e, clearance c, compression x (the share of the return stroke left when the exhaust closes).

Compression is in the diagram because it belongs to the clearance: steam shut in fills part of it,
and without that the clearance's steam would all be counted as lost. x = 0 leaves it out. Shut-in
steam that reaches p1 lifts a slide valve off its face and goes back to the chest, so it stays at
p1. Corners rounded by slow ports and wire-drawing are in the diagram factor, which takes from the
work alone; the steam is counted as if the whole cut-off volume were at p1, on the heavy side.

Left out: leaks past valve and piston (tests of condensation hold those of an engine in order),
friction of the engine (indicated power is what the steam does on the piston), the loss of the
stop valve and the steam pipe, which stand before p1.
Source: hypothetical diagram with clearance of the trade's textbooks (Ripper, Steam Engine Theory
and Practice; Perry; Machinery's Reference Series 70), from memory.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from thermsim.kernel import kernel
from thermsim.physics.transition import rounded_plus

LEAST_PRESSURE = 1.0
"""[Pa]; keeps ratios of pressures finite"""
LEAST_VOLUME = 1e-9
"""swept volumes; stands for no clearance"""
EARLIEST_CUT_OFF = 1e-3
TURNING_WIDTH = 20e3
"""mean effective pressure [Pa] from which the engine runs at its full speed; friction of a small
engine alone takes 20 to 50 kPa (common practice, no source)"""
TAKEN_WIDTH = 0.01
"""swept volumes; rounds the corner where the clearance keeps all that a stroke needs"""
LEAST_STEAM, LEAST_WORK = 1e-12, 1e-6
"""[kg], [J]; keep quotients finite"""
JOULES_PER_KWH = 3.6e6


class Diagram(NamedTuple):
    """Shares of the stroke, and what is left of the diagram's area.

    cut_off, clearance, compression: e, c, x in swept volumes. factor: diagram factor.
    """

    cut_off: float
    clearance: float
    compression: float
    factor: float


@kernel
def mean_forward_ratio(cut_off: float, clearance: float) -> float:
    """Give the mean pressure of the forward stroke over the admission pressure [-].

    e + (e + c) ln((1 + c)/(e + c));  e between 0.001 and 1, c not under 0.
    Source: hyperbolic expansion (Machinery's Reference Series 70, any textbook).

    >>> round(float(mean_forward_ratio(0.5, 0.0)), 4)  # printed in engineers' pocket books
    0.8466
    """
    e = min(max(cut_off, EARLIEST_CUT_OFF), 1.0)
    c = max(clearance, 0.0)
    return e + (e + c) * math.log((1.0 + c) / (e + c))


@kernel
def mean_back_pressure(p1: float, pb: float, d: Diagram) -> float:
    """Give the mean pressure of the return stroke [Pa].

    pb (1 - x) + pb (x + c) ln(pc/pb) + (pb (x + c) - pc c),  pc = min(pb (x + c)/c, p1): the last
    term is steam at p1 going back to the chest, zero if p1 is not reached. p1, pb [Pa]; pb alone
    for p1 below it. Source: the diagram above.
    """
    behind = max(pb, LEAST_PRESSURE)
    x = min(max(d.compression, 0.0), 1.0)
    c = max(d.clearance, LEAST_VOLUME)
    shut_in = behind * (x + c)
    closed = min(shut_in / c, max(p1, behind))
    return behind * (1.0 - x) + shut_in * math.log(closed / behind) + shut_in - closed * c


@kernel
def mean_effective_pressure(p1: float, pb: float, d: Diagram) -> float:
    """Give the indicated mean effective pressure of an end [Pa]; negative if it must be driven.

    f (p1 `mean_forward_ratio` - `mean_back_pressure`). An expansion below pb counts as the loop
    that it is. p1, pb [Pa], absolute.
    """
    forward = max(p1, 0.0) * mean_forward_ratio(d.cut_off, d.clearance)
    return d.factor * (forward - mean_back_pressure(p1, pb, d))


@kernel
def swept_volume(bore: float, stroke: float, rod: float, double: bool) -> float:
    """Give the volume swept in one revolution [m3].

    Single acting: bore's area times stroke; double acting: twice that less the piston rod's.
    bore, stroke, rod (diameter, 0 leaves it out) [m]. Source: geometry.
    """
    area = 0.25 * math.pi * bore * bore
    if not double:
        return area * stroke
    return (2.0 * area - 0.25 * math.pi * rod * rod) * stroke


@kernel
def turning_share(mep: float) -> float:
    """Give the share of its speed at which the engine turns [-]: 0 for mep <= 0, 1 over 20 kPa.

    3 s^2 - 2 s^3, s = mep/20 kPa: an engine that the steam does not drive stands and takes none.
    mep [Pa]. Source: ours; friction would stop a small engine within that width.
    """
    s = min(max(mep / TURNING_WIDTH, 0.0), 1.0)
    return s * s * (3.0 - 2.0 * s)


@kernel
def indicated_power(mep: float, swept: float, speed: float) -> float:
    """Give the indicated power [W]: mep times volume swept each second, times `turning_share`.

    mep [Pa], swept [m3/rev], speed [rev/s]. Source: p A L N, any textbook.
    """
    return mep * swept * max(speed, 0.0) * turning_share(mep)


@kernel
def accounted_steam(p1: float, pb: float, rho1: float, d: Diagram, swept: float) -> float:
    """Give the steam that the diagram accounts for [kg/rev].

    rho1 swept ((e + c) - (x + c) pb/p1): what fills cylinder and clearance at the cut-off less
    what was shut in, both on the curve p V = constant. Not below 0, corner rounded over +-0.01.
    rho1 [kg/m3]: of what passes the stop valve, water in it included.
    Source: steam accounted for by the indicator (Machinery's Reference Series 70).
    """
    e = min(max(d.cut_off, EARLIEST_CUT_OFF), 1.0)
    c = max(d.clearance, 0.0)
    x = min(max(d.compression, 0.0), 1.0)
    kept = (x + c) * max(pb, LEAST_PRESSURE) / max(p1, LEAST_PRESSURE)
    return rho1 * swept * rounded_plus(e + c - kept, TAKEN_WIDTH)


@kernel
def steam_taken(accounted: float, missing: float) -> float:
    """Give the steam that the engine takes [kg/rev]: accounted/(1 - missing).

    missing: share of the steam taken that has turned to water by the cut-off, under 0.95.
    Source: Machinery's Reference Series 70, which divides by 0.8 for a share of 20 %.

    >>> round(float(steam_taken(26.5, 0.2)), 1)
    33.1
    """
    return accounted / (1.0 - min(max(missing, 0.0), 0.95))


@kernel
def steam_flow(
    p1: float, pb: float, rho1: float, d: Diagram, swept: float, speed: float, missing: float
) -> float:
    """Give the steam that the engine draws through the stop valve [kg/s].

    `steam_taken` times speed times `turning_share`: no flow when standing, or with too little
    pressure to turn. p1, pb [Pa], rho1 [kg/m3], swept [m3/rev], speed [rev/s].
    Source: the laws it joins.
    """
    each = steam_taken(accounted_steam(p1, pb, rho1, d, swept), missing)
    return each * max(speed, 0.0) * turning_share(mean_effective_pressure(p1, pb, d))


@kernel
def steam_per_work(steam: float, work: float) -> float:
    """Give steam for each work, [kg/kWh] of [kg] and [J]; work not under 1e-6 J.

    Source: a definition.
    """
    return steam * JOULES_PER_KWH / max(work, LEAST_WORK)


@kernel
def exhaust_enthalpy(h1: float, steam: float, work: float) -> float:
    """Give the enthalpy of the exhaust [J/kg]: h1 - work/steam; no heat lost from the cylinder.

    h1 [J/kg]: at the stop valve. steam [kg] and work [J] of one revolution, or of any time.
    What turned to water at the cut-off is warmed again by the walls, so it leaves in here.
    Source: energy balance of the cylinder.
    """
    return h1 - max(work, 0.0) / max(steam, LEAST_STEAM)
