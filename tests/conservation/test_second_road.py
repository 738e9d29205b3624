"""Energy by a second road: flue gas and fuel from series.csv and the scenario alone.

Nothing of the model is used but what a reader of its results has. Enthalpies are NASA polynomials
of the gri30 data as cantera has them; the heating value is the wood's analysis by Channiwala and
Parikh (2002); stoichiometry is written out here.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd
import pytest
from shipped import SCENARIOS

SHIPPED = [path.stem for path in SCENARIOS]
WITHIN = 5e-3
CHANGES = ("outputs.every = 1 s",)
MASS = {"N2": 28.014, "O2": 31.998, "CO2": 44.009, "H2O": 18.015, "AR": 39.95,
        "CH2O": 30.026}
"""molar masses [g/mol], IUPAC 2021 abridged; CH2O stands for unburnt wood gas"""
C, H, O = 12.011, 1.008, 15.999
DRY_AIR = {"N2": 0.78084, "O2": 0.20948, "AR": 0.00934, "CO2": 0.0004}
"""mole fractions; U.S. Standard Atmosphere 1976, carbon dioxide as of about 2015"""
LATENT = 2.442e6
"""evaporation at 25 C [J/kg]; Incropera 6e table A.6"""
CARBON_HEAT = 32.8e6
"""charcoal burnt to carbon dioxide [J/kg], graphite 393.5 kJ/mol (JANAF)"""

HARDWOOD = {"C": 0.49, "H": 0.062, "O": 0.44, "N": 0.001}
"""broadleaf wood, per kg dry, ISO 17225-1 annex B, typical; made ash-free below"""


class Enthalpy:
    """h(T) - h(298.15 K) of the gases [J/kg] on a fine grid, by cantera."""

    def __init__(self) -> None:
        cantera = pytest.importorskip("cantera")
        gas = cantera.Solution("gri30.yaml")
        self.grid = np.arange(220.0, 2600.0, 2.0)
        self.tables = {}
        for name, mass in MASS.items():
            species = gas.species(name).thermo
            rise = np.array([species.h(T) for T in self.grid]) - species.h(298.15)
            self.tables[name] = rise / mass

    def __call__(self, name: str, T: Any) -> Any:
        return np.interp(T, self.grid, self.tables[name])


@pytest.fixture(scope="module")
def h() -> Enthalpy:
    """Enthalpies by cantera."""
    return Enthalpy()


def moist_air(tree: Any, pressure: float) -> dict[str, float]:
    """Mass fractions of the day's air; vapour pressure by Magnus (WMO-No. 8, annex 4.B)."""
    t = tree.day.air - 273.15
    vapour = tree.day.humidity * 611.2 * np.exp(17.62 * t / (243.12 + t))
    wet = vapour / pressure
    moles = {name: (1.0 - wet) * x for name, x in DRY_AIR.items()} | {"H2O": wet}
    whole = sum(MASS[name] * x for name, x in moles.items())
    return {name: MASS[name] * x / whole for name, x in moles.items()}


def day_pressure(tree: Any) -> float:
    """Air pressure [Pa], ISO 2533."""
    return 101325.0 * (1.0 - 2.25577e-5 * tree.day.altitude) ** 5.25588


def wood_of(tree: Any) -> dict[str, float]:
    """Elements of dry ash-free wood and its lower heating value [J/kg]."""
    assert tree.wood.kind == "mixed hardwood"
    whole = sum(HARDWOOD.values())
    E = {name: x / whole for name, x in HARDWOOD.items()}
    high = 1e6 * (34.91 * E["C"] + 117.83 * E["H"] - 10.34 * E["O"] - 1.51 * E["N"])
    return E | {"heat": high - LATENT * E["H"] * MASS["H2O"] / (2 * H)}


def integral(time: Any, values: Any) -> float:
    """Time integral by the trapezium."""
    return float(np.trapezoid(values, time))


