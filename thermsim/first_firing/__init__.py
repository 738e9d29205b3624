"""The first firing in steps, and a card for every later one: what to read, when, where to stop."""
