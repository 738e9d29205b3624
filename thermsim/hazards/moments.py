"""Moments in words."""

from __future__ import annotations

MINUTE = 60.0


def minutes(seconds: float) -> str:
    """A moment in minutes from lighting.

    >>> minutes(1885.0), minutes(12.0)
    ('31 min after lighting', '0 min after lighting')
    """
    return f"{max(seconds, 0.0) / MINUTE:.0f} min after lighting"
