"""What a maker can see of the work: typed values, and the lists they say or type them in.

Lists come in in the pattern's own terms ("dc, ch-2 sp, 7 dc", "12 dc, 10 ch-2 sp", "20"); names as the fabric has
them come out. A word that names nothing raises Unclear with a sentence for the maker, and nothing else is raised.
"""

import json
import re
from collections.abc import Mapping

from tracker.records import dataclass
from tracker.trade.numbers import number_of
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import parts_of, written

MOST = 100_000
"""No count is larger: no row is that wide."""


class Unclear(ValueError):
    """Words that name nothing a maker can see; says so in one sentence."""


@dataclass(frozen=True, slots=True)
class Tally:
    """What one row holds, as the maker counted it."""

    counts: tuple[tuple[str, int], ...] = ()
    """Names inside with how many; empty when only stitches were counted."""
    stitches: int | None = None
    """All stitches, spaces left out; None when they were counted by kind."""

    def shown(self, uk: bool) -> dict[str, int]:
        """As JSON has it, in the pattern's terms."""
        out = {} if self.stitches is None else {"stitches": self.stitches}
        return out | {written(name, uk): number for name, number in self.counts}


@dataclass(frozen=True, slots=True)
class Evidence:
    """Everything seen; None where nothing was said. All that is given must hold."""

    done: str | None = None
    """The last finished row: its index from 1 ("0" for none yet) or its label."""
    so_far: tuple[str, ...] | None = None
    """The row on the hook, from its start."""
    count: int | None = None
    """Stitches so far in the row on the hook, spaces left out."""
    last: tuple[str, ...] | None = None
    """The last few things worked in the row on the hook."""
    top: tuple[str, ...] | None = None
    """The whole top finished row, in the order worked."""
    top_counts: tuple[Tally, ...] = ()
    """What the top finished rows hold, newest last."""
    side: str | None = None
    """"RS" or "WS": the side that faces the maker."""
    above: tuple[int, str] | None = None
    """How many finished rows stand above the last row of a look: (5, "open") for "five rows above the open one".
    A look is "open" (has chain spaces), "solid" (has none) or the name of a stitch it holds."""

    corners: int | None = None
    """Corners so far in the row on the hook."""
    part: str | None = None
    """Name of the part it is; "" for one without a name."""
    fresh: bool = False
    """True when no finished row is below the one on the hook."""
    anywhere: bool = False
    """True when nothing said of the row on the hook means nothing; else it means that it has not begun."""

    @property
    def says_row(self) -> bool:
        """True when something was said of the finished rows."""
        return (
            self.done is not None or self.top is not None or bool(self.top_counts) or self.above is not None
        )

    @property
    def says_within(self) -> bool:
        """True when something was said of the row on the hook."""
        said = (self.so_far, self.count, self.last, self.corners)
        return any(one is not None for one in said)


_SPACE = re.compile(
    r"(?:(?P<many>\d+)\s+)?(?:ch(?:ain)?[\s-]*(?P<a>\d+)|(?P<b>\d+)[\s-]*ch(?:ain)?)[\s-]*(?:corner\s+)?"
    r"(?:(?:sp|space|lp|loop|arch|arche)s?)?\.?$"
)
_TIMES = re.compile(r"(?:(?P<many>\d+)\s*)?(?P<name>[^\d].*?)(?:\s*[x×*]\s*(?P<after>\d+))?$")
_STITCHES = ("st", "sts", "stitch", "stitches", "in all", "altogether")


def named(word: str, uk: bool = False, own: Mapping[str, tuple[str, ...]] | None = None) -> tuple[str, ...]:
    """What one name stands for, as names inside: one, or those of a special stitch that leaves several.

    >>> named("tr", uk=True), named("ch2"), named("sl st"), named("V-st", own={"v-st": ("dc", "ch-1 sp", "dc")})
    (('dc',), ('ch-2 sp',), ('slst',), ('dc', 'ch-1 sp', 'dc'))
    """
    text = re.sub(r"\s+", " ", word.strip().lower()).rstrip(".")
    if space := _SPACE.match(text):
        return (f"ch-{int(space['a'] or space['b'])} sp",)
    for form in (text, text.removesuffix("s"), text.removesuffix("es")):
        if own and form in own:
            return own[form]
    plain = re.sub(r"\bfront post\s*", "fp", re.sub(r"\bback post\s*", "bp", text))
    if found := stitch_named(plain, uk):
        return (own or {}).get(f"={found.name}", (found.name,))
    raise Unclear(
        f"“{word.strip()}” is not a stitch or space I know: say it as the pattern does, like “dc” or “ch-2 sp”."
    )


def _counted(item: str, uk: bool, own: Mapping[str, tuple[str, ...]] | None) -> tuple[int, tuple[str, ...]]:
    """How many, and of what; an empty name for stitches of any kind."""
    text = re.sub(r"\s+", " ", item.strip().lower())
    if (number := number_of(text)) is not None:
        return _sane(number), ()
    if space := _SPACE.match(text):
        many = int(space["many"] or 1)
        return _sane(many), (f"ch-{int(space['a'] or space['b'])} sp",)
    first, _, rest = text.partition(" ")
    if rest and not first[0].isdigit() and (number := number_of(first)) is not None:
        text = f"{number} {rest}"
    shape = _TIMES.match(text)
    if shape is None:
        raise Unclear(f"“{item.strip()}” is neither a number nor a stitch.")
    many = int(shape["many"] or shape["after"] or 1)
    if shape["name"].strip() in _STITCHES:
        return _sane(many), ()
    return _sane(many), named(shape["name"], uk, own)


