"""Many firings from one batch file: cases, a store that loses nothing, workers, tables."""
