"""Ends of drums under pressure from inside: dished and flat, both ways; plates held by stays.

Arguments as in `pressure_shell`: pressure [Pa gauge], lengths [m], stress [Pa], joint: efficiency
of seams within the end, corrosion [m]. A flat end needs several times the plate of the shell.
"""

from __future__ import annotations

from math import inf, sqrt

DISH_SHARE = 0.06
"""least knuckle over the outside diameter, and over the crown radius (UG-32(i), (j))"""
THIN_DISH = 0.002
"""least thickness over crown radius: thinner knuckles buckle, appendix 1-4(f)"""
FLAT_WELDED, FLAT_BOLTED, FLAT_FLANGED = 0.33, 0.25, 0.17
"""C of UG-34 (from memory): plate welded into or onto the shell all round, fully, both sides;
bolted on with a gasket over the whole face (the diameter then is the bolt circle's); an end with a
flange turned by a radius of three thicknesses and butt welded"""
STAY_THREADED, STAY_WELDED, STAY_NUTTED = 2.1, 2.2, 2.5
"""C of UG-47 (from memory): stays screwed through plate up to 11 mm and riveted over; welded in;
screwed, with single nuts outside the plate"""


def ellipsoidal_factor(depth_ratio: float) -> float:
    """Give K of an ellipsoidal end [-]: (2 + (D/2h)^2)/6; depth_ratio: D/(2 h), 1 to 3.

    Source: ASME VIII-1 appendix 1-4(c).

    >>> ellipsoidal_factor(2.0), ellipsoidal_factor(1.0)  # 2:1; half-ball
    (1.0, 0.5)
    """
    return (2.0 + depth_ratio * depth_ratio) / 6.0


def ellipsoidal_thickness(pressure: float, inside_diameter: float, stress: float,
                          joint: float = 1.0, corrosion: float = 0.0,
                          depth_ratio: float = 2.0) -> float:
    """Give the plate of an ellipsoidal end [m]: t = P D K/(2 S E - 0.2 P).

    Plate under 0.002 of the crown radius (0.9 D at 2:1) may buckle at the knuckle: at least that
    much is given. Source: ASME VIII-1 UG-32(c) for 2:1, appendix 1-4(c), (f).

    >>> round(ellipsoidal_thickness(1e6, 0.300, 114e6, 0.7) * 1e3, 3)  # 300/(159.6 - 0.2)
    1.882
    """
    if pressure <= 0.0:
        return corrosion
    twice = 2.0 * stress * joint - 0.2 * pressure
    if twice <= 0.0:
        return inf
    diameter, K = inside_diameter + 2.0 * corrosion, ellipsoidal_factor(depth_ratio)
    least = THIN_DISH * 0.9 * diameter
    return max(pressure * diameter * K / twice, least) + corrosion


def ellipsoidal_pressure(thickness: float, inside_diameter: float, stress: float,
                         joint: float = 1.0, corrosion: float = 0.0,
                         depth_ratio: float = 2.0) -> float:
    """Give the pressure that an ellipsoidal end is allowed [Pa]: P = 2 S E t/(K D + 0.2 t).

    0 for plate under 0.002 of the crown radius. Source: as `ellipsoidal_thickness`.

    >>> round(ellipsoidal_pressure(1.882e-3, 0.300, 114e6, 0.7) / 1e6, 3)
    1.0
    """
    left, diameter = thickness - corrosion, inside_diameter + 2.0 * corrosion
    if left < THIN_DISH * 0.9 * diameter:
        return 0.0
    K = ellipsoidal_factor(depth_ratio)
    return 2.0 * stress * joint * left / (K * diameter + 0.2 * left)


def dish_factor(crown_radius: float, knuckle_radius: float) -> float:
    """Give M of a torispherical end [-]: (3 + (L/r)^(1/2))/4. Source: appendix 1-4(d).

    The common dish, knuckle 0.06 of the crown, has 1.77, twice UG-32's 0.885:
    >>> round(dish_factor(1.0, 0.06), 2)
    1.77
    """
    return (3.0 + sqrt(crown_radius / knuckle_radius)) / 4.0


