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
    with on_cores(2) as mapping:
        made = list(mapping(square, range(8)))
    assert [one for one, _ in made] == [number * number for number in range(8)]
    assert os.getpid() not in {process for _, process in made}


def test_one_core_needs_no_process() -> None:
    with on_cores(1) as mapping:
        assert list(mapping(square, [3])) == [(9, os.getpid())]


def test_from_two_threads() -> None:
    with OnCores(2) as on_two, ThreadPoolExecutor(2) as threads:
        made = list(threads.map(lambda first: [one for one, _ in on_two(square, [first] * 4)],
                                [2, 3]))
    assert made == [[4] * 4, [9] * 4]


def test_a_death_is_borne_and_many_are_told(tmp_path: Path) -> None:
    with OnCores(2) as on_two:
        assert on_two(die_once, [str(tmp_path / "marker")]) == ["done"]
        with pytest.raises(ThermsimError, match="workers died"):
            on_two(die, [1])


def test_beside_joblib_s_own_processes() -> None:
    """A sweep before, between and after it: neither takes the other's processes."""
    from joblib import Parallel, delayed

    def sweep() -> list[tuple[int, int]]:
        return list(Parallel(n_jobs=2)(delayed(square)(number) for number in range(3)))

    with OnCores(2) as on_two:
        assert [one for one, _ in on_two(square, [5])] == [25]
        assert [one for one, _ in sweep()] == [0, 1, 4]
        assert [one for one, _ in on_two(square, [6])] == [36]
    assert [one for one, _ in sweep()] == [0, 1, 4]
