"""The store: whole or not there, shared, and named by what decides a firing's numbers."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from thermsim.batches.store import STALE, Identity, Store, identity, model_version
from thermsim.solver import Settings

KEY = "ab" * 32
RECORD = {"outcome": "boiled", "reason": "", "summary": {"time_to_boil_s": 0.1 + 0.2}}


def test_kept_numbers_come_back_to_the_last_bit(tmp_path: Path) -> None:
    Store(tmp_path).put(KEY, RECORD)
    found = Store(tmp_path).get(KEY)
    assert found is not None
    assert found["summary"] == RECORD["summary"]
    assert [record["outcome"] for record in Store(tmp_path).all()] == ["boiled"]


def test_what_is_broken_or_of_another_format_is_not_there(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.put(KEY, RECORD)
    whole = store.place(KEY).read_text()
    for text in (whole[:40], "", "[]", whole.replace('"schema": 1', '"schema": 99'), "\x00"):
        store.place(KEY).write_text(text)
        assert store.get(KEY) is None
    assert list(store.all()) == []


def test_half_written_files_of_the_dead_are_cleared_and_of_the_living_kept(tmp_path: Path) -> None:
    store = Store(tmp_path)
    store.put(KEY, RECORD)
    old, new = (store.place(KEY).with_name(name) for name in ("old.1.part", "new.2.part"))
    old.write_text("half")
    new.write_text("half")
    os.utime(old, (time.time() - 2 * STALE,) * 2)
    store.clear_parts()
    assert (old.exists(), new.exists()) == (False, True)
    assert store.get(KEY) is not None


def test_identity_says_what_is_not_as_it_was() -> None:
    one = identity("aa", Settings())
    assert one.model == model_version()
    assert one.key != identity("ab", Settings()).key
    assert one.key != identity("aa", Settings(rtol=1e-6)).key
    assert identity("ab", Settings(rtol=1e-6)).differs(one) == (
        "the scenario and the solver's settings")
    assert Identity(one.scenario, one.settings, "older").differs(one) == "the model"


def test_a_folder_stays_where_it_was_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Workers that live on stand in the folder where they were begun, not in the caller's."""
    monkeypatch.chdir(tmp_path)
    store = Store(Path("kept"))
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    assert store.folder == tmp_path / "kept"
