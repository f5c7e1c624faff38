"""Where a lost maker may be: the index of a piece, the places that fit, the question to ask, where the work departs."""
