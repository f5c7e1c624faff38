"""A piece's journal as a file of SQLite's: nothing else of the journal knows of it."""
