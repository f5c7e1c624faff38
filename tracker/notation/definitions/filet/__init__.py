"""What a pattern says of its filet: the squares it is made of, and how rows of them widen and narrow."""
