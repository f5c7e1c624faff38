"""Stitches with their places."""
