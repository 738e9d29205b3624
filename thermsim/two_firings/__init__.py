"""Two firings of a log told apart: what day, wood and feeding did, what is left for the change."""
