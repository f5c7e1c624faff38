"""Rows that make what they go into, a chain or a ring, or begin in a foundation chain."""
