"""Mishaps: a firing with one thing going wrong at its worst moment, and how soon it hurts."""
