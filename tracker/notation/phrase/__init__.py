"""The words of a row into items: places, stitches, deeds, repeats, counts."""
