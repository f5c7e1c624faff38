"""Where the hook goes."""
