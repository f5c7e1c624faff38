"""What the trade knows: stitches, terms, numbers. No pattern is read here."""
