"""Words in a row that work no stitch: remarks, what is told once more, what nobody can read."""
