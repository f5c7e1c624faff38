"""The ways in which a phrase may be read, in the order in which they are tried: `table.py` is their list.

Each takes the cursor, what the row said so far and the items to add to; it reads what it can and says True, or leaves
the cursor where it was and says False.
"""
