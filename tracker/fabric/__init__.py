"""What is worked into what, row by row, and what is wrong with it."""
