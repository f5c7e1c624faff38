"""The order in which printed rows are really worked."""
