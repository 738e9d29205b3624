"""What the README shows works as shown: scenarios load, Python lines run, links lead somewhere."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from thermsim import load_scenario
from thermsim.batches.batch import read_batch
from thermsim.calibrating.from_file import read_calibration

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DOCUMENTS = ("README.md", "DEVELOPERS.md")
LINK = re.compile(r"\]\((?!https?:)([^)#]+)")
FILE = re.compile(r"`((?:thermsim|tests|scenarios|results_demo|parts|physics|network)/[\w./]+)`")

QUICKLY = """\
thermsim: 1
title: One guess, one firing, invented
scenario: cold_start.yaml
readings:
  - file: shed_readings.csv
guesses:
  - field: wood.moisture
    from: 12 %
    to: 35 %
starts: 1
"""
"""in place of the calibration that is shipped, which fires a hundred times"""


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


@pytest.fixture
def scenarios_here(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "scenarios", tmp_path / "scenarios")
    return tmp_path


@pytest.mark.parametrize("text", blocks("yaml"))
def test_scenario_or_batch_loads(text: str, scenarios_here: Path) -> None:
    shown = scenarios_here / "scenarios" / "shown.yaml"
    shown.write_text(text, encoding="utf-8")
    if "\nbase: " in text:
        assert read_batch(shown).cases
    elif "\nguesses:" in text:
        assert read_calibration(shown).varied
    else:
        assert load_scenario(shown).tree.firing


def test_python_lines_run(
    scenarios_here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(scenarios_here)
    alone, many, read, found, logged = blocks("python")
    exec(compile(alone, "README.md", "exec"), {})
    assert len(capsys.readouterr().out.split()) == 2
    assert (scenarios_here / "wider" / "summary.json").is_file()
    for name in ("first", "narrow"):  # as the commands above these lines make them
        shutil.copytree(ROOT / "results_demo" / "cold_start", scenarios_here / name)
    exec(compile(many, "README.md", "exec"), {})
    assert "drum_casing_blanket_thickness_mm" in capsys.readouterr().out
    assert (scenarios_here / "kept").is_dir()
    exec(compile(read, "README.md", "exec"), {})
    assert len(capsys.readouterr().out.strip("[] \n").split()) == 59
    (scenarios_here / "scenarios" / "calibrate_shed.yaml").write_text(QUICKLY, encoding="utf-8")
    exec(compile(found, "README.md", "exec"), {})
    assert "wood.moisture: was 20 %, now 2" in capsys.readouterr().out
    assert (scenarios_here / "found" / "calibrated.yaml").is_file()
    exec(compile(logged, "README.md", "exec"), {})
    assert "('2026-09-05', 'casing still bare')" in capsys.readouterr().out


@pytest.mark.parametrize("name", DOCUMENTS)
def test_files_named_are_there(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    named = {path.rstrip("/") for path in (*LINK.findall(text), *FILE.findall(text))}
    assert named
    assert not [path for path in named
                if not (ROOT / path).exists() and not (ROOT / "thermsim" / path).exists()]
