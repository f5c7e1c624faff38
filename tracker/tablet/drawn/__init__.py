"""What the page shows of the work, as SVG: rows as they lie, rounds around their middle, seams of a joining."""
