"""The sums of one piece, put together from the pattern and from what the maker kept: time, size, yarn."""
