"""The plan of the plant that raises steam, made once."""

from __future__ import annotations

import pytest
from shipped import FOLDER

from thermsim.first_firing.alone import Alone, left_alone
from thermsim.first_firing.steps import Plan, make_plan
from thermsim.loading import load_scenario


@pytest.fixture(scope="session")
def plan() -> Plan:
    return make_plan(load_scenario(FOLDER / "steam_to_engine.yaml"))


@pytest.fixture(scope="session")
def alone(plan: Plan) -> list[Alone]:
    return left_alone(plan.scenario, plan.usual)
