"""The sheet: its size, the scales of the two views and where they stand on it, in millimetres.

The largest scale is taken at which everything fits on an A4, upright or lying. A very tall
chimney is drawn shortened, and the sheet says by how much, where it would force a scale at which
the body can no longer be read.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from thermsim.drawing.lettering import BOLD, HINTED, LINE_MM, text_mm, wrapped
from thermsim.drawing.outline import CROSS, SIDE, Box, Outline, Point, millimetres

A4_SHORT, A4_LONG = 210.0, 297.0
FRAME = 8.0
MM_A_METRE = 1000.0
SCALES = (1, 2, 2.5, 4, 5, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200)
"""how many times smaller than life; the preferred ones of ISO 5455 and what a scale rule has"""
TITLE_HEAD, PAD = 9.0, 2.0
ASIDE = 0.01
LANE = 5.5
CLEAR = 3.0
LABEL_ROOM = 33.0
CROSS_LABEL_ROOM, BEYOND_COLUMN = 25.0, 4.0
"""for names beside the cross-section, which stand further out on its right"""
HEADING = 6.0
OVER_CROSS = 20.0
UNDER_CROSS = 17.0
LARGER = 3.0
"""the cross-section is drawn at most this much larger than the side section"""
READABLE = 60.0
"""a chimney is shortened if the drawing would otherwise be narrower than this [mm]"""
CUT_SHARES = (0.25, 0.5, 0.7, 0.8)
LEFT_OF_UPRIGHT = 0.8
LONGEST_BAR = 0.055
"""[m on the sheet]"""
CUT_SHARE = 0.75


@dataclass(frozen=True)
class Cut:
    """A stretch of an upright pipe that is left out of the drawing, above `at` [m]."""

    name: str
    at: float
    length: float


@dataclass(frozen=True)
class Room:
    """Space round the views [mm] for dimension lanes: left, right and below the section."""

    left: float
    right: float
    below: float
    foot: float


@dataclass
class Sheet:
    """A sheet with both views placed. `side_at` and `cross_at` are where their origins lie."""

    width: float
    height: float
    scale: float
    side_at: Point
    room: Room
    cross_scale: float = 0.0
    cross_at: Point | None = None
    cuts: list[Cut] = field(default_factory=list)

    def worth(self) -> float:
        """How small things are drawn, the cross-section counting half."""
        return self.scale + self.cross_scale / 2

    def place(self, view: str, point: Point) -> Point:
        """From metres in a view to millimetres on the sheet."""
        at = self.side_at if view == SIDE else self.cross_at or (0.0, 0.0)
        scale = MM_A_METRE / (self.scale if view == SIDE else self.cross_scale)
        z = point[1] if view != SIDE else self.shortened(point[1])
        return at[0] + point[0] * scale, at[1] + z * scale

    def shortened(self, z: float) -> float:
        """A height with what is left out below it taken off."""
        return z - sum(min(max(z - cut.at, 0.0), cut.length) for cut in self.cuts)


def lanes_room(lanes: int) -> float:
    """Space that a number of dimension lanes takes [mm]."""
    return CLEAR + lanes * LANE if lanes else CLEAR


def title_lines(outline: Outline, width: float) -> tuple[list[str], list[str]]:
    """Wall list and notes as lines for the title block."""
    half = ((width - 2 * FRAME) / 2 - 2 * PAD) / HINTED
    walls = [line for text in outline.walls for line in wrapped(text, half)]
    notes = [line for text in outline.notes for line in wrapped(f"! {text}", half / BOLD)]
    return walls, notes


def title_height(outline: Outline, width: float, cuts: int) -> float:
    """Height of the title block [mm]."""
    walls, notes = title_lines(outline, width)
    rows = max(len(walls) + 1, len(notes) + 2 * cuts + 2)
    return TITLE_HEAD + rows * LINE_MM + PAD


def choose_sheet(outline: Outline, lanes: tuple[int, int, int]) -> Sheet:
    """The best sheet for an outline; `lanes` are the dimension lanes left, right and below."""
    sheet = _best(outline, lanes, [])
    tallest = max((top - foot for _, foot, top in outline.uprights), default=0.0)
    for share in CUT_SHARES if tallest > 0.0 else ():
        if outline.box().width * MM_A_METRE / sheet.scale >= READABLE:
            break
        cut = _best(outline, lanes, cuts_of(outline, share))
        if cut.worth() < sheet.worth():
            sheet = cut
    return sheet


def cuts_of(outline: Outline, share: float) -> list[Cut]:
    """The same share left out of the middle of every long upright pipe."""
    tallest = max(top - foot for _, foot, top in outline.uprights)
    return [Cut(name, foot + (1.0 - share) * (top - foot) * CUT_SHARE, share * (top - foot))
            for name, foot, top in outline.uprights if top - foot > tallest / 2]


def _best(outline: Outline, lanes: tuple[int, int, int], cuts: list[Cut]) -> Sheet:
    found: list[tuple[float, int, Sheet]] = []
    for order, (width, height) in enumerate(((A4_SHORT, A4_LONG), (A4_LONG, A4_SHORT))):
        for beside in (False, True):
            sheet = _fit(outline, lanes, cuts, width, height, beside)
            if sheet is not None:
                found.append((sheet.worth(), 2 * order + beside, sheet))
    if not found:
        raise ValueError("the plant is too large to be drawn on a sheet")
    return min(found, key=lambda one: one[:2])[2]


def _fit(outline: Outline, lanes: tuple[int, int, int], cuts: list[Cut], width: float,
         height: float, beside: bool) -> Sheet | None:
    box = _short_box(outline, cuts)
    foot = FRAME + title_height(outline, width, len(cuts))
    room = Room(LABEL_ROOM + lanes_room(lanes[0]), LABEL_ROOM + lanes_room(lanes[1]),
                lanes_room(lanes[2]) + 2 * PAD, foot)
    for scale in SCALES:
        per = MM_A_METRE / scale
        wide = width - 2 * FRAME - room.left - room.right
        high = height - FRAME - foot - room.below - CLEAR - HEADING
        spare_wide, spare_high = wide - box.width * per, high - box.height * per
        if spare_wide < 0.0 or spare_high < 0.0:
            continue
        origin = (FRAME + room.left - box.left * per, foot + room.below - box.low * per)
        sheet = Sheet(width, height, scale, origin, room, cuts=cuts)
        if not outline.cross_title:
            middle = sheet.side_at[0] + spare_wide / 2
            sheet.side_at = (middle, sheet.side_at[1])
        elif not _place_cross(outline, sheet, beside, spare_wide):
            continue
        _trim(outline, sheet)
        return sheet
    return None


def _short_box(outline: Outline, cuts: list[Cut]) -> Box:
    box = outline.box()
    gone = sum(cut.length for cut in cuts)
    return Box(box.left, box.right, box.low, box.high - gone)


def _place_cross(outline: Outline, sheet: Sheet, beside: bool, spare_wide: float) -> bool:
    """Put the cross-section over the body beside the chimney, or to the right of everything."""
    cross = outline.box(CROSS)
    low, high = sheet.room.foot + CLEAR, sheet.height - FRAME
    left, wide = 0.0, spare_wide - BEYOND_COLUMN
    if not beside:
        left, right, low = _free_corner(outline, sheet)
        wide = right - left
    fitting = [scale for scale in SCALES if sheet.scale / LARGER <= scale <= sheet.scale
               and cross.width * MM_A_METRE / scale + 2 * CROSS_LABEL_ROOM <= wide
               and cross.height * MM_A_METRE / scale + OVER_CROSS + UNDER_CROSS <= high - low]
    if not fitting:
        return False
    half = cross.height * MM_A_METRE / fitting[0] / 2
    if beside:
        taken = 2 * half + 2 * CROSS_LABEL_ROOM
        sheet.side_at = (sheet.side_at[0] + (spare_wide - taken) / 4, sheet.side_at[1])
        middle = sheet.width - FRAME - BEYOND_COLUMN - taken / 2
    else:
        middle = left + wide / 2
    top = sheet.place(SIDE, (0.0, outline.box().high))[1]
    lowest, highest = low + UNDER_CROSS + half, high - OVER_CROSS - half
    level = max(lowest, min(highest, (low + top + UNDER_CROSS - OVER_CROSS) / 2))
    sheet.cross_scale, sheet.cross_at = fitting[0], (middle, level)
    return True


def _trim(outline: Outline, sheet: Sheet) -> None:
    """Cut off the part of the sheet over both views that stays empty."""
    tops = [sheet.place(SIDE, (0.0, outline.box().high))[1] + HEADING]
    if sheet.cross_at is not None:
        half = outline.box(CROSS).height * MM_A_METRE / sheet.cross_scale / 2
        tops.append(sheet.cross_at[1] + half + OVER_CROSS)
    rows = len(outline.labels) * 2 * LINE_MM
    sheet.height = min(sheet.height, max(*tops, sheet.room.foot + rows) + FRAME)


def _free_corner(outline: Outline, sheet: Sheet) -> tuple[float, float, float]:
    """Left, right and foot [mm] of the space over the body, left of the chimney."""
    tall = outline.box().high
    chimney = [shape for shape in outline.shapes if shape.view == SIDE
               and max(p[1] for p in shape.points) > LEFT_OF_UPRIGHT * tall]
    edge = min(min(p[0] for p in shape.points) for shape in chimney)
    body = [shape for shape in outline.shapes if shape.view == SIDE
            and min(p[0] for p in shape.points) < edge - ASIDE]
    top = max((max(p[1] for p in shape.points) for shape in body), default=0.0)
    foot = sheet.place(SIDE, (0.0, top))[1] + LINE_MM
    right = sheet.place(SIDE, (edge, 0.0))[0] - CLEAR
    if sheet.cuts:
        right -= max(text_mm(cut_words(cut)) for cut in sheet.cuts)
    return FRAME + 1.0, right, foot


def cut_words(cut: Cut) -> str:
    """What is written beside a break.

    >>> cut_words(Cut("chimney", 1.0, 0.625))
    'shortened by 625 mm'
    """
    return f"shortened by {millimetres(round(cut.length, 3))} mm"


def scale_words(scale: float) -> str:
    """A scale as written.

    >>> scale_words(7.5), scale_words(10)
    ('1:7.5', '1:10')
    """
    return f"1:{scale:g}"


def scale_bar(scale: float) -> float:
    """Length in metres of a scale bar of at most 55 mm on the sheet, 1, 2 or 5 of a decade.

    >>> scale_bar(10)
    0.5
    """
    wanted = LONGEST_BAR * scale
    decade = 10.0 ** math.floor(math.log10(wanted))
    return max(step * decade for step in (1.0, 2.0, 5.0) if step * decade <= wanted) \
        if wanted >= decade else decade
