"""The pieces in hand, read and not written: a journal → its program and session, a name → a piece, a file → a piece."""
