"""The mouth: sentences and tones in, sound out of the speaker, and never a step delayed by it.

Knows nothing of what the sentences are about. `port.py` is the seam, `speaker.py` the real mouth,
`silent.py` the one that makes no sound; the voices (`espeak.py`, `natural.py`) load only when the first
sentence is made.
"""
