"""Blocks of a page into rows: each with its label, what it refers to, its words and its name."""
