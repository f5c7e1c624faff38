"""Places along the edges of what was worked."""
