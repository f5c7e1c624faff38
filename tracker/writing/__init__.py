"""A pattern written back in clean standard notation, in US or UK terms."""

from tracker.writing.whole import differing, write

__all__ = ["differing", "write"]