def dish_allowed(outside_diameter: float, crown_radius: float, knuckle_radius: float,
                 thickness: float) -> bool:
    """Say whether the shape is one that the law holds for.

    Crown not over the outside diameter, knuckle at least 0.06 of it and 3 thicknesses.
    Source: ASME VIII-1 UG-32(j), from memory. Other shapes: treat the end as flat.

    >>> dish_allowed(0.300, 0.300, 0.018, 3e-3)
    True
    """
    enough = max(DISH_SHARE * outside_diameter, 3.0 * thickness)
    return crown_radius <= outside_diameter and knuckle_radius >= enough


def dish_thickness(pressure: float, crown_radius: float, knuckle_radius: float, stress: float,
                   joint: float = 1.0, corrosion: float = 0.0) -> float:
    """Give the plate of a torispherical end [m]: t = P L M/(2 S E - 0.2 P), radii inside.

    At least 0.002 L. `dish_allowed` says for which shapes. Source: ASME VIII-1 UG-32(d), 1-4(d).

    Crown 300, knuckle 18 mm, 1 MPa, 114 MPa, seamless: by UG-32 0.885 P L/(S E - 0.1 P) = 2.331 mm
    >>> round(dish_thickness(1e6, 0.300, 0.018, 114e6) * 1e3, 2)
    2.33
    """
    if pressure <= 0.0:
        return corrosion
    twice = 2.0 * stress * joint - 0.2 * pressure
    if twice <= 0.0:
        return inf
    crown, knuckle = crown_radius + corrosion, knuckle_radius + corrosion
    needed = pressure * crown * dish_factor(crown, knuckle) / twice
    return max(needed, THIN_DISH * crown) + corrosion


def dish_pressure(thickness: float, crown_radius: float, knuckle_radius: float, stress: float,
                  joint: float = 1.0, corrosion: float = 0.0) -> float:
    """Give the pressure that a torispherical end is allowed [Pa]: P = 2 S E t/(L M + 0.2 t).

    0 for plate under 0.002 L. Source: as `dish_thickness`.

    >>> round(dish_pressure(2.33e-3, 0.300, 0.018, 114e6) / 1e6, 2)
    1.0
    """
    crown, knuckle = crown_radius + corrosion, knuckle_radius + corrosion
    left = thickness - corrosion
    if left < THIN_DISH * crown:
        return 0.0
    return 2.0 * stress * joint * left / (crown * dish_factor(crown, knuckle) + 0.2 * left)


def flat_end_thickness(pressure: float, inside_diameter: float, stress: float,
                       joint: float = 1.0, corrosion: float = 0.0,
                       attachment: float = FLAT_WELDED) -> float:
    """Give the plate of a round flat end without stays [m]: t = d (C P/(S E))^(1/2).

    attachment: C, see `FLAT_WELDED`. No hole in it: those need compensation of their own.
    Source: ASME VIII-1 UG-34(c)(2). Elastic plates have C 0.31 if borne freely at the edge, 0.19
    if clamped.

    >>> round(flat_end_thickness(1e6, 0.300, 114e6) * 1e3, 2)  # 300 (0.33/114)^0.5
    16.14
    """
    if pressure <= 0.0:
        return corrosion
    bears = stress * joint
    if bears <= 0.0:
        return inf
    return (inside_diameter + 2.0 * corrosion) * sqrt(attachment * pressure / bears) + corrosion


def flat_end_pressure(thickness: float, inside_diameter: float, stress: float,
                      joint: float = 1.0, corrosion: float = 0.0,
                      attachment: float = FLAT_WELDED) -> float:
    """Give the pressure that a round flat end is allowed [Pa]: P = S E (t/d)^2/C.

    Source: ASME VIII-1 UG-34(c)(2).

    >>> round(flat_end_pressure(16.14e-3, 0.300, 114e6) / 1e6, 3)
    1.0
    """
    left = max(thickness - corrosion, 0.0)
    return stress * joint * (left / (inside_diameter + 2.0 * corrosion)) ** 2 / attachment


