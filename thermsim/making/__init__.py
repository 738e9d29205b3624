"""What is cut and welded for a scenario's plant: pieces, pipes, welds, stock, cost, outlines."""
