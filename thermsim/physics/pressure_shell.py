"""Shells and tubes under pressure from inside: plate needed, pressure allowed.

Two codes, both ways each. What a plate may bear is in `steel_strength`; that of unknown steel is
nothing. A result is a calculation, no approval: the local code and a licensed inspector decide.

Everywhere: pressure [Pa gauge]; inside_diameter as built [m]; stress allowed at the metal's
temperature [Pa]; joint: efficiency of the welds, 0 to 1; corrosion: plate that may be lost [m].
A thickness is inf where no plate would do, a pressure 0 where no plate is left.
"""

from __future__ import annotations

from math import inf, sqrt

THIN_SHARE = 0.385
"""of the allowed stress: pressure up to which the thin formula holds (UG-27(c)(1))"""
EN_THICK = 0.16
"""thickness over outside diameter up to which EN 13445-3 7.4.2 holds (7.4.1)"""

SEAMS = {
    "butt, both sides, every inch X-rayed": 1.0,
    "butt, both sides, spot X-rayed": 0.85,
    "butt, both sides, not X-rayed": 0.70,
    "butt, one side, backing strip left, not X-rayed": 0.65,
    "butt, one side, no backing strip, not X-rayed": 0.60,
    "lap, both sides": 0.55,
    "lap, one side": 0.45,
}
"""efficiency by how a seam is welded: ASME VIII-1 table UW-12 (from memory). The single butt weld
is for girth seams of thin, small shells alone, laps for thin plate; EN 13445-3 5.6 has 1, 0.85 and
0.7. All are for a qualified welder: nobody has rated another's seam"""


def shell_thickness(pressure: float, inside_diameter: float, stress: float, joint: float = 1.0,
                    corrosion: float = 0.0) -> float:
    """Give the plate that a cylinder needs [m], by its lengthwise seam.

    t = P R/(S E - 0.6 P), R with the corrosion gone; past P = 0.385 S E, that is t = R/2, the
    thick t = R (Z^(1/2) - 1), Z = (S E + P)/(S E - P), which is Lame's stress at the inner face;
    inf from P = S E on. The girth seams need half of it, see `girth_thickness`.
    Source: ASME VIII-1 UG-27(c)(1); appendix 1-2 as it stood before 2010, which asks for more than
    today's (both from memory).

    >>> round(shell_thickness(1e6, 0.300, 114e6, 0.7) * 1e3, 3)  # 1000/(0.7 114 - 0.6) 150: by hand
    1.894
    """
    bears = stress * joint
    if pressure <= 0.0:
        return corrosion
    if bears <= 0.0:
        return inf
    radius = 0.5 * inside_diameter + corrosion
    if pressure <= THIN_SHARE * bears:
        return pressure * radius / (bears - 0.6 * pressure) + corrosion
    if pressure >= bears:
        return inf
    return radius * (sqrt((bears + pressure) / (bears - pressure)) - 1.0) + corrosion


def shell_pressure(thickness: float, inside_diameter: float, stress: float, joint: float = 1.0,
                   corrosion: float = 0.0) -> float:
    """Give the pressure that a cylinder is allowed by its lengthwise seam [Pa].

    P = S E t/(R + 0.6 t), thick S E (Z - 1)/(Z + 1), Z = (1 + t/R)^2: the inverse of
    `shell_thickness`. Source: as there.

    >>> round(shell_pressure(1.894e-3, 0.300, 114e6, 0.7) / 1e6, 3)
    1.0
    """
    left = thickness - corrosion
    if left <= 0.0:
        return 0.0
    radius, bears = 0.5 * inside_diameter + corrosion, stress * joint
    thin = bears * left / (radius + 0.6 * left)
    if thin <= THIN_SHARE * bears:
        return thin
    Z = (1.0 + left / radius) ** 2
    return bears * (Z - 1.0) / (Z + 1.0)


def girth_thickness(pressure: float, inside_diameter: float, stress: float, joint: float = 1.0,
                    corrosion: float = 0.0) -> float:
    """Give the plate that the pull along a cylinder needs [m], by its girth seams.

    t = P R/(2 S E + 0.4 P); up to P = 1.25 S E, inf beyond. Governs only where the girth seam is
    less than half as good as the lengthwise one. Source: ASME VIII-1 UG-27(c)(2).

    >>> round(girth_thickness(1e6, 0.300, 114e6, 0.7) * 1e3, 4)  # 150/(159.6 + 0.4)
    0.9375
    """
    bears = stress * joint
    if pressure <= 0.0:
        return corrosion
    if pressure > 1.25 * bears:
        return inf
    radius = 0.5 * inside_diameter + corrosion
    return pressure * radius / (2.0 * bears + 0.4 * pressure) + corrosion


def girth_pressure(thickness: float, inside_diameter: float, stress: float, joint: float = 1.0,
                   corrosion: float = 0.0) -> float:
    """Give the pressure that the pull along a cylinder allows [Pa]; inverse of `girth_thickness`.

    P = 2 S E t/(R - 0.4 t), at most 1.25 S E. Source: ASME VIII-1 UG-27(c)(2).

    >>> round(girth_pressure(0.9375e-3, 0.300, 114e6, 0.7) / 1e6, 3)
    1.0
    """
    left = thickness - corrosion
    if left <= 0.0:
        return 0.0
    radius, bears = 0.5 * inside_diameter + corrosion, stress * joint
    if left >= radius / 0.4:
        return 1.25 * bears
    return min(2.0 * bears * left / (radius - 0.4 * left), 1.25 * bears)


