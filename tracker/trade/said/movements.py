"""How each stitch is worked, in hook movements and in our own words. A new stitch is one row here beside its own.

A stitch's name inside comes in; its movements go out, one by one, or as one sentence. Yarn-overs and loops follow the
*Handbook of Wool Knitting and Crochet* (1918), whose names are one step up the ladder; what it does not hold is
common practice, no source. A name that is in no row gives nothing.
"""

from functools import cache
from itertools import groupby

from tracker.expressions import expression
from tracker.records import dataclass
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import parts_of, said


@dataclass(frozen=True, slots=True)
class Movement:
    """One row: yarn-overs before, what each pull takes off, or words where that does not tell it."""

    name: str
    overs: int = 0
    """Yarn-overs before the hook goes in."""
    pulls: tuple[int, ...] = ()
    """Loops that each yarn-over is pulled through, once a loop has been pulled up; 1 makes a chain."""
    into: str = "into the stitch"
    tall: bool = False
    """True when the loop is drawn up to the height of the row."""
    words: tuple[str, ...] = ()
    """The movements in words instead; names of stitches stand in braces."""


MOVEMENTS: tuple[Movement, ...] = (
    Movement("slst", words=("into the stitch", "yarn over, through the stitch and the loop on the hook")),
    Movement("sc", 0, (2,)),
    Movement("esc", 0, (1, 2)),
    Movement("hdc", 1, (3,)),
    Movement("ehdc", 1, (1, 3)),
    Movement("dc", 1, (2, 2)),
    Movement("edc", 1, (1, 2, 2)),
    Movement(
        "ldc",
        words=(
            "down through the bar across the stitch before, yarn over, pull up a loop: two loops",
            "into the stitch, yarn over, pull up a loop: three loops",
            "yarn over, through two",
            "yarn over, through two",
        ),
    ),
    Movement(
        "ltr",
        words=(
            "down through the upper bar of the stitch before, yarn over, pull up a loop: two loops",
            "down through its lower bar, yarn over, pull up a loop: three loops",
            "into the stitch, yarn over, pull up a loop: four loops",
            "yarn over, through two",
            "yarn over, through two",
            "yarn over, through two",
        ),
    ),
    Movement("htr", 2, (2, 3)),
    Movement("tr", 2, (2, 2, 2)),
    Movement("dtr", 3, (2, 2, 2, 2)),
    Movement("trtr", 4, (2, 2, 2, 2, 2)),
    Movement("quadtr", 5, (2, 2, 2, 2, 2, 2)),
    Movement(
        "revsc",
        words=(
            "do not turn; work backwards, away from where you would go",
            "into the stitch behind the hook, yarn over, pull up a loop under the one on the hook: two loops",
            "yarn over, through two",
        ),
    ),
    Movement("spsc", 0, (2,), "into the place below that the pattern names", tall=True),
    Movement("spdc", 1, (2, 2), "into the place below that the pattern names", tall=True),
    Movement("fsc", 0, (1, 2), "into the chain at the foot of the stitch before, under two of its loops"),
    Movement("fhdc", 1, (1, 3), "into the chain at the foot of the stitch before, under two of its loops"),
    Movement("fdc", 1, (1, 2, 2), "into the chain at the foot of the stitch before, under two of its loops"),
    Movement(
        "bo",
        words=(
            "{dc} up to its last pull: two loops stay on the hook",
            "the same again in the same stitch, until it is as many as the pattern says, often five",
            "yarn over, through all loops: it bulges to the back",
        ),
    ),
    Movement(
        "puff",
        words=(
            "yarn over, into the stitch, yarn over, pull up a loop as tall as the row",
            "the same again in the same stitch, until it is as many as the pattern says, often three",
            "yarn over, through all loops",
            "chain one to close it, where the pattern says so",
        ),
    ),
    Movement(
        "pop",
        words=(
            "as many {dc} in one stitch as the pattern says, often five, each one whole",
            "take the hook out of its loop, and put it into the top of the first of them",
            "catch the loop again and pull it through: it stands out to the front",
        ),
    ),
    Movement(
        "cl",
        words=(
            "{dc} up to its last pull: two loops stay on the hook",
            "the same again where the pattern says, each one leaving a loop more",
            "yarn over, through all loops",
        ),
    ),
    Movement(
        "picot",
        words=(
            "chain as many as the pattern says, often three",
            "slip stitch into the first of those chains",
        ),
    ),
    Movement(
        "tile",
        words=(
            "slip stitch into the chain space of the tile below",
            "chain three: that is its first {dc}",
            "three {dc} in the same space",
        ),
    ),
    Movement("ddc", 1, (2, 2), "into the free front loop below that the pattern names"),
)
"""Every stitch of the table of stitches."""

