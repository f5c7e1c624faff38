"""A pattern's own words, as they are said aloud."""
