"""Rounds from the centre: where their corners are, where everything stands, and the chart of it."""
