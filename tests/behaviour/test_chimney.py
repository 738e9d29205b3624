"""The chimney: height against smoke and pull; blanket and plate against its temperature."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Fired = Callable[..., Any]
DOOR, LOOK_BEFORE, LOOK_AFTER = "15 min", 890.0, 1400.0
LENGTHS = ("0.6 m", "1.2 m", "2.4 m")


def test_taller_leaves_less_smoke_and_pulls_harder(steadily: Fired) -> None:
    """5 kW: smoke with the door open, draught at the chimney foot before and after."""
    firings = [steadily("5 kW", f"gas_path.chimney_upper.length = {length}", door=DOOR)
               for length in LENGTHS]
    smoke = [f.at("smoke_g_per_s", LOOK_BEFORE) for f in firings]
    assert smoke == sorted(smoke, reverse=True)
    assert smoke[-1] < 0.9 * smoke[0]
    for moment in (LOOK_BEFORE, LOOK_AFTER):
        draught = [f.at("draught_at_chimney_foot_Pa", moment) for f in firings]
        assert draught == sorted(draught)
        assert draught[-1] > 1.5 * draught[0]


def test_taller_leaves_less_smoke_with_a_stick_fire(fired: Fired) -> None:
    low, tall = (fired("cold_start", f"gas_path.chimney_upper.length = {length}")
                 for length in (LENGTHS[0], LENGTHS[-1]))
    assert tall.answers["smoke_from_openings_g"] < low.answers["smoke_from_openings_g"]
    assert tall.answers["draught_peak_Pa"] > low.answers["draught_peak_Pa"]


def walls(thickness: str, blanket: str = "0 mm") -> list[str]:
    """Both chimney lengths of a plate, and a blanket round it."""
    layers = (f"[{{material: mild steel, thickness: {thickness}}}, "
              f"{{material: blanket, thickness: {blanket}}}]")
    return [f"gas_path.{name}.wall = {layers}" for name in ("chimney_lower", "chimney_upper")]


def after_minutes(firing: Any) -> tuple[float, float]:
    """Chimney plate inside, and gas at the chimney top, after a quarter of an hour [C]."""
    return (firing.at("temperature_chimney_lower_1_inside_C", 890.0),
            firing.at("temperature_chimney_upper_2_gas_C", 890.0))


def test_blanket_on_the_chimney_shows_after_minutes(steadily: Fired) -> None:
    bare, clad = (after_minutes(steadily("5 kW", *walls("2 mm", blanket)))
                  for blanket in ("0 mm", "25 mm"))
    assert clad[0] > bare[0] + 5.0
    assert clad[1] > bare[1] + 2.0


def test_a_thick_chimney_plate_is_colder_after_minutes(steadily: Fired) -> None:
    thin, usual, thick = (after_minutes(steadily("5 kW", *walls(plate)))
                          for plate in ("1 mm", "2 mm", "4 mm"))
    assert thin[0] > usual[0] + 3.0 > thick[0] + 6.0
    assert thin[1] > usual[1] + 1.0 > thick[1] + 2.0
