"""Section across drum and casing: gap, water level, the window of a baffle, how the gas crosses.

The casing's axis is the origin; the drum may hang off it, higher or lower and to the right.
"""

from __future__ import annotations

import math
from typing import Any

from thermsim.drawing.drum_section import baffle_places
from thermsim.drawing.outline import (
    CENTRE,
    CROSS,
    CUT,
    PLATE,
    THIN,
    VISIBLE,
    Label,
    Outline,
    Point,
    Size,
    layers_of,
    millimetres,
    thickness_of,
)
from thermsim.network.uneven_gap import WINDOWS, ray_gap
from thermsim.network.water_level import water_level

CIRCLE_POINTS = 96
OVERHANG = 0.02
WAVE_STEP, WAVE_REACH, WAVE_TAPER = 0.012, 0.4, 0.1
"""lines under a water surface: apart [m], and how long over the surface"""
WALL_SPOT = (0.35, 0.93)
SIDE_SPOTS = (("top", 110.0), ("sides", 20.0), ("bottom", 250.0))
"""where the spots sit: on the drum over its radius; on the casing in degrees from level"""
WIDEST_WINDOW = math.radians(300.0)
ARROW_SHARE = 0.9
DRUM_CENTRE_LINE = 0.2
"""of the diameter, from its axis each way"""
ARROW_SPREAD = math.radians(25.0)


def draw_cross_section(outline: Outline, drum: Any, pass_name: str) -> None:
    """The section through the middle of the drum, seen along its axis."""
    inner, clear = drum.diameter / 2, drum.diameter / 2 + drum.gap
    outer = clear + thickness_of(drum.casing)
    for layer in layers_of(drum.casing):
        _ring(outline, "casing", (0.0, 0.0), clear + layer.inner, clear + layer.outer, layer.fill)
    middle = drum_middle(drum)
    _ring(outline, "drum", middle, inner - drum.plate, inner, PLATE)
    _centre_lines(outline, drum, middle, outer + OVERHANG)
    _water(outline, drum)
    _window(outline, drum)
    _crossing(outline, drum)
    _labels(outline, drum, pass_name, outer)
    _sizes(outline, drum, clear, outer)
    if middle != (0.0, 0.0):
        _gaps(outline, drum)
    seen = "" if drum.lies else ", seen from above"
    outline.cross_title = f"Section through drum and casing{seen}"


def drum_middle(drum: Any) -> Point:
    """Where the drum's axis lies, seen from the casing's."""
    return float(drum.aside), float(drum.raised if drum.lies else 0.0)


def gap_towards(drum: Any, angle: float) -> float:
    """Gap on the ray from the drum's axis."""
    aside, raised = drum_middle(drum)
    return ray_gap(drum.diameter / 2, drum.gap, raised, aside, angle)


def _on_ray(drum: Any, angle: float, share: float) -> Point:
    """Point in the gap on a ray from the drum's axis: share 0 at the drum, 1 at the casing."""
    middle = drum_middle(drum)
    reach = drum.diameter / 2 + share * gap_towards(drum, angle)
    return middle[0] + reach * math.cos(angle), middle[1] + reach * math.sin(angle)


def _round(radius: float, start: float = 0.0, end: float = 2 * math.pi) -> list[Point]:
    return [(radius * math.cos(a), radius * math.sin(a)) for a in _angles(start, end)]


def _angles(start: float, end: float) -> list[float]:
    steps = max(2, round(CIRCLE_POINTS * abs(end - start) / (2 * math.pi)))
    return [start + (end - start) * k / steps for k in range(steps + 1)]


def _ring(outline: Outline, name: str, middle: Point, inner: float, outer: float,
          fill: str) -> None:
    points = [(middle[0] + x, middle[1] + z) for x, z in (*_round(outer),
                                                          *reversed(_round(inner)))]
    outline.area(name, points, fill, CUT, CROSS)


def _centre_lines(outline: Outline, drum: Any, middle: Point, reach: float) -> None:
    """Both axes of the casing, and of a drum off it the one that is not on them, inside it."""
    outline.line("centre line", (-reach, 0.0), (reach, 0.0), weight=CENTRE, view=CROSS)
    outline.line("centre line", (0.0, -reach), (0.0, reach), weight=CENTRE, view=CROSS)
    x, z = middle
    short = drum.diameter * DRUM_CENTRE_LINE
    if z != 0.0:
        outline.line("drum's axis", (x - short, z), (x + short, z), weight=CENTRE, view=CROSS)
    if x != 0.0:
        outline.line("drum's axis", (x, z - short), (x, z + short), weight=CENTRE, view=CROSS)


def _water(outline: Outline, drum: Any) -> None:
    if drum.water <= 0.0 or not drum.lies:
        return
    radius = drum.diameter / 2 - drum.plate
    level, _ = water_level(drum)
    x, up = drum_middle(drum)
    half = math.sqrt(max(0.0, radius**2 - (level - radius) ** 2))
    z = up + level - radius
    outline.line("water level", (x - half, z), (x + half, z), view=CROSS)
    for k in (1, 2):
        drop, reach = WAVE_STEP * k, half * (WAVE_REACH - WAVE_TAPER * k)
        if level > 2 * drop:
            outline.line("water", (x - reach, z - drop), (x + reach, z - drop), weight=THIN,
                         view=CROSS)


