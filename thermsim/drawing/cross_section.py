"""Section across drum and casing: gap, water level, the window of a baffle, how the gas crosses."""

from __future__ import annotations

import math
from typing import Any

from thermsim.drawing.drum_section import baffle_places
from thermsim.drawing.drum_water import water_level
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

CIRCLE_POINTS = 96
OVERHANG = 0.02
WAVE_STEP, WAVE_REACH, WAVE_TAPER = 0.012, 0.4, 0.1
"""lines under a water surface: apart [m], and how long over the surface"""
WALL_SPOT = (0.35, 0.93)
SIDE_SPOTS = (("top", 110.0), ("sides", 20.0), ("bottom", 250.0))
"""where the spots sit: on the drum over its radius; on the casing in degrees from level"""
WIDEST_WINDOW = math.radians(300.0)
ARROW_SHARE = 0.9
ARROW_SPREAD = math.radians(25.0)


def draw_cross_section(outline: Outline, drum: Any, pass_name: str) -> None:
    """The section through the middle of the drum, seen along its axis."""
    inner, clear = drum.diameter / 2, drum.diameter / 2 + drum.gap
    outer = clear + thickness_of(drum.casing)
    for layer in layers_of(drum.casing):
        _ring(outline, "casing", clear + layer.inner, clear + layer.outer, layer.fill)
    _ring(outline, "drum", inner - drum.plate, inner, PLATE)
    reach = outer + OVERHANG
    outline.line("centre line", (-reach, 0.0), (reach, 0.0), weight=CENTRE, view=CROSS)
    outline.line("centre line", (0.0, -reach), (0.0, reach), weight=CENTRE, view=CROSS)
    _water(outline, drum)
    _window(outline, drum, inner, clear)
    _crossing(outline, drum, inner + drum.gap / 2)
    _labels(outline, drum, pass_name, outer)
    _sizes(outline, drum, clear, outer)
    seen = "" if drum.lies else ", seen from above"
    outline.cross_title = f"Section through drum and casing{seen}"


def _round(radius: float, start: float = 0.0, end: float = 2 * math.pi) -> list[Point]:
    steps = max(2, round(CIRCLE_POINTS * abs(end - start) / (2 * math.pi)))
    angles = [start + (end - start) * k / steps for k in range(steps + 1)]
    return [(radius * math.cos(a), radius * math.sin(a)) for a in angles]


def _ring(outline: Outline, name: str, inner: float, outer: float, fill: str) -> None:
    points = [*_round(outer), *reversed(_round(inner))]
    outline.area(name, points, fill, CUT, CROSS)


def _water(outline: Outline, drum: Any) -> None:
    if drum.water <= 0.0 or not drum.lies:
        return
    radius = drum.diameter / 2 - drum.plate
    level, _ = water_level(drum)
    z = level - radius
    half = math.sqrt(max(0.0, radius**2 - z**2))
    outline.line("water level", (-half, z), (half, z), view=CROSS)
    for k in (1, 2):
        drop, reach = WAVE_STEP * k, half * (WAVE_REACH - WAVE_TAPER * k)
        if level > 2 * drop:
            outline.line("water", (-reach, z - drop), (reach, z - drop), weight=THIN, view=CROSS)


def window_angle(drum: Any) -> float:
    """Angle that the window takes of the girth, in the middle of the gap [rad]."""
    wide = drum.window or drum.baffle_spacing or 0.0
    return min(WIDEST_WINDOW, float(wide) / (drum.diameter / 2 + drum.gap / 2))


def window_middles(drum: Any) -> list[tuple[float, bool]]:
    """(direction of the window's middle, whether it is in the next baffle behind)."""
    if not baffle_places(drum):
        return []
    up, down, right, left = math.pi / 2, -math.pi / 2, 0.0, math.pi
    if drum.crossing == "both sides":
        return [(right, False), (left, True)]
    if drum.crossing == "one way round":
        return [(up, False)]
    return [(up, False), (down, True)]


def _window(outline: Outline, drum: Any, inner: float, clear: float) -> None:
    half = window_angle(drum) / 2
    for middle, behind in window_middles(drum):
        for angle in (middle - half, middle + half):
            ends = [(r * math.cos(angle), r * math.sin(angle)) for r in (inner, clear)]
            outline.line("window behind" if behind else "window", *ends,
                         weight="hidden" if behind else VISIBLE, view=CROSS)


def _crossing(outline: Outline, drum: Any, radius: float) -> None:
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
                outline.line("crossing", *_round(radius, a, b), weight=THIN, view=CROSS,
                             arrow=True)


def _labels(outline: Outline, drum: Any, name: str, outer: float) -> None:
    radius = drum.diameter / 2
    if not drum.lies:
        at = _round(outer, math.radians(SIDE_SPOTS[1][1]))[0]
        outline.labels.append(Label(f"{name} 1 shell outside", at, view=CROSS))
        return
    across, up = (share * radius for share in WALL_SPOT)
    spots: list[tuple[str, Point]] = [("drum dry wall", (across, up))]
    if drum.water > 0.0:
        spots.append(("drum wet wall", (across, -up)))
        level, _ = water_level(drum)
        half = math.sqrt(max(0.0, radius**2 - (level - radius) ** 2))
        surface = (-half / 2, level - radius)
        outline.labels.append(Label(f"water {millimetres(round(level, 3))}\u00a0mm deep", surface,
                                    spot=False, view=CROSS))
    for side, angle in SIDE_SPOTS:
        turned = math.radians(angle)
        at = (outer * math.cos(turned), outer * math.sin(turned))
        spots.append((f"{name} 1 {side} outside", at))
    outline.labels += [Label(text, at, view=CROSS) for text, at in spots]


def _sizes(outline: Outline, drum: Any, clear: float, outer: float) -> None:
    radius = drum.diameter / 2
    outline.sizes += [
        Size("drum", (-radius, 0.0), (radius, 0.0), "x", "below", drum.diameter, "⌀", CROSS),
        Size("casing over all", (-outer, 0.0), (outer, 0.0), "x", "below", 2 * outer, "⌀", CROSS),
        Size("gap", (radius, 0.0), (clear, 0.0), "x", "above", drum.gap, "gap ", CROSS),
    ]