def flue_from_series(result: Any, h: Enthalpy) -> dict[str, float]:
    """Heat up the chimney less that of all air drawn in, and heat released by burning [J]."""
    tree, series = result.scenario.tree, result.series
    E = wood_of(tree)
    time = series["time_s"].to_numpy()
    char_heat = series["firepower_char_W"].to_numpy()
    volatile_heat = series["firepower_W"].to_numpy() - char_heat
    y = tree.wood.char_yield
    # burning rates [kg/s] from the powers: char as carbon, volatiles by what the wood has left
    char = char_heat / CARBON_HEAT
    volatiles = volatile_heat / ((E["heat"] - CARBON_HEAT * y) / (1.0 - y))
    made = {"C": (E["C"] - y) / (1 - y), "H": E["H"] / (1 - y), "O": E["O"] / (1 - y),
            "N": E["N"] / (1 - y)}
    moisture = tree.wood.moisture / (1.0 - tree.wood.moisture)
    dry = volatiles / ((1.0 - y) * (1.0 - tree.wood.ash)) - kindling_rate(tree, time)
    if tree.fire.kind == "sticks":  # kindling brings no water; its rate rises to twice its mean
        lit = time < tree.fire.kindling_time
        mean = tree.fire.kindling / tree.fire.kindling_time
        splinters = np.where(lit, 2.0 * mean * time / tree.fire.kindling_time, 0.0)
        dry = np.maximum(dry - splinters, 0.0)
    gain = {  # kg of each gas a second that the fire adds to the air
        "CO2": (volatiles * made["C"] + char) * MASS["CO2"] / C,
        "H2O": volatiles * made["H"] * MASS["H2O"] / (2 * H) + dry * moisture,
        "N2": volatiles * made["N"],
        "AR": 0.0 * char,
        "O2": (volatiles * (made["O"] - made["C"] * MASS["O2"] / C - made["H"] * O / (2 * H))
               - char * MASS["O2"] / C),
    }
    air = moist_air(tree, day_pressure(tree))
    top = [c for c in series if c.startswith("temperature_chimney") and c.endswith("_gas_C")][-1]
    T = series[top].to_numpy() + 273.15
    chimney = 1e-3 * series["flow_chimney_g_per_s"].to_numpy()
    out = np.maximum(chimney, 0.0)
    smoke = 1e-3 * sum(series[c].to_numpy() for c in series if c.startswith("outflow_"))
    # net of every opening and what goes out of it again; down the chimney comes air as well
    net = 1e-3 * sum(series[c].to_numpy() for c in series
                     if c.startswith("flow_") and c != "flow_chimney_g_per_s")
    came = net + smoke + np.maximum(-chimney, 0.0)
    # gas is not stored: what goes up is the mean of what is made now; the rest is unburnt
    total = np.maximum(out + smoke, 1e-12)
    unburnt = out + smoke - came - sum(gain.values())
    up = sum(out * (came * air[n] + gain[n]) / total * h(n, T) for n in air)
    up = up + out * unburnt / total * h("CH2O", T)
    brought = came * sum(air[n] * h(n, tree.day.air) for n in air)
    return {"flue": integral(time, up - brought), "released": integral(time, char_heat)
            + integral(time, volatile_heat)}


def kindling_rate(tree: Any, time: Any) -> Any:
    """Dry kindling burning [kg/s], which brings no water: rising in a straight line in its time."""
    if tree.fire.kind != "sticks":
        return 0.0 * time
    span = tree.fire.kindling_time
    return np.where(time < span, 2.0 * tree.fire.kindling * time / span**2, 0.0)


def fuel_gone(result: Any) -> float:
    """Heat of the wood that is gone and of its char that is not left [J], from masses alone.

    Wood put in, by the scenario and the acts told in the events, less wood left.
    """
    tree, end = result.scenario.tree, result.series.iloc[-1]
    E = wood_of(tree)
    clean = 1.0 - tree.wood.ash
    done = result.events[result.events["event"].isin(["act", "rule"])]
    told = done["where"].astype(str) + " " + done["note"].astype(str)
    charges = told.str.extract(r"add ([\d.]+) kg")[0].dropna().astype(float).sum()
    moist = charges - end["wood_unlit_kg"] - end["wood_alight_kg"]
    dry = tree.fire.kindling + moist * (1.0 - tree.wood.moisture)  # kindling is dry
    return float(dry * clean * E["heat"] - end["char_kg"] * CARBON_HEAT)


def row(result: Any, name: str) -> float:
    """Joules of a ledger row."""
    table: pd.DataFrame = result.ledger.set_index("row")
    return float(table.loc[name, "energy_J"])


@pytest.mark.parametrize("name", SHIPPED)
def test_fuel_burnt(fired: Callable[..., Any], name: str) -> None:
    """Heat of the wood that is gone: what the ledger calls fuel less what is left of it."""
    result = fired(name, *CHANGES)
    if result.scenario.tree.fire.kind != "sticks":
        points = np.array([(p["at"], p["heat"]) for p in result.scenario.tree.fire.heat])
        stop = min(float(result.series["time_s"].iloc[-1]), points[-1, 0])
        fine = np.linspace(0.0, stop, 100001)
        net = integral(fine, np.interp(fine, *points.T))
        drying = row(result, "drying_wood")
        assert row(result, "fuel") - drying == pytest.approx(net, rel=WITHIN)
        return
    ours = fuel_gone(result)
    assert row(result, "fuel") - row(result, "fuel_left") == pytest.approx(ours, rel=WITHIN)


@pytest.mark.parametrize("name", SHIPPED)
def test_flue_gas(fired: Callable[..., Any], h: Enthalpy, name: str) -> None:
    """Heat up the chimney: the ledger's row within 0.5 % of the heat released."""
    result = fired(name, *CHANGES)
    ours = flue_from_series(result, h)
    burnt = row(result, "fuel") - row(result, "fuel_left") - row(result, "unburnt")
    print(f"{name}: flue {ours['flue'] / row(result, 'flue_gas') - 1:+.2e}, "
          f"released {ours['released'] / burnt - 1:+.2e}")
    assert ours["released"] == pytest.approx(burnt, rel=WITHIN)
    assert ours["flue"] == pytest.approx(row(result, "flue_gas"), rel=WITHIN)
