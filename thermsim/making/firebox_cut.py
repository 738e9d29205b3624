"""The firebox as pieces: front, back, two sides, top, and the tube of a feed.

Front and back cover the edges of the sides; the top lies on all four. The walls reach from the
floor to the top: what is under the grate is the ash pit. Where the file does not say where across a
wall a hole sits, it is in the middle.
"""

from __future__ import annotations

from typing import Any

from thermsim.drawing.firebox_section import CHUTE, ON_TOP, OpeningPlace, tube_plate
from thermsim.drawing.outline import thickness_of
from thermsim.drawing.placing import Placed
from thermsim.drawing.route import DRUM_KIND, Laid, upright
from thermsim.making.flat_shapes import Path, area, both, circle, rectangle, shared
from thermsim.making.pieces import PLATE, CuttingList, Hole, Piece
from thermsim.making.walls_cut import Cut, Way, cut_layers, first_plate

OF = "firebox"
AS_FIREBOX = "plate as the firebox's: the scenario gives none for it"
MOUTH = "mouth of the casing"
THIN_MM = 1000.0


def cut_firebox(made: CuttingList, tree: Any, placed: Placed, openings: list[OpeningPlace]) -> None:
    """Enter the firebox's pieces, its welds and the tubes of its feeds."""
    box = tree["firebox"]
    walls, cover = cut_layers(tree, box["wall"]), cut_layers(tree, placed.box.cover)
    front, back, top = _front_ways(openings), _back_ways(tree, placed), _top_ways(tree, placed,
                                                                                  openings)
    for cut in walls:
        wide, high = box["width"] + 2.0 * cut.outer, placed.box.top
        plane = rectangle(wide, high, (-wide / 2.0, 0.0))
        _enter(made, f"firebox{cut.ordinal} front", cut, plane, plane, front)
        _enter(made, f"firebox{cut.ordinal} back", cut, plane,
               *_back(tree, placed, cut, plane, back))
        for _ in range(2):
            side = rectangle(box["depth"] + 2.0 * cut.inner, high)
            _enter(made, f"firebox{cut.ordinal} side", cut, side, side, [])
    for cut in cover:
        reach = _cover_reach(cut, walls, box)
        plane = rectangle(box["depth"] + 2.0 * reach, box["width"] + 2.0 * reach,
                          (-reach, -box["width"] / 2.0 - reach))
        _enter(made, f"firebox{cut.ordinal} top", cut, plane,
               *_top(tree, placed, cut, plane, top))
    plate = first_plate(walls)
    if plate is not None:
        made.weld("firebox corners", OF, 4.0 * placed.box.top)
        made.weld("firebox top to walls", OF,
                  2.0 * (box["width"] + box["depth"] + 4.0 * plate.outer))
    _overlaps(made, front)
    for place in openings:
        if place.how in (ON_TOP, CHUTE):
            _tube(made, tree, placed, place, plate)


def _enter(made: CuttingList, name: str, cut: Cut, plane: Path, outline: Path,
           ways: list[Way | Hole]) -> None:
    """One layer of one wall with its holes, which end where its own plane ends."""
    holes = []
    for way in ways:
        hole = way if isinstance(way, Hole) else Hole(way.name, way.path(cut))
        try:
            path = shared(plane, hole.path)
        except ValueError:
            made.notes.append(f"{name}: {hole.name} lies beside it, by the sizes in the file")
            continue
        whole = abs(area(path) - area(hole.path)) < 1e-9
        holes.append(hole if whole else Hole(hole.name, path))
    made.add(Piece(name, OF, cut.material, cut.thickness, cut.density, outline, tuple(holes),
                   kind=cut.kind))


def _front_ways(openings: list[OpeningPlace]) -> list[Way | Hole]:
    ways: list[Way | Hole] = []
    for place in openings:
        if place.how == ON_TOP:
            continue
        low, high = place.z if place.how != CHUTE else (place.z[0], place.throat)
        if place.one.width > 0.0 and high > low:
            ways.append(Way(plain(place.name), (0.0, (low + high) / 2.0),
                            (place.one.width / 2.0, (high - low) / 2.0)))
    return ways


