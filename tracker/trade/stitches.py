"""THE TABLE of stitches. A new stitch is one row here.

Names inside rowteller are US ones; `spellings` finds a row by any of its spellings. Yarn-overs, loops and turning
chains follow the Craft Yarn Council's list of abbreviations and the ladder printed in the *Handbook of Wool Knitting
and Crochet* (1918); how much yarn a stitch takes is common practice, no source.
"""

from functools import lru_cache

from tracker.expressions import expression
from tracker.records import dataclass
from tracker.trade.numbers import spoken_number


@dataclass(frozen=True, slots=True)
class Stitch:
    """One row of the table."""

    name: str
    """US abbreviation, the name used inside."""
    uk: str
    """UK abbreviation."""
    spoken: str
    """US name in words, singular."""
    spoken_uk: str
    aliases: tuple[str, ...] = ()
    """Other US spellings, lower case, without blanks, dots and hyphens."""
    aliases_uk: tuple[str, ...] = ()
    height: int = 0
    """Chains that reach as high as the stitch: its usual turning chain."""
    yarn_overs: int = 0
    """Yarn-overs before the hook goes in."""
    yarn: float = 1.0
    """Yarn used, in single crochets."""
    symbol: str = ""
    """Key of the chart symbol."""
    closes: bool = False
    """True for stitches that gather several loops or stitches into one top, made in one place."""


TABLE = (
    Stitch(
        "slst",
        "ss",
        "slip stitch",
        "slip stitch",
        ("ss", "slipst", "slstitch", "slipstitch", "sls", "slip"),
        ("slst", "slipst", "slipstitch"),
        0,
        0,
        0.5,
        "slst",
    ),
    Stitch(
        "sc",
        "dc",
        "single crochet",
        "double crochet",
        ("singlecrochet",),
        ("doublecrochet",),
        1,
        0,
        1.0,
        "sc",
    ),
    Stitch(
        "esc",
        "edc",
        "extended single crochet",
        "extended double crochet",
        ("exsc",),
        ("exdc",),
        2,
        0,
        1.3,
        "esc",
    ),
    Stitch(
        "hdc",
        "htr",
        "half double crochet",
        "half treble",
        ("halfdoublecrochet", "halfdouble", "halfdc"),
        ("halftreble", "halftreblecrochet", "halftr"),
        2,
        1,
        1.4,
        "hdc",
    ),
    Stitch(
        "ehdc",
        "ehtr",
        "extended half double crochet",
        "extended half treble",
        ("exhdc",),
        ("exhtr",),
        3,
        1,
        1.6,
        "hdc",
    ),
    Stitch(
        "dc",
        "tr",
        "double crochet",
        "treble",
        ("doublecrochet",),
        ("treble", "treblecrochet"),
        3,
        1,
        1.9,
        "dc",
    ),
    Stitch(
        "edc", "etr", "extended double crochet", "extended treble", ("exdc",), ("extr",), 4, 1, 2.2, "edc"
    ),
    Stitch(
        "ldc", "ltr", "linked double crochet", "linked treble", ("linkeddc",), ("linkedtr",), 3, 0, 1.9, "dc"
    ),
    Stitch(
        "ltr", "ldtr", "linked treble crochet", "linked double treble", ("linkedtr",), (), 4, 0, 2.4, "tr"
    ),
    Stitch(
        "htr",
        "hdtr",
        "half treble crochet",
        "half double treble",
        ("halftreble", "htrc"),
        (),
        4,
        2,
        2.2,
        "tr",
    ),
    Stitch(
        "tr",
        "dtr",
        "treble crochet",
        "double treble",
        ("trc", "tc", "treblecrochet", "triplecrochet", "treble"),
        ("doubletreble",),
        4,
        2,
        2.5,
        "tr",
    ),
    Stitch(
        "dtr",
        "trtr",
        "double treble",
        "triple treble",
        ("doubletreble", "doubletreblecrochet", "dtrc"),
        ("ttr", "tripletreble"),
        5,
        3,
        3.1,
        "dtr",
    ),
    Stitch(
        "trtr",
        "qtr",
        "triple treble",
        "quadruple treble",
        ("ttr", "tripletreble"),
        ("quadtr", "quadrupletreble"),
        6,
        4,
        3.7,
        "trtr",
    ),
    Stitch(
        "quadtr",
        "quintr",
        "quadruple treble",
        "quintuple treble",
        ("qtr", "quadrupletreble"),
        (),
        7,
        5,
        4.3,
        "trtr",
    ),
    Stitch(
        "revsc",
        "revdc",
        "reverse single crochet",
        "reverse double crochet",
        ("reversesc", "crab", "crabst", "crabstitch", "reversesinglecrochet", "rsc"),
        ("reversedc", "crabst", "crabstitch"),
        1,
        0,
        1.2,
        "revsc",
    ),
    Stitch(
        "spsc",
        "spdc",
        "spike single crochet",
        "spike double crochet",
        ("spikesc", "spikest", "spikestitch", "spike", "spst", "longsc", "lsc"),
        ("spikedc", "spikest", "spst"),
        1,
        0,
        1.6,
        "spsc",
    ),
    Stitch(
        "spdc",
        "sptr",
        "spike double crochet",
        "spike treble",
        ("spikedc", "longdc", "droppeddc"),
        ("spiketr",),
        3,
        1,
        2.4,
        "dc",
    ),
    Stitch(
        "fsc",
        "fdc",
        "foundation single crochet",
        "foundation double crochet",
        ("foundationsc",),
        ("foundationdc",),
        1,
        0,
        1.5,
        "sc",
    ),
    Stitch(
        "fhdc",
        "fhtr",
        "foundation half double crochet",
        "foundation half treble",
        ("foundationhdc",),
        ("foundationhtr",),
        2,
        1,
        1.9,
        "hdc",
    ),
    Stitch(
        "fdc",
        "ftr",
        "foundation double crochet",
        "foundation treble",
        ("foundationdc",),
        ("foundationtr",),
        3,
        1,
        2.4,
        "dc",
    ),
    Stitch(
        "bo",
        "bo",
        "bobble",
        "bobble",
        ("bobble", "bob", "bobblest", "bobblestitch", "mb"),
        ("bobble", "bob", "mb"),
        3,
        1,
        6.0,
        "bo",
        True,
    ),
    Stitch(
        "puff",
        "puff",
        "puff stitch",
        "puff stitch",
        ("puffst", "puffstitch", "ps", "pf", "puffs"),
        ("puffst", "puffstitch", "ps"),
        2,
        1,
        5.0,
        "puff",
        True,
    ),
    Stitch(
        "pop",
        "pop",
        "popcorn",
        "popcorn",
        ("popcorn", "pc", "popcornst", "popcornstitch", "pcst"),
        ("popcorn", "pc", "popcornst"),
        3,
        1,
        8.0,
        "pop",
        True,
    ),
    Stitch("cl", "cl", "cluster", "cluster", ("cluster", "clust"), ("cluster",), 3, 1, 5.0, "cl", True),
    Stitch("picot", "picot", "picot", "picot", ("p", "pic"), ("p", "pic"), 0, 0, 2.0, "picot"),
    Stitch("tile", "tile", "tile", "tile", ("block",), ("block",), 3, 1, 6.0, "tile"),
    Stitch("ddc", "dtr", "drop-down double crochet", "drop-down treble", (), (), 3, 1, 2.4, "dc"),
)

