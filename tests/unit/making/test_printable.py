"""The pages as they will be printed: nothing over the edge, no text on another."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg

from thermsim.drawing.list_pages import EDGE_MM, Rows, lay_out
from thermsim.drawing.sheet import A4_SHORT
from thermsim.making.allotment import allot
from thermsim.making.pieces import CuttingList
from thermsim.making.printable import _sheets, _sketch, page_parts, save_printable
from thermsim.making.stock import InHand

DOTS = 254.0
"""an inch, ten a millimetre: letters come out nearly as wide as on paper"""
TOUCH_MM = 0.25
"""by which boxes round lines of text may touch"""


def boxes(figure: Any) -> list[tuple[str, Any]]:
    """Text and its box in millimetres."""
    figure.set_dpi(DOTS)
    renderer = FigureCanvasAgg(figure).get_renderer()
    return [(text.get_text(), text.get_window_extent(renderer).transformed(_to_mm()))
            for text in figure.axes[0].texts]


def _to_mm() -> Any:
    from matplotlib.transforms import Affine2D

    return Affine2D().scale(25.4 / DOTS)


@pytest.fixture
def pages(listed: Callable[..., CuttingList]) -> list[Any]:
    made = listed("drum.raised = 10 mm")
    hand = [InHand("a rack with a long name", "sheet", "mild steel", 0.004, 1.0, 2.0, 1),
            InHand("rack 2", "sheet", "mild steel", 0.002, 1.0, 2.0, 2)]
    plan = allot(made, hand)
    return lay_out(f"Cutting list: {made.title}", page_parts(made, plan, None),
                   [*map(_sketch, made.plates), *_sheets(plan)])


def test_nothing_runs_over_the_edge(pages: list[Any]) -> None:
    for figure in pages:
        for text, box in boxes(figure):
            assert box.x0 >= EDGE_MM - TOUCH_MM, text
            assert box.x1 <= A4_SHORT - EDGE_MM + TOUCH_MM, text
            assert box.y0 >= EDGE_MM - 2.0, text


def test_no_text_lies_on_another(pages: list[Any]) -> None:
    for figure in pages:
        for (one, box), (other, there) in combinations(boxes(figure), 2):
            wide = min(box.x1, there.x1) - max(box.x0, there.x0)
            high = min(box.y1, there.y1) - max(box.y0, there.y0)
            # neighbouring lines touch by the room left for letters that none of them has
            assert wide <= TOUCH_MM or high <= 1.0, (one, other)


def test_a_table_longer_than_a_page_goes_on_with_its_heads() -> None:
    cells = tuple((f"piece {k}", "1", "x " * 60) for k in range(240))
    figures = lay_out("Long", [Rows("Plates", ("piece", "off", "then"), cells)], [])
    assert len(figures) > 2
    for figure in figures:
        assert "off" in [text.get_text() for text in figure.axes[0].texts]


def test_the_pdf_ends_with_the_cut_through(listed: Callable[..., CuttingList], plant: Any,
                                           tmp_path: Path) -> None:
    path = save_printable(listed(), tmp_path, None, None, plant().tree)
    data = path.read_bytes()
    assert data.startswith(b"%PDF")
    assert data.count(b"/Type /Page\n") + data.count(b"/Type /Page ") >= 4
