"""rowteller: reads a written crochet pattern, checks it, and leads the maker through it hands-free."""

__version__ = "0.1.0"
