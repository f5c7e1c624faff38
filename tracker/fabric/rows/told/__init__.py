"""Rows told otherwise than stitch by stitch: as one pass, in squares, until so many stand."""