def pipe_way(laid: Laid, at: tuple[float, float], lean: float, level: bool) -> Way:
    """The way of a pipe through a flat wall; `lean` is the cosine of its angle to the normal.

    level: the first coordinate of the wall lies across the drawing, the second in its plane.
    """
    part = laid.part
    round_one = part["kind"] != "rectangular duct"
    across = laid.half if round_one else part["width"] / 2.0
    half = (across, laid.half / lean) if level else (laid.half / lean, across)
    return Way(words_of(part), at, half, round_one, thickness_of(part["wall"]))


def words_of(part: Any) -> str:
    """Name of a pass in plain words."""
    return plain(str(part["name"]))


def plain(name: str) -> str:
    """A name in plain words."""
    return name.replace("_", " ")


def _first_pipe(tree: Any, placed: Placed) -> Laid | None:
    """The pipe that leaves the firebox, if it is a pipe that does."""
    if tree["gas_path"][0]["kind"] == DRUM_KIND or not placed.pipes:
        return None
    return placed.pipes[0]


def _back_ways(tree: Any, placed: Placed) -> list[Way | Hole]:
    laid = _first_pipe(tree, placed)
    if laid is None or upright(laid.into):
        return []
    return [pipe_way(laid, (0.0, laid.line[0][1]), abs(laid.into[0]), True)]


def _top_ways(tree: Any, placed: Placed, openings: list[OpeningPlace]) -> list[Way | Hole]:
    ways: list[Way | Hole] = [
        Way(plain(place.name), ((place.x[0] + place.x[1]) / 2.0, 0.0),
            (place.one.height / 2.0, place.one.width / 2.0), wall=tube_plate(placed.box),
            set_in=True)
        for place in openings if place.how == ON_TOP]
    laid = _first_pipe(tree, placed)
    if laid is not None and upright(laid.into):
        ways.append(pipe_way(laid, (laid.line[0][0], 0.0), abs(laid.into[1]), False))
    return ways


def _casing_on(tree: Any) -> bool:
    """Whether the casing of the drum stands on the firebox itself."""
    return bool(tree["drum"]) and tree["gas_path"][0]["kind"] == DRUM_KIND


def _back(tree: Any, placed: Placed, cut: Cut, plane: Path,
          ways: list[Way | Hole]) -> tuple[Path, list[Way | Hole]]:
    """The back with the mouth of a casing that stands against it."""
    if not _casing_on(tree) or not tree["drum"]["lies"] or placed.seat is None:
        return plane, ways
    box, middle = tree["firebox"], (0.0, placed.seat.at[1])
    clear = rectangle(box["width"], placed.box.top - placed.box.grate,
                      (-box["width"] / 2.0, placed.box.grate))
    return _with_mouth(tree, cut, plane, ways, middle, clear)


def _top(tree: Any, placed: Placed, cut: Cut, plane: Path,
         ways: list[Way | Hole]) -> tuple[Path, list[Way | Hole]]:
    """The top with the mouth of a casing that stands on it."""
    if not _casing_on(tree) or tree["drum"]["lies"] or placed.seat is None:
        return plane, ways
    box = tree["firebox"]
    clear = rectangle(box["depth"], box["width"], (0.0, -box["width"] / 2.0))
    return _with_mouth(tree, cut, plane, ways, (placed.seat.at[0], 0.0), clear)


def _with_mouth(tree: Any, cut: Cut, plane: Path, ways: list[Way | Hole],
                middle: tuple[float, float],
                clear: Path) -> tuple[Path, list[Way | Hole]]:
    """The first plate closes the casing's front, too, and is open only into the firebox; outer
    layers let the casing through."""
    radius = tree["drum"]["diameter"] / 2.0 + tree["drum"]["gap"]
    casing = first_plate(cut_layers(tree, tree["drum"]["casing"]))
    over = radius + (casing.outer if casing else 0.0)
    if cut.kind != PLATE or cut.number > 0:
        return plane, [*ways, Hole("casing", circle(over, middle))]
    return (both(plane, circle(over, middle)),
            [*ways, Hole(MOUTH, shared(clear, circle(radius, middle)))])


