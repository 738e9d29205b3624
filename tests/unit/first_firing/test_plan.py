"""The order of a first firing: its steps, what they expect, and the papers."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from shipped import FOLDER

from thermsim.drawing.firing_sheets import Grid
from thermsim.drawing.list_pages import Lines, Rows
from thermsim.first_firing.alone import Alone, left_alone
from thermsim.first_firing.card import card_parts, charges_of
from thermsim.first_firing.papers import plan_parts, readings_text, save_papers
from thermsim.first_firing.steps import Plan, Step, make_plan
from thermsim.first_firing.variants import as_done, dry_changes, pressure_changes, vent_open_changes
from thermsim.loading import load_scenario
from thermsim.mishaps.variants import firing_change
from thermsim.readings.columns import write_readings
from thermsim.readings.file import understand
from thermsim.readings.firings import known_of


def step(plan: Plan, key: str) -> Step:
    return next(one for one in plan.steps if one.key == key)


def column(one: Step, name: str) -> list[float]:
    place = [spot.name for spot in one.spots].index(name)
    values = [row.values[place] for row in one.rows]
    assert None not in values
    return [float(value or 0.0) for value in values]


def test_the_steps_stand_in_their_order(plan: Plan) -> None:
    assert [one.key for one in plan.steps] == ["dry_test", "cold_water_test", "vent_open",
                                               "pressure_in_steps"]


def test_a_drum_without_a_safety_valve_is_put_under_no_pressure() -> None:
    cold = make_plan(load_scenario(FOLDER / "given_fire.yaml"))
    assert [one.key for one in cold.steps] == ["dry_test", "cold_water_test", "vent_open"]
    words = " ".join(step(cold, "cold_water_test").how)
    assert "no pressure" in words
    assert "bar(g)" not in words


def test_the_dry_test_is_small_and_ends_before_its_stop(plan: Plan) -> None:
    one = step(plan, "dry_test")
    plate = column(one, "drum plate")
    stop = next(spot.stop for spot in one.spots if spot.name == "drum plate")
    assert stop is not None
    assert plate == sorted(plate)
    assert plate[-1] <= stop.value + 1.0


def test_with_the_vent_open_there_is_no_pressure_and_water_boils(plan: Plan) -> None:
    one = step(plan, "vent_open")
    assert max(column(one, "pressure gauge")) < 0.1
    assert [row.when for row in one.rows][-2:] == ["when it boils", "10 min after boiling"]
    door = one.rows[[row.when for row in one.rows].index("when the ash door is shut")]
    # the scenario shuts it when the flue is above 90 C; read within the second before
    assert door.values[0] == pytest.approx(90.0, abs=3.0)


def test_each_step_of_pressure_is_reached_and_held(plan: Plan) -> None:
    """Quarters of 3 bar(g); a valve holds within 10 % over its set (ISO 4126-1)."""
    pressure = column(step(plan, "pressure_in_steps"), "pressure gauge")
    for number, held in enumerate((0.75, 1.5, 2.25, 3.0)):
        assert pressure[2 * number] == pytest.approx(held, abs=0.01)
        assert held <= pressure[2 * number + 1] <= 1.1 * held
    times = [row.time for row in step(plan, "pressure_in_steps").rows[::2]]
    assert times == sorted(times)


def test_the_water_test_defers_to_the_inspector(plan: Plan) -> None:
    words = " ".join(step(plan, "cold_water_test").how)
    assert "4.5 bar(g)" in words  # 1.5 times 3 bar, ASME I PG-99
    assert "the inspector decides" in words


def test_every_variant_loads(plan: Plan) -> None:
    tree, file = plan.scenario.tree, FOLDER / "steam_to_engine.yaml"
    dry = load_scenario(file, dry_changes(tree, 4000.0)).tree
    assert dry.drum.water == 0.0
    assert dry.fire.kind == "given"
    open_ = load_scenario(file, vent_open_changes(tree, 600.0)).tree
    assert not any("vent" in text or "engine" in text for entry in open_.firing
                   for text in entry.do)
    held = load_scenario(file, pressure_changes(tree, 1.5e5, 600.0)).tree
    assert held.drum.safety_valve.set == pytest.approx(1.5e5)
    assert any("shut vent" in entry.do for entry in held.firing)


def test_what_was_done_can_be_done_again(plan: Plan) -> None:
    """The first quarter of an hour, each deed at its time, is the same firing."""
    log = plan.usual.run.solution.happenings
    entries = as_done(plan.scenario.tree, log, 900.0)
    assert [entry["do"] for entry in entries] == [["add 0.8 kg"], ["light the fire"],
                                                  ["shut ash_door"]]
    load_scenario(FOLDER / "steam_to_engine.yaml", [firing_change(entries)])


def test_charges_are_those_of_the_firing(plan: Plan) -> None:
    charges = charges_of(plan.usual)
    assert [one.mass for one in charges][:2] == pytest.approx([0.8, 0.6])
    assert [one.time for one in charges] == pytest.approx(plan.usual.run.charges, abs=0.01)


def test_the_card_says_what_a_person_at_the_fire_needs(plan: Plan, alone: list[Alone]) -> None:
    parts = card_parts(plan, alone)
    words = " ".join(line for part in parts if isinstance(part, Lines) for line in part.lines)
    for text in ("Feed 600 g", "Shut the ash door after", "90 C", "not left alone", "Rake",
                 "Open the vent when pressure is gone", "licensed inspection", "common practice"):
        assert text in words
    table = next(part for part in parts if isinstance(part, Rows))
    assert table.cells[-1] == ("STOP", "over 510", "under 0.0", "over 3.30", "under 30")
    assert any(isinstance(part, Grid) and part.rows >= 8 for part in parts)
    assert "safe" not in words.replace("safety", "")


def test_hands_off_ends_no_later_than_the_charge_lasts(alone: list[Alone]) -> None:
    """The engine goes on, nobody pumps: low water comes before the fire is out."""
    worst = alone[0]
    assert worst.harm == "low water"
    assert worst.after_s is not None
    assert worst.fire_out_s is None or worst.after_s < worst.fire_out_s
    rest = [one.after_s for one in alone[1:] if one.after_s is not None]
    assert all(worst.after_s <= other for other in rest)


def test_readings_files_are_empty_and_read_back(plan: Plan) -> None:
    known = known_of(load_scenario(FOLDER / "steam_to_engine.yaml"))
    for one in plan.steps:
        if one.rows:
            text = readings_text(one)
            lines = list(csv.DictReader(text.splitlines()))
            assert len(lines) == len(one.rows) * len(one.spots)
            assert all(line["reading"] == "" and "expected" in line["note"] for line in lines)
            filled = [list({**line, "reading": "50"}.values()) for line in lines]
            found = understand(write_readings(filled), "r.csv", known)
            assert len(found.readings) == len(lines)


def test_papers_are_one_page_each(plan: Plan, alone: list[Alone], tmp_path: Path) -> None:
    paths = save_papers(plan, alone, tmp_path)
    assert {path.name for path in paths} == {
        "first_firing_plan.pdf", "first_firing_plan.png", "firing_card.pdf", "firing_card.png",
        "readings_1_dry_test.csv", "readings_3_vent_open.csv",
        "readings_4_pressure_in_steps.csv"}
    for name in ("first_firing_plan", "firing_card"):
        text = (tmp_path / f"{name}.pdf").read_bytes()
        assert text.count(b"/Type /Page\n") + text.count(b"/Type /Page ") == 1
    assert (tmp_path / "readings_3_vent_open.csv").stat().st_size > 100


def test_every_step_of_the_plan_is_on_the_page(plan: Plan) -> None:
    headings = [part.heading for part in plan_parts(plan) if isinstance(part, Lines)]
    assert [text[:2] for text in headings[1:]] == ["1.", "2.", "3.", "4."]


def test_what_is_expected_beyond_its_stop_is_marked() -> None:
    """raise_steam is fed by nobody: at its end the water is low, and the card says so."""
    unfed = make_plan(load_scenario(FOLDER / "raise_steam.yaml"))
    table = next(part for part in card_parts(unfed, []) if isinstance(part, Rows))
    assert "(!)" in table.heading
    end = next(row for row in table.cells if row[0].startswith("at the end"))
    assert end[-1].endswith("!")
    assert not any(cell.endswith("!") for row in table.cells[:3] for cell in row)


def test_a_stove_without_a_drum_has_a_card_and_no_steps(tmp_path: Path) -> None:
    drum = ("drum = none", "gas_path.drum_pass = none", "outputs.until = 20 min",
            "firing = [{at: 0 s, do: [add 0.8 kg, light the fire]}, "
            "{when: flue above 200 C, do: shut ash_door}]")
    bare = make_plan(load_scenario(FOLDER / "cold_start.yaml", drum))
    assert bare.steps == ()
    names = {path.name for path in save_papers(bare, left_alone(bare.scenario, bare.usual),
                                               tmp_path)}
    assert names == {"first_firing_plan.pdf", "first_firing_plan.png", "firing_card.pdf",
                     "firing_card.png"}
    table = next(part for part in card_parts(bare, []) if isinstance(part, Rows))
    assert table.heads == ("when", "flue at chimney foot, C", "draught at chimney foot, Pa")
