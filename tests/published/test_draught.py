"""Draught of columns of gas, friction and local losses, flow through a whole chimney."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from rows import Allowed, Law, cases
from scipy.optimize import brentq

from thermsim.parts.drum_pass import effectiveness
from thermsim.physics import draught, local_losses
from thermsim.physics.constants import GRAVITY, P_ATMOSPHERE, R_AIR

FAR = 1e12  # diameters: developed
INCH_WATER = 249.08891  # Pa, of water at 4 degrees C (NIST SP 811)
POUND_PER_CUBIC_FOOT = 16.018463  # kg/m3 (NIST SP 811)
CRANE_ROUGHNESS = 0.0018 * 0.0254  # m, clean steel pipe (Crane TP-410)


def air(T: float) -> float:
    return P_ATMOSPHERE / (R_AIR * T)


def column(H: float, Ta_K: float, Tg_K: float, m: float) -> tuple[float, float]:
    """Draught [Pa] and gas density of a chimney whose gas is m kg air and 1 kg fuel [kg/m3].

    The source's gas takes the room of its air alone.
    """
    rho = air(Tg_K) * (m + 1.0) / m
    return draught.stack_pressure(air(Ta_K), rho, H), rho


def column_of_gas(H: float, Ta_K: float, Tg_K: float, m: float, **_: float) -> float:
    """The draught as metres of the hot gas."""
    drop, rho = column(H, Ta_K, Tg_K, m)
    return drop / (rho * GRAVITY)


def height_for(hw_mm: float, Ta_K: float, Tg_K: float, m: float, **_: float) -> float:
    return hw_mm * GRAVITY / column(1.0, Ta_K, Tg_K, m)[0]


def speed(H: float, Ta_K: float, Tg_K: float, m: float, loss: float, **_: float) -> float:
    """What is left of the draught makes the gas's speed: one velocity head [m/s]."""
    drop, rho = column(H, Ta_K, Tg_K, m)

    def left(flux: float) -> float:
        return draught.local_drop(flux, 1.0, 1.0, 1.0, rho, rho) - (1.0 - loss) * drop

    return float(brentq(left, 0.0, 100.0, xtol=1e-12)) / rho


def speed_of(hw_mm: float, **rest: float) -> float:
    return speed(height_for(hw_mm, **rest), **rest)


def diameter_of(hw_mm: float, mf_kg_h: float, m: float, **rest: float) -> float:
    """The source lets the air of the fuel through, without the fuel's own mass."""
    rho = column(1.0, rest["Ta_K"], rest["Tg_K"], m)[1]
    area = mf_kg_h / 3600.0 * m / (rho * speed_of(hw_mm, m=m, **rest))
    return math.sqrt(4.0 * area / math.pi)


def flow_of(D: float, **rest: float) -> float:
    rho = column(rest["H"], rest["Ta_K"], rest["Tg_K"], rest["m"])[1]
    return rho * speed(**rest) * 0.25 * math.pi * D * D


def neutral_share(Ab: float, At: float, Ti_K: float, To_K: float) -> float:
    """Where inside and outside pressure are alike between a low and a high hole, of the height."""
    rho_in, rho_out = air(Ti_K), air(To_K)
    whole = draught.stack_pressure(rho_out, rho_in, 3.0)

    def low(m: float) -> float:
        return draught.local_drop(m, 2.8, 2.8, Ab, rho_out, rho_in)

    m = brentq(lambda m: low(m) + draught.local_drop(m, 2.8, 2.8, At, rho_in, rho_out) - whole,
               0.0, 100.0, xtol=1e-14)
    return low(m) / whole


def en(answer: str) -> Law:
    """Relations of EN 13384-1 with the model's laws of a cell, of draught and of losses."""

    def law(H: float, D: float, mdot: float, Te: float, Tu: float, TL: float, k: float, cp: float,
            R: float, RL: float, pL: float, psi: float, zeta: float) -> float:
        K = k * math.pi * D * H / (mdot * cp)
        T_m = Tu + (Te - Tu) * effectiveness(K)
        rho, area = pL / (R * T_m), 0.25 * math.pi * D * D
        lift = draught.stack_pressure(pL / (RL * TL), rho, H)
        lost = draught.local_drop(mdot, psi * H / D + zeta, 0.0, area, rho, rho)
        return {"Tm": T_m, "To": Tu + (Te - Tu) * (1.0 - K * effectiveness(K)), "PH": lift,
                "PR": lost, "PZ": lift - lost, "wm": mdot / (rho * area)}[answer]

    return law


def loop(answer: str) -> Law:
    """Draught, stack losses and the loss of a sharp hole in balance."""

    def law(Hs: float, D: float, Tg: float, To: float, zeta: float, psi: float, Do: float,
            Cd: float) -> float:
        rho, rho_o = air(Tg), air(To)
        area, hole = 0.25 * math.pi * D * D, 0.25 * math.pi * Do * Do
        lift = draught.stack_pressure(rho_o, rho, Hs)
        K_in, K = local_losses.opening_loss(Cd), psi * Hs / D + zeta

        def inlet(m: float) -> float:
            return draught.local_drop(m, K_in, K_in, hole, rho_o, rho_o)

        m = brentq(lambda m: inlet(m) + draught.local_drop(m, K, K, area, rho, rho) - lift,
                   0.0, 1.0, xtol=1e-15)
        return {"PH": lift, "m": m, "dpin": inlet(m)}[answer]

    return law


