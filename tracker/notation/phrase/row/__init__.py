"""One row: sentences, phrases, brackets, stars, and what can't be read."""
