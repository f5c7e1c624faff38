"""The row below, as the hook meets it."""
