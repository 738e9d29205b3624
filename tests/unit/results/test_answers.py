"""Answers from a made-up run whose figures are known by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from thermsim.results import answers


def steaming(last_s: float, rate: float, **more: Any) -> Any:
    """A given fire to `last_s` whose drum boils from 600 s on and steams at a rate [kg/s]."""
    def trajectory(times: Any) -> Any:
        return (rate * np.maximum(np.asarray(times) - 600.0, 0.0))[:, None]

    trajectory.t1 = 7200.0  # type: ignore[attr-defined]
    plant = SimpleNamespace(given=np.array([[0.0, 5e3], [last_s, 5e3]]),
                            outlets=[{"total": 0}])
    return SimpleNamespace(assembly=SimpleNamespace(plant=plant), charges=[],
                           solution=SimpleNamespace(trajectory=trajectory), **more)


def test_steam_in_kilograms_an_hour(monkeypatch: pytest.MonkeyPatch) -> None:
    """A kilogram in a thousand seconds is 3.6 kg in an hour; under ten minutes nothing is told."""
    monkeypatch.setattr(answers, "boiling_times", lambda run: [(600.0, True)])
    assert answers.evaporation(steaming(3600.0, 1e-3), 600.0) == pytest.approx(3.6, rel=1e-12)
    assert answers.evaporation(steaming(1400.0, 1e-3), 600.0) is None
    assert answers.evaporation(steaming(3600.0, 1e-3), None) is None