def _en_flat_factor(pressure: float, diameter: float, shell: float, stress: float) -> float:
    """C1 of EN 13445-3 10.4, welded flat end; the shell's stiffness helps."""
    middle = diameter + shell
    B = 1.0 - 3.0 * stress / pressure * (shell / middle) ** 2
    B += 3.0 / 16.0 * (diameter / middle) ** 4 * pressure / stress
    B -= 0.75 * (2.0 * diameter + shell) * shell**2 / middle**3
    A = B * (1.0 - B * shell / (2.0 * middle))
    return max(0.40825 * A * middle / diameter, 0.299 * (1.0 + 1.7 * shell / diameter))


def flat_end_thickness_en(pressure: float, inside_diameter: float, stress: float,
                          shell_thickness: float, corrosion: float = 0.0) -> float:
    """Give the plate of a welded flat end by the European code [m]: e = C1 Di (P/f)^(1/2).

    C1 from the shell's thickness beside it: 0.408 (the freely borne plate at its collapse) for a
    thin shell, down to about 0.30. The second factor C2 of the code, which can ask for more in
    very thin shells under bending, is left out.
    Source: EN 13445-3:2014 10.4.3, figure 10.4-4 (from memory).

    No shell to help: 0.40825 (1 + 3/16/114) 300/114^0.5, by hand
    >>> round(flat_end_thickness_en(1e6, 0.300, 114e6, 0.0) * 1e3, 2)
    11.49
    """
    if pressure <= 0.0:
        return corrosion
    if stress <= 0.0:
        return inf
    diameter = inside_diameter + 2.0 * corrosion
    shell = max(shell_thickness - corrosion, 0.0)
    C = _en_flat_factor(pressure, diameter, shell, stress)
    return C * diameter * sqrt(pressure / stress) + corrosion


def flat_end_pressure_en(thickness: float, inside_diameter: float, stress: float,
                         shell_thickness: float, corrosion: float = 0.0) -> float:
    """Give the pressure a welded flat end is allowed [Pa]; `flat_end_thickness_en` halved to it.

    Source: as there.

    >>> round(flat_end_pressure_en(11.49e-3, 0.300, 114e6, 0.0) / 1e6, 3)
    1.0
    """
    low, high = 0.0, stress
    for _ in range(60):
        middle = 0.5 * (low + high)
        needed = flat_end_thickness_en(middle, inside_diameter, stress, shell_thickness, corrosion)
        low, high = (middle, high) if needed <= thickness else (low, middle)
    return low


def stayed_plate_thickness(pressure: float, pitch: float, stress: float, corrosion: float = 0.0,
                           held: float = STAY_THREADED) -> float:
    """Give the flat plate between stays in rows at right angles [m]: t = p (P/(S C))^(1/2).

    pitch: the greatest between stays [m]; held: C, see `STAY_THREADED`. Not under 8 mm (5/16 in).
    Source: ASME VIII-1 UG-47(a), from memory.

    >>> round(stayed_plate_thickness(1e6, 0.150, 114e6) * 1e3, 2)  # 150 (1/(114 2.1))^0.5
    9.69
    """
    if pressure <= 0.0:
        return corrosion
    if stress <= 0.0:
        return inf
    return max(pitch * sqrt(pressure / (stress * held)), 7.9e-3) + corrosion


def stayed_plate_pressure(thickness: float, pitch: float, stress: float, corrosion: float = 0.0,
                          held: float = STAY_THREADED) -> float:
    """Give the pressure that a stayed flat plate is allowed [Pa]: P = S C (t/p)^2.

    0 under 8 mm. Source: ASME VIII-1 UG-47(a), from memory.

    >>> round(stayed_plate_pressure(9.69e-3, 0.150, 114e6) / 1e6, 2)
    1.0
    """
    left = thickness - corrosion
    return stress * held * (left / pitch) ** 2 if left >= 7.9e-3 else 0.0


def stay_area(pressure: float, pitch: float, stress: float) -> float:
    """Give the smallest cross-section of a stay [m2]: 1.1 of the load on its square, over stress.

    Source: ASME VIII-1 UG-50(b), from memory.

    >>> round(stay_area(1e6, 0.150, 114e6) * 1e6, 1)  # 1.1 22500 N/114
    217.1
    """
    return 1.1 * max(pressure, 0.0) * pitch * pitch / stress
