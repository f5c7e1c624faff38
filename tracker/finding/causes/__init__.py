"""What a row is made of, and what can go wrong with it: parts, and the table of causes."""
