"""What designers call a stitch of their own that begins a row or round: "beg shell", "starting popcorn", "first V-st".

Common practice, no source.
"""

BEGINS = ("beg", "beginning", "start", "starting", "initial", "first", "standing")
"""Words in front of such a name."""
_LEADS = tuple(f"{word} " for word in BEGINS)


def begins(name: str) -> bool:
    """True for such a name.

    >>> begins("starting popcorn"), begins("popcorn")
    (True, False)
    """
    return name.startswith(_LEADS)


def elsewhere(name: str) -> str:
    """What the stitch is called where it does not begin anything: the name itself where no such word leads it.

    >>> elsewhere("beg shell"), elsewhere("shell")
    ('shell', 'shell')
    """
    return name.partition(" ")[2] if begins(name) else name
