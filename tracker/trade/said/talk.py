"""Talk between the rows: what a pattern tells its maker and gives the hands nothing to do.

Words come in; whether they are talk goes out. Told once: in one more copy of the piece the maker has heard it.
"""

from tracker.expressions import expression

_DOES = expression(
    r"\d|(?i:\b(?:add|attach|bind|block|break|brush|carry|ch|chain|change|check|close|cont|continue|count|cover|cut|darn"
    r"|decrease|draw|drop|embroider|end|fasten|fill|finish|flatten|flip|fo|fold|glue|hold|hook|increase|insert|join"
    r"|knot|lay|leave|line|make|mark|match|measure|miss|move|pick|pin|place|press|pull|put|remove|rep|repeat|rotate"
    r"|rows?|rounds?|rnds?|seam|sew|skip|slip|sl|ss|start|steam|stitch|sts?|stuff|switch|tack|thread|tie|trim|turn"
    r"|use|using|wash|weave|whipstitch|work|wrap|yarn|(?:right|wrong) sides?)\b)|\bwith [A-Z]\b|\b(?:RS|WS)\b",
)
"""Words of something to be done, or of the work itself: where one stands, it is told each time."""


def is_talk(words: str) -> bool:
    """True for words that give the hands nothing to do.

    >>> is_talk("Take your time with this one, it sets the size of all the others.")
    True
    >>> is_talk("Weave in ends."), is_talk("Lovely! Fasten off."), is_talk("Go on with B.")
    (False, False, False)
    """
    return _DOES.search(words) is None


def without_talk(words: str) -> str:
    """The sentences that are to be done.

    >>> without_talk("Nearly there! Weave in ends. Isn't it pretty?")
    'Weave in ends.'
    """
    return " ".join(sentence for sentence in _BETWEEN.split(words) if not is_talk(sentence))


_BETWEEN = expression(r"(?<=[.!?])\s+")
