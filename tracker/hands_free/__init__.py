"""The devices around a piece at work: ear, mouth and pedal, each of which may be missing.

Used by the screen and by plain lines.
"""