def _sane(number: int) -> int:
    if number > MOST:
        raise Unclear(f"{number} is more than any row holds.")
    return number


def _items(text: str) -> list[str]:
    return [item for item in re.split(r",|\band\b|\bthen\b", text) if item.strip()]


def listed(text: str, uk: bool = False, own: Mapping[str, tuple[str, ...]] | None = None) -> tuple[str, ...]:
    """A list in working order, written out.

    >>> listed("dc, ch-2 sp, 3 dc"), listed("2 ch-1 sps and sl st")
    (('dc', 'ch-2 sp', 'dc', 'dc', 'dc'), ('ch-1 sp', 'ch-1 sp', 'slst'))
    """
    out: list[str] = []
    for item in _items(text):
        many, names = _counted(item, uk, own)
        if not names:
            raise Unclear(
                f"“{item.strip()}” does not say what was worked: say it with a stitch, like “3 dc”."
            )
        if len(out) + many * len(names) > MOST:
            raise Unclear("That is more than any row holds.")
        out.extend(names * many)
    return tuple(out)


def tallied(text: str, uk: bool = False, own: Mapping[str, tuple[str, ...]] | None = None) -> Tally:
    """A count of one row: "20", or by kind.

    >>> tallied("20"), tallied("12 dc, 10 ch-2 sps")
    (Tally(counts=(), stitches=20), Tally(counts=(('dc', 12), ('ch-2 sp', 10)), stitches=None))
    """
    if text.strip().startswith("{"):
        text = _from_json(text)
    counts: dict[str, int] = {}
    stitches: int | None = None
    for item in _items(text):
        many, names = _counted(item, uk, own)
        if not names:
            stitches = many
        for name in names:
            counts[name] = counts.get(name, 0) + many
    if stitches is None and not counts:
        raise Unclear("There is no count here: say “20”, or “12 dc, 10 ch-2 sp”.")
    return Tally(tuple(counts.items()), stitches)


def _from_json(text: str) -> str:
    try:
        read = json.loads(text)
        return ", ".join(f"{int(number)} {name}" for name, number in read.items())
    except (ValueError, TypeError, AttributeError) as fault:
        raise Unclear("That count cannot be read: say “20”, or “12 dc, 10 ch-2 sp”.") from fault


def tallies(
    text: str, uk: bool = False, own: Mapping[str, tuple[str, ...]] | None = None
) -> tuple[Tally, ...]:
    """Counts of several rows, split by semicolons, newest last."""
    return tuple(tallied(row, uk, own) for row in text.split(";") if row.strip())


_ABOVE = re.compile(
    r"(?P<rows>[\w\- ]+?)(?:\s+(?:rows?|rounds?|rnds?))?(?:\s+above)?(?:\s+the)?\s+(?P<look>\S+)$"
)


def rows_above(text: str, uk: bool = False) -> tuple[int, str]:
    """Rows above the last one that stands out, and what that one is.

    >>> rows_above("5 open"), rows_above("three rows above the solid one"), rows_above("2 tr", uk=True)
    ((5, 'open'), (3, 'solid'), (2, 'dc'))
    """
    words = re.sub(r"\s+", " ", text.strip().lower()).removesuffix(" one").removesuffix(" row")
    shape = _ABOVE.match(words)
    rows = number_of(shape["rows"]) if shape else None
    if shape is None or rows is None:
        raise Unclear(
            f"“{text.strip()}” is not so many rows above something: say “5 open”, “3 solid” or “2 bobble”."
        )
    look = shape["look"]
    return _sane(rows), look if look in ("open", "solid") else named(look, uk)[0]


def fits(tally: Tally, makes: Mapping[str, int], stitches: int, loosely: bool = False) -> bool:
    """True when a row holds what was counted.

    Loosely, spaces that were not mentioned may be there too, and decreases count as the stitch they look like.
    """
    if tally.stitches is not None and tally.stitches != stitches:
        return False
    if not tally.counts:
        return True
    told = {name: number for name, number in tally.counts if number}
    if tally.stitches is not None:
        return all(makes.get(name, 0) == number for name, number in told.items())
    if told == dict(makes):
        return True
    return loosely and told == alike(makes, told)


def alike(makes: Mapping[str, int], told: Mapping[str, int]) -> dict[str, int]:
    """Counts as one sees them who mentions no spaces, or does not tell a decrease from a stitch.

    >>> alike({"sc": 18, "sc2tog": 6}, {"sc": 24}), alike({"dc": 11, "ch-2 sp": 10}, {"dc": 11})
    ({'sc': 24}, {'dc': 11})
    """
    out: dict[str, int] = {}
    for name, number in makes.items():
        if name in told:
            out[name] = out.get(name, 0) + number
        elif not name.startswith("ch-"):
            post, base, together = parts_of(name)
            plain = post + base if together > 1 else name
            out[plain] = out.get(plain, 0) + number
    return out
