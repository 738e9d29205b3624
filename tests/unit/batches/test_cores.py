"""A map over processes: in order, from several threads, and after a death."""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from thermsim.batches.cores import OnCores, on_cores
from thermsim.errors import ThermsimError


def square(number: int) -> tuple[int, int]:
    return number * number, os.getpid()


def die(number: int) -> int:
    os._exit(3)


def die_once(marker: str) -> str:
    if not Path(marker).exists():
        Path(marker).write_text("died")
        os._exit(3)
    return "done"


def test_in_order_and_elsewhere() -> None:
    made = OnCores(2)(square, range(8))
    assert [one for one, _ in made] == [number * number for number in range(8)]
    assert os.getpid() not in {process for _, process in made}


def test_one_core_needs_no_process() -> None:
    with on_cores(1) as mapping:
        assert list(mapping(square, [3])) == [(9, os.getpid())]


def test_from_two_threads() -> None:
    on_two = OnCores(2)
    with ThreadPoolExecutor(2) as threads:
        made = list(threads.map(lambda first: [one for one, _ in on_two(square, [first] * 4)],
                                [2, 3]))
    assert made == [[4] * 4, [9] * 4]


def test_a_death_is_borne_and_many_are_told(tmp_path: Path) -> None:
    assert OnCores(2)(die_once, [str(tmp_path / "marker")]) == ["done"]
    with pytest.raises(ThermsimError, match="workers died"):
        OnCores(2)(die, [1])
