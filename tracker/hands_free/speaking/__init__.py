"""What is said aloud at a piece: the mouth opened with its tones, and what is read back before it is done."""
