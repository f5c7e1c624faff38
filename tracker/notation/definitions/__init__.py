"""Stitches that the pattern defines itself."""
