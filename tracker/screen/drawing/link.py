"""The link to the page on a tablet and its code, laid beside each other. A link and the room come in, lines go out."""

from tracker.screen.drawing.words import Line, Run, filled, lines_of, width_of
from tracker.tablet.code import code

_WORDS = (
    "The same work as a page, for a tablet by your chair. Point its camera at the code, or open:",
    "space begins, V brings this again. Whoever has the link can see the work, until you leave.",
)


def link_page(link: str, width: int, height: int) -> tuple[Line, ...]:
    """As many lines as there is room; without the code where it does not fit whole."""
    squares = code(link)
    wide = len(squares[0]) if squares else 0
    beside = bool(squares) and len(squares) <= height and width - wide - 6 >= 24
    room = min(60, width - 4 - (wide + 2 if beside else 0))
    before, after = _WORDS
    words: list[Run] = [(line, "said") for line in lines_of(before, room, 6)]
    words += [("", "said"), *((line, "hand") for line in _broken(link, room)), ("", "said")]
    words += [(line, "then") for line in lines_of(after, room, 6)]
    if squares and not beside:
        words += [("", "said"), ("A larger window has room for the code.", "then")]
    out: list[Line] = []
    for at in range(height):
        text, role = words[at] if at < len(words) else ("", "said")
        runs: tuple[Run, ...] = (("  ", "ground"), (text, role))
        if beside:
            runs += ((" " * (room - width_of(text) + 2), "ground"),)
            runs += ((squares[at], "code"),) if at < len(squares) else ()
        out.append(filled(tuple(run for run in runs if run[0]), width))
    return tuple(out)


def _broken(link: str, room: int) -> tuple[str, ...]:
    """A link has no spaces to be broken at."""
    return tuple(link[at : at + room] for at in range(0, len(link), room))
