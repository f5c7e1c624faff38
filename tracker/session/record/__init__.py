"""What a piece's record tells: how far it is, how fast it went, which pieces there are, where an edited text stands."""
