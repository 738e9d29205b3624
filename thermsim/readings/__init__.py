"""Readings taken at the stove: the file they stand in."""
