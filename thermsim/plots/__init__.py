"""Figures of a run: a file for each, a function that takes a table and an axis."""

from thermsim.plots.saved import save_figures

__all__ = ["save_figures"]
