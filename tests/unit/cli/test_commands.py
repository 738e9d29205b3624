"""Exit codes and streams of every command, with a stand-in for the model."""

from __future__ import annotations

import json
from pathlib import Path
from types import SimpleNamespace

import pytest

from thermsim.cli import new, run
from thermsim.cli.main import main
from thermsim.errors import Problem, ResultsError, ScenarioError, SolverError

NEVER_SAID = {"safe", "safely"}


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def words_of(text: str) -> set[str]:
    return set("".join(c if c.isalnum() else " " for c in text.lower()).split())


class TestNew:
    def test_writes_the_starter(self, tmp_path: Path) -> None:
        assert main(["new"]) == 0
        assert (tmp_path / "shed.yaml").read_text() == new.starter_text()

    def test_starter_is_short_and_says_that_it_is_invented(self) -> None:
        text = new.starter_text()
        assert len(text.splitlines()) <= 44
        assert "invented" in text.split("title:")[1].splitlines()[0]

    def test_never_replaces_a_file_unasked(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        (tmp_path / "mine.yaml").write_text("mine")
        assert main(["new", "mine.yaml"]) == 2
        assert (tmp_path / "mine.yaml").read_text() == "mine"
        assert "--overwrite" in capsys.readouterr().err
        assert main(["new", "mine.yaml", "--overwrite"]) == 0
        assert (tmp_path / "mine.yaml").read_text() == new.starter_text()

    def test_prints_it(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["new", "-"]) == 0
        assert capsys.readouterr().out == new.starter_text()

    def test_folder_that_does_not_exist(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["new", "nowhere/shed.yaml"]) == 2
        assert "nowhere" in capsys.readouterr().err


class TestCheck:
    def test_warnings_come_first(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert main(["check", "plans/shed.yaml"]) == 0
        out = capsys.readouterr().out
        assert out.index("The gap is narrow.") < out.index("22.1 l")
        assert model.drawn == [Path("shed_check")]
        assert "shed_check" in out

    def test_changes_and_folder(self, model: SimpleNamespace) -> None:
        changes = ["drum.gap = 25 mm", "day.air = 4 C"]
        given = [text for change in changes for text in ("--change", change)]
        assert main(["check", "shed.yaml", *given, "--out", "here"]) == 0
        assert model.asked["changes"] == tuple(changes)
        assert model.drawn == [Path("here")]


class TestRun:
    def test_words_first_numbers_after(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert main(["run", "shed.yaml", "--out", "first"]) == 0
        caught = capsys.readouterr()
        assert caught.out.index("It boiled 23 min 40 s") < caught.out.index("\nNumbers")
        assert caught.err == ""
        assert Path("first/summary.json").exists()
        assert model.drawn == [Path("first")]
        assert not words_of(caught.out) & NEVER_SAID

    def test_json_alone(self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str]) -> None:
        assert main(["run", "shed.yaml", "--json"]) == 0
        assert json.loads(capsys.readouterr().out) == model.result.summary
        assert list(Path().iterdir()) == []

    @pytest.mark.parametrize("outcome", ["boiled", "smothered", "dry", "never_drew", "finished"])
    def test_physical_outcomes_are_no_failure(
        self, model: SimpleNamespace, outcome: str
    ) -> None:
        model.result.summary["outcome"] = outcome
        assert main(["run", "shed.yaml", "--json"]) == 0

    @pytest.mark.parametrize(("outcome", "code"), [("solver_failed", 3), ("implausible_state", 3),
                                                   ("interrupted", 130)])
    def test_what_was_done_is_kept(
        self, model: SimpleNamespace, outcome: str, code: int
    ) -> None:
        model.result.summary["outcome"] = outcome
        assert main(["run", "shed.yaml", "--out", "first"]) == code
        assert Path("first/summary.json").exists()

    def test_full_folder_is_kept(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str]
    ) -> None:
        Path("first").mkdir()
        Path("first/notes.txt").write_text("mine")
        assert main(["run", "shed.yaml", "--out", "first"]) == 2
        assert model.asked == {}
        assert "--overwrite" in capsys.readouterr().err
        assert main(["run", "shed.yaml", "--out", "first", "--overwrite"]) == 0
        assert Path("first/notes.txt").read_text() == "mine"

    def test_needs_a_folder(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert main(["run", "shed.yaml"]) == 2
        assert "--out DIR" in capsys.readouterr().err

    def test_tolerance(self, model: SimpleNamespace) -> None:
        assert main(["run", "shed.yaml", "--json", "--rtol", "1e-7"]) == 0
        assert (model.asked["settings"].rtol, model.asked["settings"].output_every) == (1e-7, 5.0)
        with pytest.raises(SystemExit) as stopped:
            main(["run", "shed.yaml", "--json", "--rtol", "seven"])
        assert stopped.value.code == 2

    def test_outcomes_named_as_failures_exist(self) -> None:
        from thermsim import solver

        known = {one.key for one in vars(solver).values() if isinstance(one, solver.Outcome)}
        assert set(run.FAILED) < known
        assert "interrupted" in known


class TestErrors:
    def test_every_problem_on_a_line(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str]
    ) -> None:
        model.raises = ScenarioError([
            Problem("shed.yaml", 14, 5, "drum.diametre", "unknown key", "did you mean 'diameter'?"),
            Problem("shed.yaml", 20, 3, "day.air", "12", "a temperature"),
        ])
        assert main(["run", "shed.yaml", "--out", "first"]) == 2
        caught = capsys.readouterr()
        assert caught.out == ""
        assert caught.err.splitlines() == [
            "shed.yaml:14:5 drum.diametre: unknown key; did you mean 'diameter'?",
            "shed.yaml:20:3 day.air: 12; a temperature",
        ]
        assert not Path("first").exists()

    @pytest.mark.parametrize(
        ("error", "code"),
        [(SolverError("no method got further"), 3), (ResultsError("cannot be written"), 2),
         (KeyboardInterrupt(), 130), (RuntimeError("odd"), 1),
         (PermissionError(13, "Permission denied", "there"), 2),
         (OSError(28, "No space left on device"), 2)],
    )
    def test_code_of_an_error(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str],
        error: BaseException, code: int,
    ) -> None:
        model.raises = error
        assert main(["check", "shed.yaml"]) == code
        told = capsys.readouterr().err
        assert "Traceback" not in told
        assert len(told.strip().splitlines()) == 1

    def test_more_is_told_when_asked(
        self, model: SimpleNamespace, capsys: pytest.CaptureFixture[str],
        monkeypatch: pytest.MonkeyPatch,
    ) -> None:
        model.raises = RuntimeError("odd")
        main(["check", "shed.yaml"])
        assert "THERMSIM_DEBUG=1" in capsys.readouterr().err
        monkeypatch.setenv("THERMSIM_DEBUG", "1")
        main(["check", "shed.yaml"])
        assert "Traceback" in capsys.readouterr().err

    def test_no_command(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert main([]) == 2
        assert "thermsim new" in capsys.readouterr().err
