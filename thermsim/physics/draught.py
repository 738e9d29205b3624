"""What moves the gas and what holds it back: stack pressure, friction, beds, acceleration.

All drops are signed with the flow, pass through zero flow without a jump, and are in Pa.
"""

from __future__ import annotations

import math

from thermsim.kernel import kernel
from thermsim.physics.constants import GRAVITY
from thermsim.physics.transition import flow_regime, rounded_plus

LAMINAR_DUCT = 64.0  # Darcy f Re, round duct
LAMINAR_SLOT = 96.0  # Darcy f Re on D_h = 2 gap, parallel plates
LAMINAR_VELOCITY_WIDTH = 0.02  # m/s; a local loss is linear in the flow well below this speed
SHORTEST_LENGTH = 1e-6  # in diameters, stands for zero distance from the inlet
SMALLEST_AREA = 1e-9  # m2, keeps a shut opening finite

# Shah (1978): apparent friction factor of a developing laminar flow
SHAH_ENTRY = 3.44
SHAH_K_DUCT, SHAH_K_SLOT = 1.25, 0.674
SHAH_C_DUCT, SHAH_C_SLOT = 0.000212, 0.000029

TURBULENT_ENTRY, TURBULENT_ENTRY_LENGTH = 8.0, 4.0  # after Phillips 1987
SHORT_DUCT_WIDTH = 0.1  # of f Re, where laminar and turbulent wall layers of a short duct meet
HAALAND_FACTOR, HAALAND_RE, HAALAND_ROUGH, HAALAND_POWER = -1.8, 6.9, 3.7, 1.11
ERGUN_LAMINAR, ERGUN_TURBULENT = 150.0, 1.75


@kernel
def laminar_friction_product(Re: float, x_over_D: float, laminar_constant: float) -> float:
    """Give f Re, Darcy's, mean from the inlet to x of a laminar flow [-].

    Developing flow costs more than developed flow: thin boundary layers and a changing profile.
    f Re / 4 = 3.44 r^0.5 + (K r/4 + c/4 - 3.44 r^0.5) / (1 + C r^2),  r = Re D_h / x
    Re: on D_h. x_over_D: distance from the inlet in hydraulic diameters. laminar_constant: c, 64
    for a round duct, 96 for a slot; K and C are interpolated linearly in c (1.25, 0.000212 and
    0.674, 0.000029; a square duct has 1.43, 0.00029 and gets 1.38, 0.00025).
    Source: Shah, J. Fluids Eng. 100 (1978) 177; Shah and London 1978 (from memory).

    >>> round(float(laminar_friction_product(100.0, 1e9, 64.0)), 4)
    64.0
    """
    r = Re / max(x_over_D, SHORTEST_LENGTH)
    slot_share = (laminar_constant - LAMINAR_DUCT) / (LAMINAR_SLOT - LAMINAR_DUCT)
    K = SHAH_K_DUCT + slot_share * (SHAH_K_SLOT - SHAH_K_DUCT)
    C = max(SHAH_C_DUCT + slot_share * (SHAH_C_SLOT - SHAH_C_DUCT), SHAH_C_SLOT)
    thin = C * r * r
    entry = SHAH_ENTRY * math.sqrt(r) * thin / (1.0 + thin)
    return 4.0 * entry + (K * r + laminar_constant) / (1.0 + thin)


@kernel
def turbulent_friction_factor(Re: float, roughness_over_D: float) -> float:
    """Give Darcy's f of a developed turbulent flow in a rough duct [-].

    f^-0.5 = -1.8 log10((e/3.7)^1.11 + 6.9/Re)
    Re above 4000; below, it is still finite. Error 1.5 % against Colebrook.
    Source: Haaland, J. Fluids Eng. 105 (1983) 89, from memory.

    >>> round(float(turbulent_friction_factor(1e4, 0.001)), 7)
    0.0321749
    """
    rough = 0.0
    if roughness_over_D > 0.0:
        rough = (roughness_over_D / HAALAND_ROUGH) ** HAALAND_POWER
    root = HAALAND_FACTOR * math.log10(rough + HAALAND_RE / max(Re, HAALAND_RE * 2.0))
    return 1.0 / (root * root)


@kernel
def friction_product(
    Re: float, x_over_D: float, laminar_constant: float, roughness_over_D: float = 0.0
) -> float:
    """Give f Re, Darcy's, mean from the inlet to x, any regime [-]; finite at zero flow.

    Laminar developing flow below Re 2300; above 4000 Haaland times 1 + 8/(x/D + 4); f Re linear in
    Re between, as Nu is (f linear would let the drop of a short slot fall as the flow rises);
    corners rounded as in `flow_regime`.
    Source of the entry factor: Phillips 1987, quoted by Bhatti and Shah in Kakac, Shah and Aung,
    Handbook of Single-Phase Convective Heat Transfer (from memory): f_app = A Re^B, A = 0.0929 +
    1.01612 D/x, B = -0.268 - 0.3293 D/x, over its own value far down, brought to this form (ours)
    within 6 % for x/D 12 and up (17 % at 5). In a very short duct the wall layer stays laminar:
    there the turbulent law is not let under the laminar one of the same Re, joined over 10 %.
    """
    Re_l, Re_t, w = flow_regime(Re)
    laminar = laminar_friction_product(Re_l, x_over_D, laminar_constant)
    if w <= 0.0:
        return laminar
    entry = 1.0 + TURBULENT_ENTRY / (max(x_over_D, 0.0) + TURBULENT_ENTRY_LENGTH)
    turbulent = turbulent_friction_factor(Re_t, roughness_over_D) * entry
    product = turbulent * Re_t
    short = laminar_friction_product(Re_t, x_over_D, laminar_constant) - product
    product += rounded_plus(short, SHORT_DUCT_WIDTH * product)
    return (1.0 - w) * laminar + w * product