def window_angle(drum: Any) -> float:
    """Angle that the window takes of the girth, in the middle of the gap [rad]."""
    wide = drum.window or drum.length / (len(baffle_places(drum)) + 1)
    return min(WIDEST_WINDOW, float(wide) / (drum.diameter / 2 + drum.gap / 2))


def window_middles(drum: Any) -> list[tuple[float, bool]]:
    """(direction of the window's middle, whether it is in the next baffle behind)."""
    if not baffle_places(drum):
        return []
    return [(angle, number == 1) for number, angle in enumerate(WINDOWS[drum.crossing])]


def _window(outline: Outline, drum: Any) -> None:
    half = window_angle(drum) / 2
    for middle, behind in window_middles(drum):
        for angle in (middle - half, middle + half):
            ends = [_on_ray(drum, angle, share) for share in (0.0, 1.0)]
            outline.line("window behind" if behind else "window", *ends,
                         weight="hidden" if behind else VISIBLE, view=CROSS)


def _crossing(outline: Outline, drum: Any) -> None:
    """Arrows along the gap, from one window to the next."""
    middles = [middle for middle, _ in window_middles(drum)]
    if not middles:
        return
    start = middles[0]
    ways = (1.0,) if drum.crossing == "one way round" else (1.0, -1.0)
    turn = 2 * math.pi if drum.crossing == "one way round" else math.pi
    for way in ways:
        first = start + way * (window_angle(drum) / 2 + ARROW_SPREAD / 2)
        last = start + way * (turn - window_angle(drum) / 2 - ARROW_SPREAD / 2)
        if (last - first) * way > ARROW_SPREAD:
            pieces = 2 if turn > math.pi else 1
            for k in range(pieces):
                a = first + (last - first) * k / pieces
                b = first + (last - first) * (k + ARROW_SHARE) / pieces
                outline.line("crossing", *(_on_ray(drum, angle, 0.5) for angle in _angles(a, b)),
                             weight=THIN, view=CROSS, arrow=True)


def _labels(outline: Outline, drum: Any, name: str, outer: float) -> None:
    radius = drum.diameter / 2
    if not drum.lies:
        at = _round(outer, math.radians(SIDE_SPOTS[1][1]))[0]
        outline.labels.append(Label(f"{name} 1 shell outside", at, view=CROSS))
        return
    middle = drum_middle(drum)
    across, up = (share * radius for share in WALL_SPOT)
    spots: list[tuple[str, Point]] = [("drum dry wall", (middle[0] + across, middle[1] + up))]
    if drum.water > 0.0:
        spots.append(("drum wet wall", (middle[0] + across, middle[1] - up)))
        level, _ = water_level(drum)
        half = math.sqrt(max(0.0, radius**2 - (level - radius) ** 2))
        surface = (middle[0] - half / 2, middle[1] + level - radius)
        outline.labels.append(Label(f"water {millimetres(round(level, 3))}\u00a0mm deep", surface,
                                    spot=False, view=CROSS))
    for side, angle in SIDE_SPOTS:
        turned = math.radians(angle)
        at = (outer * math.cos(turned), outer * math.sin(turned))
        spots.append((f"{name} 1 {side} outside", at))
    outline.labels += [Label(text, at, view=CROSS) for text, at in spots]


def _sizes(outline: Outline, drum: Any, clear: float, outer: float) -> None:
    radius = drum.diameter / 2
    x, z = drum_middle(drum)
    outline.sizes += [
        Size("drum", (x - radius, z), (x + radius, z), "x", "below", drum.diameter, "⌀", CROSS),
        Size("casing over all", (-outer, 0.0), (outer, 0.0), "x", "below", 2 * outer, "⌀", CROSS),
    ]
    if (x, z) == (0.0, 0.0):
        outline.sizes.append(Size("gap", (radius, 0.0), (clear, 0.0), "x", "above", drum.gap,
                                  "gap ", CROSS))


def _gaps(outline: Outline, drum: Any) -> None:
    """The gap at both sides as dimensions, on top and below as names led to it."""
    for name, angle in (("gap", 0.0), ("gap on the other side", math.pi)):
        start, end = (_on_ray(drum, angle, share) for share in (0.0, 1.0))
        outline.sizes.append(Size(name, start, end, "x", "above",
                                  round(gap_towards(drum, angle), 4), "gap ", CROSS))
    for name, angle in (("on top", math.pi / 2), ("below", -math.pi / 2)) if drum.lies else ():
        wide = millimetres(round(gap_towards(drum, angle), 4))
        outline.labels.append(Label(f"gap {wide}\u00a0mm {name}", _on_ray(drum, angle, 0.5),
                                    spot=False, view=CROSS))
