"""Scenario files to values: read with line numbers, inherited, changed, validated, all strictly."""

from thermsim.scenario.facts import Fact
from thermsim.scenario.load import load_scenario, load_text
from thermsim.scenario.loaded import Scenario
from thermsim.scenario.values import Values

__all__ = ["Fact", "Scenario", "Values", "load_scenario", "load_text"]
