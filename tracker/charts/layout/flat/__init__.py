"""Flat pieces: where each stitch of a row stands, the line that the row lies along, and the drawing of both."""
