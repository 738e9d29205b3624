"""Guesses of a scenario fitted to readings: how sure, what cannot be told, where to read next."""
