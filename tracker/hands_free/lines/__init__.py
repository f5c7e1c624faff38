"""Plain lines: one inbox for typed lines and devices, and the shelf before a piece is open."""
