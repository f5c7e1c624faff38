"""Marks around what is worked again: brackets and stars."""
