"""Gap of a drum off the middle of its casing: against integrals of bearings, annuli and pipes."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermsim.network.assemble_ways import (
    FAR_HALF,
    NEAR_HALF,
    OVER,
    UNDER,
    WHOLE,
    along_way,
    crossing_way,
    face_parts,
    way_rows,
    ways_of,
)
from thermsim.network.derived_sizes import quantities_of
from thermsim.network.uneven_gap import (
    LAMINAR_POWER,
    by_side,
    gap_at,
    mean,
    narrowest,
    over_octants,
    width,
)
from thermsim.network.warnings_plant import plant_warnings
from thermsim.parts.drum_pass import ALL_ROUND, BOTTOM, SIDES, TOP

Load = Callable[..., Any]


def drum(**changes: Any) -> dict[str, Any]:
    given = {"diameter": 0.25, "gap": 0.025, "length": 0.45, "lies": True, "raised": 0.0,
             "aside": 0.0, "baffle_spacing": 0.1125, "window": None,
             "crossing": "over and under"}
    return given | changes


def narrow(e: float, **changes: Any) -> dict[str, Any]:
    """A gap of 1 mm round a drum of 2 m, off the middle by a share e of it: all but flat."""
    return drum(diameter=2.0, gap=1e-3, aside=e * 1e-3, **changes)


def test_gap_by_geometry() -> None:
    """Two circles of 125 and 150 mm, 15 mm apart: 10 and 40 mm on the line through both middles,
    sqrt(150^2 - 15^2) - 125 mm square to it."""
    top, near, far, below = by_side(drum(raised=0.015))
    assert (top, below) == (pytest.approx(0.010), pytest.approx(0.040))
    assert near == far == pytest.approx(math.sqrt(0.150**2 - 0.015**2) - 0.125)
    assert narrowest(drum(raised=0.012, aside=0.009)) == pytest.approx(0.010)
    first_order = max(abs(0.025 - 0.015 * math.sin(a) - gap_at(drum(raised=0.015), a))
                      for a in (0.1 * k for k in range(63)))
    assert first_order == pytest.approx(0.015**2 / (2 * 0.150), rel=0.02)  # 0.75 mm


@pytest.mark.parametrize("e", [0.0, 0.3, 0.88])
def test_area_of_the_ring_does_not_change(e: float) -> None:
    """pi (150^2 - 125^2) mm2, wherever the drum hangs."""
    hung = drum(raised=0.6 * e * 0.025, aside=0.8 * e * 0.025)
    assert over_octants(hung, WHOLE, lambda gap: gap) == pytest.approx(
        math.pi * (0.150**2 - 0.125**2), rel=1e-6)


@pytest.mark.parametrize("e", [0.2, 0.5, 0.8])
def test_sommerfelds_integrals(e: float) -> None:
    """Round a narrow gap: mean of 1/g is 1/(1 - e^2)^(1/2), of 1/g^3 (1 + e^2/2)/(1 - e^2)^(5/2),
    of g^3 1 + 1.5 e^2. Source: Sommerfeld 1904, journal bearings (Cameron, Basic Lubrication
    Theory, from memory); the last also White, Viscous Fluid Flow, eccentric annulus (from memory).
    """
    hung = narrow(e)
    g = hung["gap"]
    assert mean(hung, WHOLE, -1.0) == pytest.approx(g * math.sqrt(1 - e * e), rel=2e-3)
    assert mean(hung, WHOLE, -3.0)**-3 == pytest.approx(
        g**-3 * (1 + e * e / 2) / (1 - e * e)**2.5, rel=1e-2)
    assert mean(hung, WHOLE, 3.0)**3 == pytest.approx(g**3 * (1 + 1.5 * e * e), rel=2e-3)


@pytest.mark.parametrize("e", [0.2, 0.5, 0.7])
def test_still_gas_conducts_as_between_eccentric_pipes(e: float) -> None:
    """k/g with the ring's own spreading: 2 pi/arcosh((R^2 + r^2 - d^2)/(2 R r)) for a length of 1.

    Source: shape factor of eccentric cylinders, Incropera 6e table 4.1 case 7. Films take the flat
    gap on the drum's side, here on the middle of the gap: 1.5 % of what a gap of r/5 does.
    """
    hung = drum(raised=e * 0.025)
    r, R, d = 0.125, 0.150, e * 0.025
    exact = 2 * math.pi / math.acosh((R * R + r * r - d * d) / (2 * R * r))
    assert width(hung, WHOLE) / mean(hung, WHOLE, -1.0) == pytest.approx(exact, rel=0.015)


def piercy(R: float, r: float, d: float) -> float:
    """Laminar flow through an eccentric ring, times viscosity over pressure gradient [m4].

    pi/8 (R^4 - r^4 - 4 d^2 M^2/(b - a) - 8 d^2 M^2 sum of n e^(-n(b + a))/sinh(n(b - a))),
    F = (R^2 - r^2 + d^2)/(2 d), M = sqrt(F^2 - R^2), a = ln((F + M)/(F - M))/2,
    b = ln((F - d + M)/(F - d - M))/2. Source: Piercy, Hooper and Winny 1933; White, Viscous Fluid
    Flow eq. 3-51 f., from memory; at small d it is the exact law of a concentric ring (below).
    """
    F = (R * R - r * r + d * d) / (2 * d)
    M = math.sqrt(F * F - R * R)
    a = 0.5 * math.log((F + M) / (F - M))
    b = 0.5 * math.log((F - d + M) / (F - d - M))
    series = sum(n * math.exp(-n * (b + a)) / math.sinh(n * (b - a)) for n in range(1, 60))
    return math.pi / 8 * (R**4 - r**4 - 4 * d * d * M * M / (b - a) - 8 * d * d * M * M * series)


def test_the_formula_recalled_has_the_concentric_ring_as_its_limit() -> None:
    """pi/8 (R^4 - r^4 - (R^2 - r^2)^2/ln(R/r)): Lamb 1879 (White, Fluid Mechanics eq. 6.61)."""
    R, r = 0.150, 0.125
    ring = math.pi / 8 * (R**4 - r**4 - (R * R - r * r)**2 / math.log(R / r))
    assert piercy(R, r, 2e-4) == pytest.approx(ring, rel=1e-3)


def ease(way: Any) -> float:
    """Flow for a pressure gradient times viscosity: 2 A D_h^2/c [m4] (Darcy-Weisbach)."""
    return float(2.0 * way["area"] * way["D_h"] ** 2 / way["friction"])


@pytest.mark.parametrize("e", [0.2, 0.5, 0.8])
@pytest.mark.parametrize("towards", ["raised", "aside"])
@pytest.mark.parametrize("lies", [True, False])
def test_laminar_flow_along_an_eccentric_ring(e: float, towards: str, lies: bool) -> None:
    """All ways along the drum together against Piercy's exact law, within 3 % (gap r/5)."""
    if towards == "raised" and not lies:
        return
    hung = drum(lies=lies, baffle_spacing=None, **{towards: e * 0.025})
    found = sum(ease(along_way(hung, way, 0.1)) for way in ways_of(hung))
    assert found == pytest.approx(piercy(0.150, 0.125, e * 0.025), rel=0.03)


