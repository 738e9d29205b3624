"""Dished ends: the torispherical head of DIN 28011, R = D and r = 0.1 D.

A crown (part of a sphere) runs into a knuckle (part of a ring) that meets the shell. R and r are
the inside's; D is the drum's outside diameter. Plain Python, no compiler needed; the four shares
at the end are compiled where a drum's level is followed (parts/drum_level.py).

What the standard gives, from memory: depth 0.1935 D - 0.455 s inside, volume 0.1 (D - 2 s)^3,
area 0.99 D^2; the geometry here has these within 0.001 D, 1.1 % and 0.01 % (for s = 0).
"""

from __future__ import annotations

import math
from typing import NamedTuple

CROWN, KNUCKLE = 1.0, 0.1
"""inside radii over the outside diameter, DIN 28011"""
AREA_BEND = -0.32
"""of the wetted area of a lying head; fitted to the integral (ours), within 0.2 %"""
HEIGHT_TERMS = (-0.0956, -0.0116, -0.2364)
AREA_TERMS = (0.0379, 0.9132, -0.6745)
"""of a standing head by the root of its volume share, in powers of it; fitted to the closed forms
(ours) for plates up to 5 % of D: within 0.3 % and 1.3 % of the whole for plates of 1 to 2.5 %, as
small drums have, else 0.9 % and 2.3 %"""


class Face(NamedTuple):
    """One face of a head: crown's and knuckle's radius, radius where it meets the shell [m]."""

    crown: float
    knuckle: float
    radius: float

    @property
    def ring(self) -> float:
        """Radius on which the middle of the knuckle lies [m]."""
        return self.radius - self.knuckle

    @property
    def meets(self) -> float:
        """Angle from the axis at which crown and knuckle meet [rad]."""
        return math.asin(self.ring / (self.crown - self.knuckle))


def inside(diameter: float, plate: float) -> Face:
    """Give the inside of a head of a drum's outside diameter and plate [m].

    Source: DIN 28011, R = D, r = 0.1 D, from memory.
    """
    return Face(CROWN * diameter, KNUCKLE * diameter, 0.5 * diameter - plate)


def outside(diameter: float, plate: float) -> Face:
    """Give the outside of a head of a drum's outside diameter and plate [m]; a plate further out.

    Source: DIN 28011, R = D, r = 0.1 D, from memory.
    """
    return Face(CROWN * diameter + plate, KNUCKLE * diameter + plate, 0.5 * diameter)


def depth(face: Face) -> float:
    """Give how far a head stands out beyond the shell [m]: R - sqrt((R - r)^2 - (a - r)^2).

    Source: plane geometry of two circles that touch.

    >>> round(depth(inside(1.0, 0.0)), 3), round(0.1935, 3)
    (0.194, 0.194)
    """
    return face.crown - math.sqrt((face.crown - face.knuckle) ** 2 - face.ring**2)


def area(face: Face) -> float:
    """Give the area of a head's face [m2].

    2 pi R^2 (1 - cos a) + 2 pi r (c (pi/2 - a) + r cos a),  c the ring's radius, a where they meet
    Source: sphere's cap and part of a ring, Pappus' first theorem; DIN 28011 has 0.99 D^2.

    >>> round(area(inside(1.0, 0.0)), 2)
    0.99
    """
    a, R, r = face.meets, face.crown, face.knuckle
    return 2.0 * math.pi * (R * R * (1.0 - math.cos(a))
                            + r * (face.ring * (0.5 * math.pi - a) + r * math.cos(a)))


def volume(face: Face) -> float:
    """Give what a head holds beyond the shell [m3]: the crown's cap, and the disc in the knuckle.

    pi H^2 (R - H/3) + pi int_0^Z (c + sqrt(r^2 - z^2))^2 dz,  H = R (1 - cos a), Z = r cos a
    Source: Bronstein, solids; DIN 28011 has 0.1 D^3.

    >>> round(volume(inside(1.0, 0.0)), 2)
    0.1
    """
    return volume_under(face, depth(face))


