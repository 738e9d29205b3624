"""A batch file written for a test, beside a short firing that solves in a blink."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

SHORT = """\
starts_from: {base}
title: Two minutes of a given fire, invented
outputs:
  until: 2 min
  every: 10 s
fire:
  kind: given
  heat:
    - at: 0 s
      heat: 3 kW
    - at: 1 h
      heat: 3 kW
firing:
  - at: 0 s
    do: light the fire
"""


@pytest.fixture
def write_batch(tmp_path: Path, scenarios: Path) -> Callable[..., Path]:
    """`write_batch(text, name="batch.yaml")`: a batch whose base, short.yaml, lies beside it."""
    (tmp_path / "short.yaml").write_text(SHORT.format(base=scenarios / "given_fire.yaml"))

    def write(text: str, name: str = "batch.yaml") -> Path:
        place = tmp_path / name
        place.write_text(f"thermsim: 1\ntitle: invented\nbase: short.yaml\n{text}")
        return place

    return write
