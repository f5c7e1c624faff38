"""A session: a place in the program, changed by deeds, and the sentences that come of it."""
