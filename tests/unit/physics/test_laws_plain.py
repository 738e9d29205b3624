"""The laws of gases, steam and materials give the same as plain Python as when compiled."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import numpy as np

from thermsim.kernel import table
from thermsim.physics import combustion, flue_gas, if97, materials, steam
from thermsim.physics.material_data import MATERIALS

TEMPERATURES = (180.0, 290.0, 372.0, 640.0, 1010.0, 1500.0, 3700.0)
OF_TEMPERATURE = [
    "saturation_pressure",
    "saturation_slope",
    "liquid_density",
    "liquid_energy",
    "liquid_enthalpy",
    "liquid_heat_capacity",
    "liquid_expansion",
    "vapour_density",
    "vapour_energy",
    "vapour_enthalpy",
    "thin_steam_energy",
    "liquid_viscosity",
    "liquid_conductivity",
    "surface_tension",
]
OF_STATE = [f"region{n}_{law}" for n in (1, 2) for law in ("volume", "enthalpy", "heat_capacity")]


def values() -> list[float]:
    """Every law at a spread of temperatures."""
    found = [steam.saturation_temperature(p) for p in (1e-3, 1e5, 1e8)]
    air = flue_gas.mixture_polynomials([0.77, 0.23, 0.0, 0.0, 0.0])
    moles = flue_gas.DRY_AIR_MOLES
    fit = flue_gas.transport_fit(moles)
    rows = table(materials.MATERIAL, len(MATERIALS))
    for i, material in enumerate(MATERIALS.values()):
        rows[i] = materials.material_row(material)
    for T in TEMPERATURES:
        found += [getattr(steam, name)(T) for name in OF_TEMPERATURE]
        found += [steam.steam_gas_energy(T, 0.3), steam.steam_gas_pressure(T, 0.3)]
        found += [steam.steam_viscosity(T, 0.3), steam.steam_conductivity(T, 0.3)]
        found += [flue_gas.enthalpy(T, air), flue_gas.heat_capacity(T, air)]
        found += [flue_gas.viscosity(T, moles), flue_gas.conductivity(T, moles)]
        found += [flue_gas.viscosity_fit(T, fit), flue_gas.conductivity_fit(T, fit)]
        for i in range(len(rows)):
            found += [materials.conductivity(rows[i], T)]
            found += [materials.volumetric_heat_capacity(rows[i], T)]
            found += [materials.volumetric_heat(rows[i], T)]
    found += [getattr(if97, name)(450.0, 9e5) for name in OF_STATE]
    found += [combustion.smooth_minimum(0.3, b) for b in (0.0, 0.3, 1.0)]
    return [float(value) for value in found]


def test_plain_and_compiled_agree():
    script = f"import runpy, json; print(json.dumps(runpy.run_path({__file__!r})['values']()))"
    paths = os.pathsep.join(path for path in sys.path if path)
    plain = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, "NUMBA_DISABLE_JIT": "1", "PYTHONPATH": paths},
        capture_output=True,
        text=True,
        check=True,
    )
    np.testing.assert_allclose(json.loads(plain.stdout), values(), rtol=1e-9)
