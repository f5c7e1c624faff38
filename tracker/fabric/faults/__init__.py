"""Faults met while rows were worked, as a maker reads them, and rows that may not be called wrong."""