@kernel
def friction_factor(
    Re: float, x_over_D: float, laminar_constant: float, roughness_over_D: float = 0.0
) -> float:
    """Give Darcy's friction factor, mean from the inlet to x [-].

    As `friction_product` divided by Re (not below 1e-9, so that it stays finite).

    >>> round(float(friction_factor(1e3, 1e9, 96.0)), 4)
    0.096
    """
    tiny = 1e-9
    return friction_product(Re, x_over_D, laminar_constant, roughness_over_D) / max(Re, tiny)


@kernel
def friction_drop(
    m: float,
    x_from: float,
    x_to: float,
    D_h: float,
    area: float,
    rho: float,
    mu: float,
    laminar_constant: float,
    roughness: float = 0.0,
) -> float:
    """Give the pressure drop by wall friction between two places of a straight pass [Pa], signed.

    dp = [x f Re]_from^to mu m / (2 rho A D_h^2), linear in m through zero flow.
    m: mass flow [kg/s]. x_from, x_to: distance from the inlet or last turn [m]; the drop of a pass
    does not depend on how it is cut. D_h [m], area [m2], rho [kg/m3], mu [Pa s], roughness [m].
    Source: Darcy-Weisbach, with the factors above.
    """
    Re = abs(m) * D_h / (area * mu)
    rough = roughness / D_h
    far = x_to * friction_product(Re, x_to / D_h, laminar_constant, rough)
    near = 0.0
    if x_from > 0.0:
        near = x_from * friction_product(Re, x_from / D_h, laminar_constant, rough)
    return (far - near) * mu * m / (2.0 * rho * area * D_h * D_h)


@kernel
def local_drop(
    m: float,
    K_forward: float,
    K_backward: float,
    area: float,
    rho_forward: float,
    rho_backward: float,
) -> float:
    """Give the pressure drop of an entry, bend, turn or opening [Pa], signed with m.

    dp = K m sqrt(m^2 + m0^2) / (2 rho A^2),  m0 = rho A v0,  v0 = 0.02 m/s (named width)
    Each direction has its own coefficient and the density of the gas it carries; the two are
    blended over the same width. Bias of |dp| +2 % at 0.1 m/s, 0.02 % at 1 m/s.
    Source: definition of a loss coefficient; the laminar width is ours.

    >>> round(float(local_drop(0.01, 1.0, 1.0, 0.01, 1.0, 1.0)), 3)  # rho v^2 / 2 = 0.5 at 1 m/s
    0.5
    """
    m0 = 0.5 * (rho_forward + rho_backward) * area * LAMINAR_VELOCITY_WIDTH
    size = math.sqrt(m * m + m0 * m0)
    onward = 0.5
    if size > 0.0:
        onward = 0.5 * (1.0 + m / size)
    K_over_rho = onward * K_forward / rho_forward + (1.0 - onward) * K_backward / rho_backward
    return K_over_rho * m * size / (2.0 * (area * area + SMALLEST_AREA * SMALLEST_AREA))


@kernel
def acceleration_drop(m: float, area: float, rho_from: float, rho_to: float) -> float:
    """Give p_from - p_to needed to speed up gas that thins as it is heated [Pa].

    dp = (m/A)^2 (1/rho_to - 1/rho_from); the same for both directions of flow.
    Source: momentum balance of a duct of constant area.
    """
    flux = m / area
    return flux * flux * (1.0 / rho_to - 1.0 / rho_from)


@kernel
def packed_bed_drop(
    m: float, area: float, depth: float, particle: float, voidage: float, rho: float, mu: float
) -> float:
    """Give the pressure drop through a bed of char or packed sticks [Pa], signed.

    dp/depth = 150 mu (1-e)^2 u / (e^3 d^2) + 1.75 rho (1-e) u |u| / (e^3 d),  u = m/(rho A)
    particle: d, diameter of the sphere with the same volume per surface, 6 V/A [m]. voidage: e,
    share of open space. Source: Ergun, Chem. Eng. Prog. 48 (1952) 89, from memory; spheres and
    granules within 20 %, long sticks lie within a factor of two.
    """
    u = m / (rho * area)
    solid = 1.0 - voidage
    cube = voidage * voidage * voidage
    viscous = ERGUN_LAMINAR * mu * solid * solid / (cube * particle * particle)
    inertial = ERGUN_TURBULENT * rho * solid * abs(u) / (cube * particle)
    return depth * u * (viscous + inertial)


@kernel
def stack_pressure(rho_outside: float, rho_gas: float, rise: float) -> float:
    """Give the draught of a column of light gas [Pa]: (rho_outside - rho_gas) g rise.

    rise [m] is upward positive. Source: hydrostatics (EN 13384-1 P_H).

    >>> round(float(stack_pressure(1.2041, 0.8341, 3.0)), 2)  # 3 m, 150 C in 20 C: 10.89 Pa
    10.89
    """
    return (rho_outside - rho_gas) * GRAVITY * rise
