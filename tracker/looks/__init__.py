"""How the work looks, for whatever draws it: which way rows lie, which stitches lean, and the colours of our own."""