@pytest.mark.parametrize(("e", "factor"), [(0.5, 1.375), (0.999, 2.5)])
def test_narrow_ring_off_the_middle_carries_more(e: float, factor: float) -> None:
    """1 + 1.5 e^2 at one pressure loss. White, Viscous Fluid Flow (from memory): 2.5 at e = 1."""
    hung, middle = (narrow(x, lies=False, baffle_spacing=None) for x in (e, 1e-9))
    found = [sum(ease(along_way(one, way, 0.1)) for way in ways_of(one)) for one in (hung, middle)]
    assert found[0] / found[1] == pytest.approx(factor, rel=2e-3)


def test_ways_of_each_kind_of_crossing() -> None:
    assert ways_of(drum()) == ()
    assert [way.octants for way in ways_of(drum(raised=0.01))] == [OVER, UNDER]
    assert [way.octants for way in ways_of(drum(raised=0.01, crossing="both sides"))] == [
        NEAR_HALF, FAR_HALF]
    assert [way.octants for way in ways_of(drum(aside=0.01, crossing="one way round"))] == [WHOLE]
    along = ways_of(drum(raised=0.01, baffle_spacing=None))
    assert [way.strips for way in along] == [((0, 1), (2, 3)), ((6, 7), (4, 5))]
    standing = drum(aside=0.01, lies=False)
    assert [way.lanes for way in ways_of(standing)] == [2]


CROSSINGS = [("over and under", "aside"), ("both sides", "raised")]


@pytest.mark.parametrize(("crossing", "towards"), CROSSINGS)
def test_ways_mirrored_about_the_line_of_the_windows_are_alike(crossing: str,
                                                               towards: str) -> None:
    first, second = way_rows(drum(crossing=crossing, **{towards: 0.012}), 0.1)
    assert first == pytest.approx(second, rel=1e-9)
    assert first["guess"] == pytest.approx(0.5)


@pytest.mark.parametrize(("crossing", "towards"), [("over and under", "raised"),
                                                   ("both sides", "aside")])
