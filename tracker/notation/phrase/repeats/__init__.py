"""How often, and what changes the last time."""
