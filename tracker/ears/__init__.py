"""Hears spoken commands: a port, its engines, and what feeds them. Knows nothing of crochet nor of the rest
of the package."""
