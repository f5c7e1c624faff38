"""Places as they are written: "next 2 sts", "each dc across", "3rd ch of turning ch", "same sp".

A Where comes in; wordings go out, the usual one first. Whoever asks reads them back and takes the first that says the
same.
"""

from collections.abc import Iterator

from tracker.notation.tree import ANY, SPACE, Kind, Stop, Where, Which
from tracker.writing.words import Tongue

_LOOPS = {"back": "blo", "front": "flo", "both": "both loops", "third": "third loop"}


def ordinal(number: int) -> str:
    """
    >>> ordinal(1), ordinal(12), ordinal(23)
    ('1st', '12th', '23rd')
    """
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def kind_words(tongue: Tongue, kind: Kind, many: int = 1) -> str:
    """What a phrase works into: "st", "ch-2 sps", "dc"."""
    if kind.name == ANY:
        return "st" if many == 1 else "sts"
    if kind.name == SPACE:
        plain = "sp" if many == 1 else "sps"
        return plain if kind.chains is None else f"ch-{kind.chains} {plain}"
    if kind.name == "tch":
        return "tch"
    if kind.name.startswith("corner "):
        space = kind.name == "corner sp" and kind.chains is not None
        return f"corner ch-{kind.chains} sp" if space else kind.name
    return tongue.name(kind.name)


def stop_words(tongue: Tongue, stop: Stop, around: bool) -> str:
    """Where an "each" or a repeat ends: "across", "to last 2 sts", "to next corner"."""
    if stop.at == "space" and stop.kinds:
        return f"to next {kind_words(tongue, stop.kinds[0])}"
    if stop.at in ("corner", "marker"):
        return f"to {'next ' if stop.at == 'corner' else ''}{stop.at}"
    if stop.left:
        kind = stop.kinds[0] if stop.kinds else Kind(ANY)
        if kind.name == "tch" and stop.left == 1:
            return "across to tch"
        number = f"{stop.left} " if stop.left > 1 or not stop.kinds else ""
        if not stop.kinds:
            return f"to last {stop.left}"
        return f"to last {number}{kind_words(tongue, kind, stop.left)}"
    return "around" if around else "across"


def place_words(tongue: Tongue, where: Where, around: bool) -> Iterator[str]:
    """Wordings of a place, without the "in" before it."""
    loop = f"{_LOOPS[where.loop]} of " if where.loop in _LOOPS else ""
    kinds = where.kinds
    names = " and ".join(kind_words(tongue, kind) for kind in kinds)
    one = kind_words(tongue, kinds[0]) if kinds else ""
    many = kind_words(tongue, kinds[0], where.many) if kinds else ""
    word = where.which.value
    if where.which in (Which.NEXT, Which.FIRST, Which.LAST):
        if where.nth and where.many == 1 and kinds:
            yield f"{loop}{one}"
        elif len(kinds) > 1:
            yield f"{loop}{word} {names}"
            first = ", ".join(kind_words(tongue, kind) for kind in kinds[:-1])
            yield f"{loop}{word} {first} and {kind_words(tongue, kinds[-1])}"
        elif where.many > 1:
            if kinds and not loop:
                yield f"each of {word} {where.many} {many}"
            yield f"{loop}{word} {where.many} {many}".rstrip()
        else:
            yield f"{loop}{word} {one}".rstrip()
            yield f"{loop}{word} 1 {one}".rstrip()
    elif where.which is Which.EACH:
        end = stop_words(tongue, where.stop, around) if where.stop is not None else ""
        yield f"{loop}each {names} {end}".rstrip()
        yield f"{loop}each {' and each '.join(kind_words(tongue, kind) for kind in kinds)} {end}".rstrip()
        if len(kinds) > 2:
            names = ", ".join(kind_words(tongue, kind) for kind in kinds[:-1])
            yield f"{loop}each {names} and {kind_words(tongue, kinds[-1])} {end}".rstrip()
    elif where.which is Which.SAME:
        yield f"{loop}same {one or 'place'}"
    elif where.which is Which.RING:
        yield "ring"
    elif where.which is Which.FROM_HOOK:
        yield f"{ordinal(where.nth)} ch from hook"
    elif where.which is Which.TOP:
        if where.nth and kinds and kinds[0].name == SPACE:
            yield f"{ordinal(where.nth)} ch of ch-{kinds[0].chains}"
        elif where.nth:
            yield f"{ordinal(where.nth)} ch of turning ch"
            yield f"{ordinal(where.nth)} ch of beg ch"
        elif kinds:
            yield f"top of {one}"
            yield f"top of first {one}"
        else:
            yield "top of turning ch"
            yield "top of beg ch"
    elif where.which is Which.NTH:
        yield f"{ordinal(where.nth)} {one or 'st'}"
