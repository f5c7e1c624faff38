"""The words of one row into items of the tree."""
