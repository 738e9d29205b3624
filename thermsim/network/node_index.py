"""One index of names: every state has a place, a kind, a start value and a tolerance."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

TOLERANCES = {
    "gas": 0.01,
    "solid": 0.01,
    "share": 1e-5,
    "flow": 1e-7,
    "mass": 1e-6,
    "crust": 1e-6,
    "energy": 1.0,
    "power": 1.0,
    "air": 1e-8,
    "steam": 2e-7,
    "pressure": 50.0,
    "total": 1e12,
}
"""Absolute tolerance by kind of state: K, K, -, kg/s, kg, m, J, W, kg; kg/s and Pa of the steam
line; totals not controlled. Steam's flow and pressure follow the drum within a second and store
nothing that counts; at 1e-6 kg/s a trickle of 0.07 g/s was 2 % astray, and what it left a hot
superheater with 2.6 K."""
SHARPER = {"air": 25.0}
"""What the relative tolerance is divided by. Of 9 g of air in a dry drum 1e-5 is a pascal, behind a
vent that a tenth of a pascal drives hot air out of or cold air into: the contents then went up to
27 K astray for minutes, one run in a few; at a tenth of it still 1.4 K, now and then."""
TYPICAL = {"energy": 0.1, "mass": 1e-6}
"""Change over which the rates are nearly straight, where it is less than the tolerance: a dry drum
holds some kilojoules of air behind an open vent"""


@dataclass
class NodeIndex:
    """Names of states in the order of the state vector.

    >>> index = NodeIndex()
    >>> index.add("fire zone", "gas", 300.0), index.add("bed", "solid", 300.0)
    (0, 1)
    >>> index["bed"]
    1
    """

    names: list[str] = field(default_factory=list)
    kinds: list[str] = field(default_factory=list)
    starts: list[float] = field(default_factory=list)
    places: dict[str, int] = field(default_factory=dict)

    def add(self, name: str, kind: str, start: float) -> int:
        """Give a new state its place; raises ValueError if the name is taken."""
        if name in self.places:
            raise ValueError(f"two states are called {name!r}")
        if kind not in TOLERANCES:
            raise ValueError(f"unknown kind of state {kind!r}")
        self.places[name] = len(self.names)
        self.names.append(name)
        self.kinds.append(kind)
        self.starts.append(start)
        return self.places[name]

    def __getitem__(self, name: str) -> int:
        return self.places[name]

    def __contains__(self, name: str) -> bool:
        return name in self.places

    def __len__(self) -> int:
        return len(self.names)

    @property
    def start(self) -> NDArray[np.float64]:
        """Start values (n,), SI."""
        return np.array(self.starts)

    @property
    def tolerances(self) -> NDArray[np.float64]:
        """Absolute tolerances (n,), SI."""
        return np.array([TOLERANCES[kind] for kind in self.kinds])

    @property
    def sharper(self) -> NDArray[np.float64]:
        """What the relative tolerances are divided by (n,)."""
        return np.array([SHARPER.get(kind, 1.0) for kind in self.kinds])

    @property
    def typical(self) -> NDArray[np.float64]:
        """Changes for differencing (n,), SI."""
        return np.array([min(TYPICAL.get(kind, np.inf), TOLERANCES[kind]) for kind in self.kinds])

    def of_kind(self, *kinds: str) -> NDArray[np.int64]:
        """Places of all states of the kinds given."""
        return np.array([i for i, kind in enumerate(self.kinds) if kind in kinds], dtype=np.int64)
