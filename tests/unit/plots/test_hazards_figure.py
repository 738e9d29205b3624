"""The hazards' figure: greys and hatching alone, each verdict by its own, no bar for what is
not known."""

from __future__ import annotations

from typing import Any

import pytest
from matplotlib.colors import to_rgb

from thermsim.plots.hazards import LOOKS, hazards_figure


def record(name: str, verdict: str, share: float | None, **more: Any) -> dict[str, Any]:
    return {"check": name, "part": name, "verdict": verdict, "share_of_limit": share,
            "says": "One sentence. Another.", "found": 10.0, "limit": 12.0, **more}


RECORDS = [record("pressure.shell", "beyond the limit", None),
           record("surfaces.touch.a", "beyond the limit", 3.0),
           record("low_water.plate", "near the limit", 0.9),
           record("materials.service.b", "within the limit", 0.3),
           record("smoke.alarm", "cannot tell", None),
           record("flue.draught", "beyond the limit", 1.2)]


def test_no_colours_and_each_verdict_hatched() -> None:
    figure = hazards_figure(RECORDS, "An invented shed")
    bars, draught = figure.axes
    assert len(bars.patches) == len(RECORDS) - 1  # what cannot be told has none
    for patch in (*bars.patches, *draught.patches):
        red, green, blue = to_rgb(patch.get_facecolor())
        assert red == green == blue
    hatches = [patch.get_hatch() or "" for patch in bars.patches]
    assert hatches == ["xxxx"] * 3 + ["////", ""]
    assert len({hatch for hatch, _ in LOOKS.values()}) == len(LOOKS)


def test_draught_has_its_bar_and_mark() -> None:
    draught = hazards_figure(RECORDS, "An invented shed").axes[1]
    assert draught.patches[0].get_width() == pytest.approx(10.0)
    assert list(draught.lines[0].get_xdata()) == [12.0, 12.0]


def test_labels_do_not_overlap() -> None:
    figure = hazards_figure(RECORDS, "An invented shed")
    figure.canvas.draw()
    boxes = [label.get_window_extent() for label in figure.axes[0].get_yticklabels()]
    assert not any(a.overlaps(b) for k, a in enumerate(boxes) for b in boxes[k + 1:])
    assert min(box.x0 for box in boxes) >= 0.0


def test_nothing_to_show_is_no_fault() -> None:
    assert hazards_figure([], "An invented shed").axes
