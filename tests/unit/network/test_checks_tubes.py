"""Tubes, steam line and exhaust that cannot be built: one problem at its field, what is allowed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from thermsim.errors import Problem

Find = Callable[..., list[Problem]]
VALVE = "drum.stop_valve = {bore: 8 mm}"
ENGINE = "engine = {bore: 40 mm, stroke: 50 mm, speed: 300 1/min, exhaust: %s}"
FEED = "feed.pump = {kind: hand pump, bore: 16 mm, stroke: 60 mm}"
COIL = "{name: coil, in: exhaust, duty: feed coil, shape: straight, bore: 10 mm, length: 1 m}"


def tube(**columns: object) -> str:
    """A good superheater in the stub, with columns changed; `place` is where it lies."""
    columns = {"name": "heater", "in": columns.pop("place", "stub"), "duty": "superheater",
               "shape": "straight", "bore": "12 mm", "length": "120 mm"} | columns
    return "{" + ", ".join(f"{name}: {value}" for name, value in columns.items()) + "}"


def tubes(*made: str) -> str:
    return f"tubes = [{', '.join(made)}]"


def changed(**columns: object) -> tuple[str, ...]:
    return (VALVE, tubes(tube(**columns)))


LOOP = {"shape": "looped", "bends": 2, "length": "394 mm"}
COILED = {"shape": "helical", "coil_diameter": "90 mm", "length": "800 mm"}
BEHIND = {"place": "behind the drum", "shape": "helical", "coil_diameter": "180 mm",
          "length": "1.7 m"}

FAULTS = [
    # (changes, path, found, allowed)
    (changed(material="blanket"), "tubes.1.material", "no tube is made of 'blanket'", "mild steel"),
    (changed(material="mild stel"), "tubes.1.material", "no tube is made of 'mild stel'",
     "did you mean 'mild steel'"),
    ((VALVE, tubes(tube(duty="feed coil", place="chimney"))), "tubes.1.duty",
     "no feed goes through it", "a feed of the drum"),
    ((tubes(tube()),), "tubes.1.duty", "no stop valve leads steam into it",
     "drum: with a stop_valve"),
    (changed(place="drum_pass"), "tubes.1.in", "'drum_pass' is the gap round the drum",
     "'behind the drum', or another pass"),
    (changed(place="stubb"), "tubes.1.in", "nothing is called 'stubb'", "did you mean 'stub'"),
    ((VALVE, FEED, ENGINE % "feed coil", tubes(COIL, tube(place="exhaust"))), "tubes.2.in",
     "a superheater in the exhaust would cool the steam", "a feed coil; or a place in the gas"),
    ((VALVE, FEED, ENGINE % "open air", tubes(COIL)), "tubes.1.in",
     "no engine's exhaust goes there", "engine: with exhaust: feed coil"),
    ((VALVE, FEED, tubes(COIL)), "tubes.1.in", "no engine's exhaust goes there",
     "engine: with exhaust: feed coil"),
    ((VALVE, "drum.back = outside", tubes(tube(**BEHIND))), "tubes.1.in",
     "no gas comes behind the drum", "drum: with back: gas"),
    (changed(**COILED, lies="along"), "tubes.1.lies", "a coil's turns cannot lie along the gas",
     "across"),
    (changed(place="behind the drum", length="240 mm", lies="along"), "tubes.1.lies",
     "tubes behind the drum cannot lie along the gas", "across"),
    (changed(**(COILED | {"coil_diameter": "29 mm", "length": "300 mm"})), "tubes.1.coil_diameter",
     "29 mm for a tube of 15 mm", "at least 30 mm"),
    (changed(**LOOP, pitch="14 mm"), "tubes.1.pitch", "14 mm for a tube of 15 mm",
     "at least 15 mm"),
    (changed(**(LOOP | {"length": "150 mm"})), "tubes.1.bends", "2 bends use up its 150 mm",
     "fewer bends, or a longer tube"),
    # 130 mm of pipe; a leg of 131 mm; a coil of 116 mm and its tube
    (changed(length="131 mm"), "tubes.1.length", "reach over 131 mm", "at most 130 mm"),
    (changed(**(COILED | {"coil_diameter": "116 mm"})), "tubes.1.length", "reach over 131 mm",
     "at most 130 mm"),
    # eight legs of 62 mm: 7 x 30 + 15 mm in a stub of 200 mm
    (changed(shape="looped", bends=7, length="830 mm"), "tubes.1.length",
     "takes up 225 mm along the gas", "at most 200 mm"),
    (changed(lies="along", length="210 mm"), "tubes.1.length", "takes up 210 mm along the gas",
     "at most 200 mm"),
    # 7 tubes of 15 by 120 mm2 shut 12600 of 13273 mm2
    (changed(side_by_side=7), "tubes.1", "shuts nine tenths of the gas's way",
     "fewer side by side"),
    # a flat end leaves 25 mm behind the drum
    ((VALVE, tubes(tube(**(BEHIND | {"bore": "24 mm", "length": "1 m"})))), "tubes.1.in",
     "25 mm behind the drum for a tube of 27 mm", "a thinner tube"),
    (("steam_line = {bore: 16 mm, length: 2 m}",), "steam_line", "no stop valve leads steam into",
     "drum: with a stop_valve"),
    ((VALVE, "steam_line = {bore: 16 mm, length: 2 m, material: blanket}"), "steam_line.material",
     "no pipe is made of 'blanket'", "mild steel"),
    ((VALVE, "steam_line = {bore: 16 mm, length: 2 m, lagging: 9 mm, lagging_material: felt}"),
     "steam_line.lagging_material", "unknown material 'felt'", ""),
    # of the engine's exhaust
    ((VALVE, ENGINE % "feed coil"), "engine.exhaust", "no tube lies in the exhaust",
     "a feed coil among the tubes with in: exhaust"),
    ((VALVE, ENGINE % "chimney"), "engine.nozzle", "the mouth of the nozzle is not given",
     "its diameter"),
    ((VALVE, ENGINE % "chimney, nozzle: 100 mm", "gas_path.chimney.diameter = 100 mm",
      "gas_path.stub.diameter = 100 mm"), "engine.nozzle",
     "100 mm is no narrower than the chimney", "room for the gas"),
    ((ENGINE % "open air",), "engine", "no stop valve leads steam to it",
     "drum: with a stop_valve"),
    (("feed.pump = {kind: engine pump, bore: 8 mm, stroke: 20 mm}",), "feed.pump.kind",
     "there is no engine to drive it", "an engine; or a hand pump"),
]


@pytest.mark.parametrize(("changes", "path", "found", "allowed"), FAULTS,
                         ids=[f"{path}: {found}" for _, path, found, _ in FAULTS])
def test_each_fault_is_told_once_at_its_field(find: Find, changes: tuple[str, ...], path: str,
                                              found: str, allowed: str) -> None:
    problems = find(*changes)
    assert [problem.path for problem in problems] == [path], problems
    told = str(problems[0])
    assert found in told
    assert allowed in told


GOOD = [
    changed(), changed(**LOOP), changed(**COILED), changed(length="130 mm"),
    changed(lies="along", length="200 mm"), changed(side_by_side=6),
    changed(**(COILED | {"coil_diameter": "115 mm"})), changed(**LOOP, pitch="15 mm"),
    (VALVE, tubes(tube(**BEHIND))),
    (VALVE, FEED, ENGINE % "feed coil", tubes(tube(), COIL)),
    (VALVE, ENGINE % "chimney, nozzle: 8 mm"),
]


@pytest.mark.parametrize("changes", GOOD)
def test_what_just_fits_is_let_pass(find: Find, changes: tuple[str, ...]) -> None:
    assert find(*changes) == []


def test_a_tube_without_a_drum(find: Find) -> None:
    problems = find("drum = none", tubes(tube()), swaps={
        "  - name: drum_pass\n    kind: round the drum\n": ""})
    assert "tubes.1" in [problem.path for problem in problems]
    assert any("no drum to send anything through it" in str(problem) for problem in problems)


def test_all_at_once(find: Find) -> None:
    """Faults of several tubes, the line and the engine are told together, each where it stands."""
    problems = find(
        VALVE, "steam_line = {bore: 16 mm, length: 2 m, material: wood}", ENGINE % "chimney",
        tubes(tube(length="131 mm", material="wool"), tube(name="b", place="nowhere"),
              tube(name="c", duty="feed coil", place="chimney", lies="along")))
    assert sorted(problem.path for problem in problems) == [
        "engine.nozzle", "steam_line.material", "tubes.1.length", "tubes.1.material", "tubes.2.in",
        "tubes.3.duty"]


def test_the_line_of_the_file_is_told(find: Find, stove: str) -> None:
    """Written in the file itself, its line stands before the fault."""
    text = ("tubes:\n  - name: heater\n    in: stub\n    duty: superheater\n"
            "    shape: straight\n    bore: 12 mm\n    length: 131 mm\n")
    valve = "drum:\n  stop_valve:\n    bore: 8 mm\n"
    problems = find(swaps={"drum:\n": valve, "firing:\n": text + "firing:\n"})
    assert [problem.path for problem in problems] == ["tubes.1.length"]
    assert "stove.yaml:" in str(problems[0])
    whole = stove.replace("drum:\n", valve, 1).replace("firing:\n", text + "firing:\n", 1)
    written = whole.splitlines()[int(str(problems[0]).split(":")[1]) - 1]
    assert written == "    length: 131 mm"
