"""A page of its own: everything inside its edges, letters as large as fit, nothing overlapping."""

from __future__ import annotations

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text

from thermsim.drawing.firing_sheets import Grid, sheet_figure
from thermsim.drawing.list_pages import Lines, Rows
from thermsim.drawing.sheet import A4_LONG, A4_SHORT

FEW = [Lines("Feed", ("600 g of wood",)),
       Rows("Read", ("when", "flue, C", "draught, Pa"), (("after 3 min", "110", "4.7"),
                                                         ("STOP", "over 510", "under 0"))),
       Grid("Pencil in", ("time", "wood, kg", "seen"), 4)]
MANY = [*FEW[:2], *[Lines(f"Step {k}", ("a long line of words to be done " * 6,) * 4)
                    for k in range(9)], FEW[2]]


@pytest.mark.parametrize("parts", [FEW, MANY], ids=["few", "many"])
def test_nothing_leaves_the_page_or_overlaps(parts: list[Lines | Rows | Grid]) -> None:
    figure = sheet_figure("A firing of an invented shed", parts, "The inspector decides. " * 4)
    renderer = FigureCanvasAgg(figure).get_renderer()
    page = figure.bbox
    boxes = [text.get_window_extent(renderer) for text in figure.findobj(Text) if text.get_text()]
    assert len(boxes) > 10
    for box in boxes:
        assert page.x0 + 0.04 * page.width < box.x0
        assert box.x1 < page.x1 - 0.04 * page.width
        assert page.y0 + 0.03 * page.height < box.y0
    for k, one in enumerate(boxes):
        for other in boxes[k + 1:]:
            wide = min(one.x1, other.x1) - max(one.x0, other.x0)
            high = min(one.y1, other.y1) - max(one.y0, other.y0)
            assert wide < 1.0 or high < 0.3 * min(one.height, other.height)


def test_letters_shrink_until_it_fits() -> None:
    sizes = []
    for parts in (FEW, MANY):
        figure = sheet_figure("Title", parts, "Foot")
        assert figure.get_size_inches() == pytest.approx([A4_SHORT / 25.4, A4_LONG / 25.4])
        sizes.append(min(float(text.get_fontsize()) for text in figure.findobj(Text)
                         if text.get_text()))
    assert sizes[0] == 10.0
    assert sizes[1] < sizes[0]