def test_narrow_way_of_gaps_in_series(crossing: str, towards: str) -> None:
    """1/g^3 along half a turn of a narrow gap, e = 0.5: (I +- ...) by quadrature at 1e-4 rad."""
    e, n = 0.5, 31416
    hung = drum(diameter=2.0, gap=1e-3, crossing=crossing, **{towards: e * 1e-3})
    near, far = (sum((1 + sign * e * math.sin(math.pi * (k + 0.5) / n))**-3 for k in range(n)) / n
                 for sign in (-1, 1))
    first, second = (crossing_way(hung, way) for way in ways_of(hung))
    assert (0.5 * first["D_h"] / 1e-3)**-3 == pytest.approx(near, rel=3e-3)
    assert (0.5 * second["D_h"] / 1e-3)**-3 == pytest.approx(far, rel=3e-3)
    assert first["area"] == pytest.approx(0.1125 * 0.5 * first["D_h"])
    assert first["length"] == pytest.approx(math.pi, rel=1e-3)


def test_drum_all_but_in_the_middle_has_the_sizes_of_one_that_is() -> None:
    """Two ways of 25 x 112.5 mm over half of pi 275 mm; turns as `bay_geometry`: K 2.0 x 2."""
    first, second = way_rows(drum(raised=1e-9), 0.1)
    assert first["area"] == pytest.approx(0.025 * 0.1125)
    assert first["length"] == pytest.approx(0.5 * math.pi * 0.275)
    assert first["turn"] == pytest.approx(4.0)
    assert second["turn"] == pytest.approx(4.0)


def test_faces_divide_each_side() -> None:
    hung = drum(raised=0.01, aside=0.005, baffle_spacing=None)
    for side in (TOP, SIDES, BOTTOM):
        assert sum(part["share"] for part in face_parts(hung, side)) == pytest.approx(1.0)
    top = face_parts(hung, TOP)
    assert [(part["way"], part["strip"]) for part in top] == [(0, 0), (0, 1)]
    assert top[0]["gap"] < top[1]["gap"] < 0.025  # aside on the right, raised: narrowest there
    standing = face_parts(drum(lies=False, aside=0.01, baffle_spacing=None), ALL_ROUND)
    assert [part["share"] for part in standing] == [0.5, 0.5]
    assert face_parts(drum(), TOP) == []


def test_strips_share_the_gas_of_a_way() -> None:
    """The near half of a narrow gap at e = 0.5 takes (1 + 1.5 e^2 - s)/2 over 1 + 1.5 e^2 of it,
    s = 6 e/pi + 2 (2/(3 pi)) 2 e^3: the integral of (1 - e cos)^3 over half a turn, by hand."""
    e = 0.5
    row = along_way(hung := narrow(e, lies=False, baffle_spacing=None), ways_of(hung)[0], 0.1)
    odd = (3 * e * 2 + e**3 * 4 / 3) / math.pi
    assert row["strip_laminar"] == pytest.approx(
        0.5 * (1 + 1.5 * e * e - odd) / (1 + 1.5 * e * e), rel=3e-3)
    assert row["strip_laminar"] < row["strip_turbulent"] < row["strip"] == pytest.approx(0.5,
                                                                                         rel=1e-3)
    assert mean(hung, WHOLE, LAMINAR_POWER) > 1e-3


def told(tree: Any) -> dict[str, str]:
    return {one.label: one.text for one in quantities_of(tree)}


def test_check_tells_the_gap_by_side(load: Load) -> None:
    """25 mm round 250 mm, 12 mm up: 13 and 37 mm; sqrt(150^2 - 12^2) - 125 = 24.5 mm."""
    found = told(load("drum.raised = 12 mm").tree)
    assert (found["gap on top of the drum"], found["gap below it"]) == ("13 mm", "37 mm")
    assert found["gap at its sides"] == "24.5 mm"
    assert found["gap, narrowest"] == "13 mm"
    assert found["window past a baffle"] == told(load().tree)["window past a baffle"].replace(
        "28.1", "27.6")  # at the drum's sides, where 25 mm are 24.5
    assert told(load("drum.raised = 12 mm", "drum.crossing = both sides").tree)[
        "window past a baffle"].endswith("by turns")
    standing = told(load("drum.aside = 10 mm", "drum.lies = no").tree)
    assert standing["gap at the drum's sides"] == "15 mm and 35 mm"
    assert "gap below it" not in standing
    assert not any(label.startswith("gap, ") for label in told(load().tree))


def test_a_place_that_soot_closes_is_warned_of(load: Load) -> None:
    assert not any("closes with soot" in line for line in plant_warnings(load().tree))
    found = [line for line in plant_warnings(load("drum.raised = -18 mm").tree)
             if "closes with soot" in line]
    assert len(found) == 1
    assert "7 mm round the drum, where it is narrowest," in found[0]