def volume_under(face: Face, height: float) -> float:
    """Give what a standing head holds under a height over its lowest point [m3].

    The cap up to where the crown ends, then the disc in the knuckle as well; height from 0 to the
    head's depth. Source: Bronstein, solids.
    """
    R, r = face.crown, face.knuckle
    cap = min(height, R * (1.0 - math.cos(face.meets)))
    above = depth(face) - height
    knuckle = _disc(face, r * math.cos(face.meets)) - _disc(face, above) if height > cap else 0.0
    return math.pi * cap * cap * (R - cap / 3.0) + knuckle


def _disc(face: Face, z: float) -> float:
    """What the knuckle encloses from the shell to z beyond it [m3]."""
    r, c = face.knuckle, face.ring
    bent = z * math.sqrt(r * r - z * z) + r * r * math.asin(z / r)
    return math.pi * (c * c * z + c * bent + r * r * z - z**3 / 3.0)


def depth_at(face: Face, rho: float) -> float:
    """Give how far a head stands out beyond the shell at a distance rho from its axis [m].

    Source: plane geometry; nothing beyond the shell's radius.
    """
    if rho < face.crown * math.sin(face.meets):
        return depth(face) - face.crown + math.sqrt(face.crown**2 - rho * rho)
    return math.sqrt(max(face.knuckle**2 - (rho - face.ring) ** 2, 0.0))


def radius_at(face: Face, out: float) -> float:
    """Give a head's radius at a distance out beyond the shell [m], up to its depth.

    Source: plane geometry; the inverse of `depth_at`.
    """
    if out > face.knuckle * math.cos(face.meets):
        return math.sqrt(max(face.crown**2 - (face.crown - depth(face) + out) ** 2, 0.0))
    return face.ring + math.sqrt(face.knuckle**2 - out * out)


def meridian(face: Face) -> float:
    """Give the way over a head from rim to rim through its pole [m]: 2 (R a + r (pi/2 - a)).

    Source: arcs of its two circles.
    """
    a = face.meets
    return 2.0 * (face.crown * a + face.knuckle * (0.5 * math.pi - a))


def lying_volume_share(y: float) -> float:
    """Give the share of a lying head's volume under a height y, of its diameter: 3 y^2 - 2 y^3.

    Exact for half an ellipsoid, for this head within 0.3 % of the whole (0.5 % at 5 % plate); y
    from 0 to 1. Source: Bronstein, ellipsoid; held against the integral over the head.

    >>> lying_volume_share(0.5)
    0.5
    """
    return y * y * (3.0 - 2.0 * y)


def lying_area_share(y: float) -> float:
    """Give the share of a lying head's area under a height y, of its diameter.

    y - 0.32 y (1 - y) (1 - 2 y), y from 0 to 1; within 0.2 % of the whole. Source: fitted to the
    integral over the head (ours); by symmetry a half is under the middle.

    >>> lying_area_share(0.5)
    0.5
    """
    return y + AREA_BEND * y * (1.0 - y) * (1.0 - 2.0 * y)


def lying_area_slope(y: float) -> float:
    """Give how fast that share grows with y [-]. Source: its derivative."""
    return 1.0 + AREA_BEND * (1.0 - 6.0 * y + 6.0 * y * y)


def standing_shares(q: float) -> tuple[float, float, float, float]:
    """Give (height, its slope, area, its slope) of a standing head filled to a volume share q^2.

    Height over the head's lowest point, of its depth; area of the whole; slopes by q; q from 0
    to 1: q + q (1 - q) (t0 + t1 q + t2 q^2). A sphere's cap has both as q at first. Source: fitted
    to the closed forms of cap and knuckle (ours), within 0.3 % and 1.3 % for plates of 1 to 2.5 %
    of D, 0.9 % and 2.3 % up to 5 %.
    """
    p, slope = q * (1.0 - q), 1.0 - 2.0 * q
    h = HEIGHT_TERMS[0] + q * (HEIGHT_TERMS[1] + q * HEIGHT_TERMS[2])
    a = AREA_TERMS[0] + q * (AREA_TERMS[1] + q * AREA_TERMS[2])
    dh = HEIGHT_TERMS[1] + 2.0 * q * HEIGHT_TERMS[2]
    da = AREA_TERMS[1] + 2.0 * q * AREA_TERMS[2]
    return q + p * h, 1.0 + slope * h + p * dh, q + p * a, 1.0 + slope * a + p * da
