"""From laminar to turbulent: one weight for friction and heat, with the corners rounded."""

from __future__ import annotations

from thermsim.kernel import kernel

RE_LAMINAR = 2300.0  # a duct flow is laminar below (Gnielinski 2013; VDI Heat Atlas G1)
RE_TURBULENT = 4000.0  # fully turbulent above (Gnielinski 2013)
REGIME_CORNER_WIDTH = 0.05  # half width of the rounded corners, as a share of the transition


@kernel
def rounded_plus(x: float, width: float) -> float:
    """Give max(x, 0) with its corner rounded by a parabola of half width `width`.

    Exact outside -width..width; the largest bias is width/4, at x = 0; the slope is continuous.

    >>> float(rounded_plus(2.0, 0.1)), float(rounded_plus(-2.0, 0.1))
    (2.0, 0.0)
    """
    if x >= width:
        return x
    if x <= -width:
        return 0.0
    return (x + width) ** 2 / (4.0 * width)


@kernel
def flow_regime(Re: float) -> tuple[float, float, float]:
    """Give (Re for the laminar law, Re for the turbulent law, weight of the turbulent law).

    A quantity is (1 - w) laminar(Re_l) + w turbulent(Re_t): laminar below Re 2300, turbulent above
    4000, linear in Re between (Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134, from memory).
    The corners are rounded over +-85 in Re; largest bias there 1.25 % of the difference between
    the two laws, and 21 in Re.

    >>> tuple(round(float(x), 3) for x in flow_regime(3150.0))
    (2300.0, 4000.0, 0.5)
    """
    span = RE_TURBULENT - RE_LAMINAR
    s = (Re - RE_LAMINAR) / span
    if s <= -REGIME_CORNER_WIDTH:
        return Re, RE_TURBULENT, 0.0
    begun = rounded_plus(s, REGIME_CORNER_WIDTH)
    beyond = rounded_plus(s - 1.0, REGIME_CORNER_WIDTH)
    return Re - span * begun, RE_TURBULENT + span * beyond, begun - beyond
