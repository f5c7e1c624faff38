"""Measures what a maker waits for, on this machine: `python -m tracker.bench`. Nothing here is part of the program."""