def narrow_mouth(tree: Any, placed: Placed) -> str | None:
    """Where the firebox is narrower than the casing, so that the gap is partly covered."""
    if not _casing_on(tree) or placed.seat is None:
        return None
    box, drum = tree["firebox"], tree["drum"]
    across = drum["diameter"] + 2.0 * drum["gap"]
    along = placed.box.top - placed.box.grate if drum["lies"] else box["depth"]
    least = min(box["width"], along)
    if least >= across - 1e-9:
        return None
    face = " and part of the drum's end" if least < drum["diameter"] - 1e-9 else ""
    return (f"{MOUTH}: the firebox is {THIN_MM * least:.4g} mm inside, the casing "
            f"{THIN_MM * across:.4g} mm: the plate between them covers the gap{face} at the sides, "
            "where the model takes it as open all round")


def _cover_reach(cut: Cut, walls: list[Cut], box: Any) -> float:
    """How far a layer of the top reaches over the inside: to the outside of the wall's plate of
    the same number, insulation over all layers."""
    plates = [one for one in walls if one.kind == PLATE]
    if cut.kind == PLATE and plates:
        return plates[min(cut.number, len(plates) - 1)].outer
    return thickness_of(box["wall"])


def _overlaps(made: CuttingList, ways: list[Way | Hole]) -> None:
    boxes = [(way.name, way.at, way.half) for way in ways if isinstance(way, Way)]
    for k, (name, at, half) in enumerate(boxes):
        for other, there, reach in boxes[:k]:
            if abs(at[1] - there[1]) < half[1] + reach[1]:
                made.notes.append(
                    f"firebox front: {other} and {name} meet if both sit in the middle: put them "
                    "side by side; the scenario does not say where across the wall they sit")


def _tube(made: CuttingList, tree: Any, placed: Placed, place: OpeningPlace,
          plate: Cut | None) -> None:
    """Strips of a feed's tube; of a chute also its floor, and what closes it towards the box."""
    if plate is None:
        made.open.append(f"tube of {plain(place.name)}: plate, since the firebox's wall has none")
        return
    one, thick = place.one, plate.thickness
    low, high = place.z
    strips = [("face", one.width + 2.0 * thick, high - low)]
    cheek = rectangle(one.height, high - low)
    if place.how == ON_TOP:
        strips.append(strips[0])
    else:
        strips += _chute_strips(placed, place, thick)
        cheek = _chute_cheek(placed, place)
    name = plain(place.name)
    paths = [(what, rectangle(long, wide)) for what, long, wide in strips if wide > 0.0]
    for what, path in [*paths, ("cheek", cheek), ("cheek", cheek)]:
        made.add(Piece(f"{name} tube {what}", name, plate.material, thick, plate.density, path,
                       note=AS_FIREBOX))
    made.weld(f"{name} tube corners", name, 4.0 * (high - low))
    made.weld(f"{name} tube to firebox", name, 2.0 * (one.width + one.height + 4.0 * thick))


def _chute_strips(placed: Placed, place: OpeningPlace,
                  thick: float) -> list[tuple[str, float, float]]:
    wall = -thickness_of(placed.box.wall)
    strips = [("floor", place.one.width + 2.0 * thick, wall - place.x[0] + thick)]
    if place.aside:
        strips += [("inner face", place.one.width, place.z[1] - place.throat),
                   ("roof", place.one.width, wall - place.x[1])]
    elif place.z[1] > placed.box.top:
        strips.append(("inner face", place.one.width, place.z[1] - placed.box.top))
    return strips


def _chute_cheek(placed: Placed, place: OpeningPlace) -> Path:
    (left, right), (low, high) = place.x, place.z
    wall = -thickness_of(placed.box.wall)
    if not place.aside:
        return rectangle(right - left, high - low)
    return ((left, low), (wall, low), (wall, place.throat), (right, place.throat), (right, high),
            (left, high))
