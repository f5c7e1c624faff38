"""The piece as a whole: its copies, its card, coming back to it, ripping back, the log."""