def chimney_flow(T: float, C: float, D: float, h: float, Ta: float) -> float:
    """Flow [kg/s] where the draught is lost in an opening of discharge C at the chimney's size."""
    rho, K, area = air(T), local_losses.opening_loss(C), 0.25 * math.pi * D * D
    lift = draught.stack_pressure(air(Ta), rho, h)
    return float(brentq(lambda m: draught.local_drop(m, K, K, area, rho, rho) - lift, 0.0, 1.0,
                        xtol=1e-15))


def heated_flow(Q_W: float, C: float, D: float, h: float, Ta: float) -> float:
    return float(brentq(lambda m: chimney_flow(Ta + Q_W / (m * 1100.0), C, D, h, Ta) - m,
                        1e-3, 0.2, xtol=1e-14))


def friction(Re: float, eD: float = 0.0) -> float:
    return draught.friction_factor(Re, FAR, draught.LAMINAR_DUCT, eD)


CRANE_FRICTION = friction(1e9, CRANE_ROUGHNESS / 0.1)


def bend(r_over_D: float) -> float:
    """Loss and friction of a quarter bend, over the friction factor of a rough pipe [-]."""
    f = CRANE_FRICTION
    return (local_losses.smooth_bend_loss(r_over_D) + f * 0.5 * math.pi * r_over_D) / f


HAALAND = "Haaland's law is within 1.5 % of Colebrook's by its author"
CHURCHILL = "two fits of Colebrook's law, 1.5 % each"
BENDS = "Crane counts friction in; the model takes Idelchik's loss and adds friction of the arc"
SHARP = "Crane and Idelchik give 0.5 for a flush sharp entry, which the model takes"
MITRE = "Rennels, whom the model follows, is a fifth over Crane's 60 f_T"
LINEAR = "the law is linear in the flow below 0.02 m/s, 0.02 % of the drop at 1 m/s"
CONSTANT = "the source's 353 and 9.81 are rounded"

LAWS: dict[str, Law | Allowed] = {
    "D-met-rho": lambda T_F, p_atm: air((T_F + 459.67) / 1.8) * p_atm / POUND_PER_CUBIC_FOOT,
    "D-353": lambda: air(1.0),
    "D-ASHRAE-c": lambda: draught.stack_pressure(air(1.0), 0.0, 1.0) / P_ATMOSPHERE,
    "D-th-": lambda H, Tm_K, To_K, B_Pa: draught.stack_pressure(air(To_K), air(Tm_K), H),
    "D-stack-": lambda To_K, Ts_K: draught.stack_pressure(air(To_K), air(Ts_K), 1.0),
    "D-iso-1000": lambda altitude: local_losses.outside_pressure(altitude),
    "D-iso-rho": local_losses.density_at_height,
    "D-shah": lambda Re, x_over_D: draught.laminar_friction_product(Re, x_over_D, 64.0),
    "D06": lambda H, T_C, To_C: draught.stack_pressure(air(To_C + 273.15), air(T_C + 273.15), H),
    "D07": lambda C, D, h, Ta: chimney_flow(2.0 * Ta, C, D, h, Ta),
    "D08": heated_flow,
    "D-ag17H": height_for,
    "D-ag17V": speed_of,
    "D-ag17D": diameter_of,
    "D-ag18h1": column_of_gas,
    "D-ag19h1": column_of_gas,
    "D-ag19V": speed,
    "D-ag19rho": lambda H, Ta_K, Tg_K, m, **_: column(H, Ta_K, Tg_K, m)[1],
    "D-ag19m": flow_of,
    "D-npl": Allowed(neutral_share, 2e-4, LINEAR),
    "D-f-Cole": Allowed(friction, 0.015, HAALAND),
    "D-f-white": Allowed(friction, 0.015, HAALAND),
    "D-f-Haal": friction,
    "D-f-Chur-lam": friction,
    "D-f-Chur": Allowed(friction, 0.03, CHURCHILL),
    "D-K-entry": Allowed(lambda: local_losses.ENTRY_SHARP, 0.15, SHARP),
    "D-K-exit": lambda: local_losses.EXIT,
    "D-K-exp": lambda area_ratio: local_losses.enlargement_loss(area_ratio),
    "D-K-con": lambda area_ratio: local_losses.contraction_loss(area_ratio),
    "D-K-orif": lambda area_ratio: local_losses.orifice_loss(area_ratio),
    "D-K-plate": lambda: local_losses.opening_loss(local_losses.DISCHARGE_SHARP),
    "D-K-mitre-R": lambda: local_losses.mitre_loss(0.5 * math.pi),
    "D-K-mitre": Allowed(lambda: local_losses.mitre_loss(0.5 * math.pi) / CRANE_FRICTION, 0.25,
                         MITRE),
    "D-K-crane-fT": Allowed(lambda D: friction(1e9, CRANE_ROUGHNESS / D), 0.015, HAALAND),
    "D-K-bend": Allowed(bend, 0.1, BENDS),
    **{f"D-en-{which}-{of}": en(of) for which in "BC" for of in ("Tm", "To", "wm")},
    **{f"D-en-{which}-PH": Allowed(en("PH"), 5e-4, CONSTANT) for which in "BC"},
    **{f"D-en-{which}-{of}": Allowed(en(of), 6e-4, LINEAR)
       for which in "BC" for of in ("PR", "PZ")},
    **{f"D-loop{n}-PH": Allowed(loop("PH"), 1e-3, CONSTANT) for n in (1, 2, 3)},
    **{f"D-loop{n}-{of}": Allowed(loop(of), 1e-3, LINEAR)
       for n in (1, 2, 3) for of in ("m", "dpin")},
}


@pytest.mark.parametrize("case", cases("draught", LAWS))
def test_draught(case: Any, held: Callable[[Any], None]) -> None:
    held(case)
