"""Sizes as told to people, and what a person wrote in a file."""

from __future__ import annotations

from typing import Any


def mm(length: float) -> str:
    """A length in words: millimetres, or metres from 10 m on.

    >>> mm(0.025), mm(0.0025), mm(12.0)
    ('25 mm', '2.5 mm', '12 m')
    """
    return f"{length:.3g} m" if abs(length) >= 10.0 else f"{1000.0 * length:.4g} mm"


def cm2(area: float) -> str:
    """An area in cm2.

    >>> cm2(0.0132732)
    '133 cm2'
    """
    return f"{1e4 * area:.3g} cm2" if area < 0.1 else f"{area:.3g} m2"


def litres(volume: float) -> str:
    """A volume in litres.

    >>> litres(0.0201)
    '20.1 l'
    """
    return f"{1000.0 * volume:.3g} l"


def celsius(T: float) -> str:
    """A temperature in C.

    >>> celsius(293.15)
    '20 C'
    """
    return f"{T - 273.15:.0f} C"


def is_written(scenario: Any, path: str) -> bool:
    """Whether a person wrote this value, in the file or as a change."""
    fact = scenario.fact(path)
    return fact is not None and fact.status == "measured"


def pass_path(tree: Any, number: int) -> str:
    """Dotted path of a pass, by its name if no other has it."""
    names = [given["name"] for given in tree["gas_path"]]
    name = names[number]
    plain = "." not in name and not name.isdigit() and names.count(name) == 1
    return f"gas_path.{name if plain else number + 1}"
