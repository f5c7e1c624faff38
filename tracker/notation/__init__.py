"""From text to the tree of a pattern, and back."""
