"""Fading: how much of what is at a place is still said aloud, once the hands know it."""