BY_NAME: dict[str, Movement] = {row.name: row for row in MOVEMENTS}
MANY = 3
"""So many movements alike are told once, with how often."""
_NAMED = expression(r"\{(\w+)\}")
_LADDER = ("slst", "sc", "hdc", "dc", "tr", "dtr", "trtr", "quadtr")
"""Those that are also worked around a post, and several together."""
_POST = {
    "fp": "around the post of the stitch, in from the front and out to the front",
    "bp": "around the post of the stitch, in from the back and out to the back",
}


def loops_up(row: Movement) -> int:
    """Loops on the hook once one has been pulled up: the one that was there, the yarn-overs, and the new one.

    >>> loops_up(BY_NAME["dc"])
    3
    """
    return 2 + row.overs


def steps_of(name: str, uk: bool = False) -> tuple[str, ...]:
    """The movements of a stitch, one after another; none for a stitch that is in no row.

    >>> steps_of("dc")[2:]
    ('yarn over, pull up a loop: three loops', 'yarn over, through two', 'yarn over, through two')
    """
    return tuple(movement for clause in _clauses(name, uk) for movement in clause)


def told(name: str, uk: bool = False) -> str:
    """The movements of a stitch as one sentence behind its name; "" for a stitch that is in no row.

    >>> told("hdc")
    'Half double crochet: yarn over, into the stitch, yarn over, pull up a loop: three loops; yarn over, through three.'
    """
    clauses = _clauses(name, uk)
    if not clauses:
        return ""
    spoken: list[str] = []
    for words, alike in groupby(", ".join(clause) for clause in clauses):
        times = len(list(alike))
        spoken += [f"{words}, {_times(times)}"] if times >= MANY else [words] * times
    sentence = f"{said(name, uk)}: {'; '.join(spoken)}."
    return sentence[:1].upper() + sentence[1:]


def is_left_open(name: str) -> bool:
    """True for a stitch whose movements leave it to the pattern how often, and in what: a cluster, a bobble, a puff."""
    row = BY_NAME.get(name)
    return row is not None and any("the pattern says" in step for step in row.words)


@cache
def _clauses(name: str, uk: bool) -> tuple[tuple[str, ...], ...]:
    """The movements, those together that are one motion of the hand."""
    post, base, together = parts_of(name)
    row = BY_NAME.get(base)
    if row is None or (post or together > 1) and base not in _LADDER:
        return ()
    clauses = _together(row, post, together) if together > 1 else _plain(row, post)
    return tuple(tuple(_in_terms(step, uk) for step in clause) for clause in clauses)


def _plain(row: Movement, post: str) -> tuple[tuple[str, ...], ...]:
    if row.words:
        words = (row.words[0].replace("into the stitch", _POST[post]), *row.words[1:]) if post else row.words
        return tuple((word,) for word in words) if row.name != "slst" else (words,)
    return (_begun(row, post), *((f"yarn over, {_through(pull)}",) for pull in row.pulls))


def _begun(row: Movement, post: str) -> tuple[str, ...]:
    """Up to the loop that is pulled up: one motion."""
    over = () if row.overs == 0 else ("yarn over" if row.overs == 1 else f"yarn over {_times(row.overs)}",)
    tall = " as tall as this row" if row.tall else ""
    up = f"yarn over, pull up a loop{tall}: {spoken_number(loops_up(row))} loops"
    return (*over, _POST.get(post, row.into), up)


def _times(number: int) -> str:
    return "twice" if number == 2 else f"{spoken_number(number)} times"


def _through(loops: int) -> str:
    return f"through {spoken_number(loops)}"


def _together(row: Movement, post: str, many: int) -> tuple[tuple[str, ...], ...]:
    """Several stitches closed into one: each up to its last pull, then one pull through all."""
    kept = tuple((f"yarn over, {_through(pull)}",) for pull in row.pulls[:-1])
    each = row.pulls[-1] - 1 if row.pulls else 1
    loops = spoken_number(1 + many * each)
    rest = "stitch" if many == 2 else f"{spoken_number(many - 1)} stitches"
    again = f"the same in the next {rest}: {loops} loops"
    return (_begun(row, post), *kept, (again,), (f"yarn over, through all {loops}",))


def _in_terms(step: str, uk: bool) -> str:
    step = _NAMED.sub(lambda hit: said(hit[1], uk), step)
    return step.replace("yarn over", "yarn round hook") if uk else step
