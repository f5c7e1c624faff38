"""The pedal: keys in, presses of a foot out: tap, double tap, hold, on one to three switches.

A pedal is a keyboard with few keys, so it may be heard by several routes: the terminal's own keys, or,
where the maker asked for it, the keys of the whole system. Knows nothing of what a press does.
"""
