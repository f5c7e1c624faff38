"""Sizes: their names, and the figures of one of them."""