def sphere_thickness(pressure: float, inside_diameter: float, stress: float, joint: float = 1.0,
                     corrosion: float = 0.0) -> float:
    """Give the plate of a ball or of a half-ball end [m]: t = P R/(2 S E - 0.2 P).

    Up to P = 0.665 S E, inf beyond. Source: ASME VIII-1 UG-27(d), UG-32(e).

    >>> round(sphere_thickness(1e6, 0.300, 114e6, 0.7) * 1e3, 4)  # 150/(159.6 - 0.2)
    0.941
    """
    bears = stress * joint
    if pressure <= 0.0:
        return corrosion
    if pressure > 0.665 * bears:
        return inf
    radius = 0.5 * inside_diameter + corrosion
    return pressure * radius / (2.0 * bears - 0.2 * pressure) + corrosion


def sphere_pressure(thickness: float, inside_diameter: float, stress: float, joint: float = 1.0,
                    corrosion: float = 0.0) -> float:
    """Give the pressure that a ball is allowed [Pa]: P = 2 S E t/(R + 0.2 t), at most 0.665 S E.

    Source: ASME VIII-1 UG-27(d).

    >>> round(sphere_pressure(0.941e-3, 0.300, 114e6, 0.7) / 1e6, 3)
    1.0
    """
    left = max(thickness - corrosion, 0.0)
    radius, bears = 0.5 * inside_diameter + corrosion, stress * joint
    return min(2.0 * bears * left / (radius + 0.2 * left), 0.665 * bears)


def tube_thickness(pressure: float, outside_diameter: float, stress: float, joint: float = 1.0,
                   lost: float = 0.0) -> float:
    """Give the wall that a tube with the pressure inside needs [m]: t = P Ro/(S E + 0.4 P).

    lost: what thread, bend, thinnest drawing and corrosion take [m]. Up to P = 0.385 S E, inf
    beyond. Source: ASME VIII-1 appendix 1-1; the same as ASME B31's P = 2 S t/(D - 0.8 t).

    >>> psi, inch = 6894.757, 0.0254  # copper tube handbook: 494 psi, half inch type M at 100 F
    >>> round(tube_thickness(494 * psi, 0.6255 * inch, 6000 * psi) / inch, 4)
    0.0249
    """
    bears = stress * joint
    if pressure <= 0.0:
        return lost
    if pressure > THIN_SHARE * bears:
        return inf
    return 0.5 * pressure * outside_diameter / (bears + 0.4 * pressure) + lost


def tube_pressure(thickness: float, outside_diameter: float, stress: float, joint: float = 1.0,
                  lost: float = 0.0) -> float:
    """Give the pressure inside that a tube is allowed [Pa]: P = 2 S E t/(D - 0.8 t).

    At most 0.385 S E; arguments as `tube_thickness`. Source: as there.

    >>> psi, inch = 6894.757, 0.0254  # the handbook's tube at 400 F: 247 psi
    >>> int(tube_pressure(0.025 * inch, 0.6255 * inch, 3000 * psi) / psi)
    247
    """
    left = min(max(thickness - lost, 0.0), 0.5 * outside_diameter)
    bears = stress * joint
    return min(2.0 * bears * left / (outside_diameter - 0.8 * left), THIN_SHARE * bears)


def shell_thickness_en(pressure: float, inside_diameter: float, stress: float, joint: float = 1.0,
                       corrosion: float = 0.0) -> float:
    """Give the plate that a cylinder needs by the European code [m]: e = P Di/(2 f z - P).

    Without the allowances for thin delivery; inf where e/De would pass 0.16.
    Source: EN 13445-3:2014 7.4.2 (7.4-1), from memory.

    >>> round(shell_thickness_en(1e6, 0.300, 205e6 / 1.5, 0.85) * 1e3, 3)  # 300/(232.333 - 1)
    1.297
    """
    if pressure <= 0.0:
        return corrosion
    diameter, bears = inside_diameter + 2.0 * corrosion, stress * joint
    if pressure >= 2.0 * bears:
        return inf
    needed = pressure * diameter / (2.0 * bears - pressure)
    if needed > EN_THICK * (diameter + 2.0 * needed):
        return inf
    return needed + corrosion


def shell_pressure_en(thickness: float, inside_diameter: float, stress: float, joint: float = 1.0,
                      corrosion: float = 0.0) -> float:
    """Give the pressure that a cylinder is allowed by the European code [Pa].

    P = 2 f z e/Dm, Dm = Di + e; plate over 0.16 De counts as that much.
    Source: EN 13445-3:2014 7.4.2 (7.4-3), from memory.

    >>> round(shell_pressure_en(1.2968e-3, 0.300, 205e6 / 1.5, 0.85) / 1e6, 3)
    1.0
    """
    diameter = inside_diameter + 2.0 * corrosion
    most = EN_THICK * diameter / (1.0 - 2.0 * EN_THICK)
    left = min(max(thickness - corrosion, 0.0), most)
    return 2.0 * stress * joint * left / (diameter + left)