STITCHES: dict[str, Stitch] = {row.name: row for row in TABLE}
"""Every plain stitch by its name inside."""

_PARTS = expression(r"(?P<post>fp|bp)?(?P<base>[a-z]+?)(?:(?P<n>\d+)tog)?$")


@lru_cache(maxsize=1024)
def parts_of(name: str) -> tuple[str, str, int]:
    """Post ("fp", "bp" or ""), plain stitch and how many are worked together, of a name inside.

    >>> parts_of("fpdc2tog"), parts_of("sc")
    (('fp', 'dc', 2), ('', 'sc', 1))
    """
    if name in STITCHES:
        return "", name, 1
    found = _PARTS.match(name)
    if found is None:
        return "", name, 1
    return found["post"] or "", found["base"], int(found["n"] or 1)


def by_chains(chains: int, otherwise: str = "dc") -> str:
    """The stitch that a turning chain of so many chains stands for by the usual ladder.

    >>> by_chains(3), by_chains(4), by_chains(9, "tr")
    ('dc', 'tr', 'tr')
    """
    return {1: "sc", 2: "hdc", 3: "dc", 4: "tr", 5: "dtr", 6: "trtr"}.get(chains, otherwise)


def height_of(name: str) -> int:
    """The usual turning chain of a stitch, in chains; 1 for one not in the table."""
    row = STITCHES.get(parts_of(name)[1])
    return row.height if row else 1


@lru_cache(maxsize=1024)
def written(name: str, uk: bool = False) -> str:
    """The abbreviation of a stitch in US or UK terms; spaces and names of the pattern's own stay as they are."""
    post, base, together = parts_of(name)
    row = STITCHES.get(base)
    if row is None:
        return name
    return post + (row.uk if uk else row.name) + (f"{together}tog" if together > 1 else "")


@lru_cache(maxsize=1024)
def said(name: str, uk: bool = False) -> str:
    """A stitch as it is said, singular: "front post double crochet", "two double crochet together"."""
    post, base, together = parts_of(name)
    row = STITCHES.get(base)
    words = (row.spoken_uk if uk else row.spoken) if row else name
    if post:
        words = {"fp": "front post ", "bp": "back post "}[post] + words
    return f"{spoken_number(together)} {words} together" if together > 1 else words
