"""Items as they are written: the mirror of reading.

Items come in, words go out. Every wording is read back before it is used; where none of the usual ones says the same,
the designer's own words stand.
"""

from collections.abc import Iterator, Sequence

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.row.sentences import read_row
from tracker.notation.scan import scan
from tracker.notation.tree import (
    LAYERS,
    SPREAD,
    Chain,
    Ending,
    Group,
    Item,
    Join,
    Mark,
    Repeat,
    Say,
    Skip,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)
from tracker.problems import Span
from tracker.records import replace
from tracker.trade.stitches import parts_of
from tracker.writing.bare import Bare, bare
from tracker.writing.places import kind_words, place_words, stop_words
from tracker.writing.words import Tongue, own_words

_PLAIN = (Work, Chain, Skip, Turn, Turning, Join, Mark)
"""Items that are wholly told by what was read of them."""
_BRACKETS = (("(", ")"), ("[", "]"), ("{", "}"))


class Writer:
    """Writes the items of one pattern; remembers what it has read back."""

    def __init__(self, tongue: Tongue) -> None:
        self.tongue = tongue
        self.known: dict[tuple[Bare, bool], str] = {}
        self.around = False
        """True in a round: "around" instead of "across"."""

    def items(self, items: Sequence[Item]) -> str:
        """Items one after another."""
        out = ""
        for k, item in enumerate(items):
            before = items[k - 1] if k else None
            done = next((one for one in reversed(items[:k]) if not isinstance(one, Turning)), None)
            if isinstance(before, Travel) and item.span.start < before.span.end:
                continue  # "join B with a standing sc in first st" is one phrase and two items
            after = items[k + 1] if k + 1 < len(items) else None
            if isinstance(after, Say) and after.span.start <= item.span.start < after.span.end:
                continue  # "do not turn at the end" is a deed and a remark in one
            words = self.item(item, done)
            told = isinstance(item, Turning) and isinstance(before, (Chain, Turning, Work, Join, Turn))
            goes_on = isinstance(item, Work) and item.joined and words.startswith("and ")
            if told or goes_on or isinstance(item, Say) and words.startswith(("(", "[")):
                out += f" {words}"
            elif not out:
                out = words
            else:
                # a sentence of its own stays one
                out += f" {words}" if out.endswith((".", "!", "?")) else f", {words}"
        return out

    def item(self, item: Item, before: Item | None = None) -> str:
        """One item; an item that goes on from the one before it is written as going on."""
        if isinstance(item, Work) and item.joined:
            if isinstance(before, Work) and before.stitch == item.stitch and before.count == item.count:
                changed = next(self._changes(item), "") if item.excepting else ""
                return f"and in {next(place_words(self.tongue, item.where, self.around), '')}{changed}"
            item = replace(item, joined=False)
        if isinstance(item, (Group, Repeat)) or not isinstance(item, _PLAIN):
            # what is told in the designer's words differs where the reading does not: "with A", "with B"
            return self._first_that_reads(item)
        key = (bare(item), self.around)
        known = self.known.get(key)
        if known is not None:
            return known
        words = self._first_that_reads(item)
        self.known[key] = words
        return words

    def _first_that_reads(self, item: Item) -> str:
        wanted = bare((item,))
        for words in self._wordings(item):
            if words and self.reads_as(words) == wanted:
                return words
        return own_words(self.tongue, item.span).strip(" ,;")

    def reads_as(self, words: str) -> Bare:
        """What words say when they are read as part of a row."""
        context = self.tongue.context
        context.uk, was = self.tongue.uk, context.uk
        told = len(context.problems)
        base = context.base
        try:
            return bare(tuple(read_row(Cursor(scan(words), context)).items))
        finally:
            context.uk, context.base = was, base
            del context.problems[told:]

    # -- wordings, the usual one first

    def _wordings(self, item: Item) -> Iterator[str]:
        match item:
            case Work():
                yield from self._work(item)
            case Chain():
                yield f"ch {item.count}"
            case Skip():
                for place in place_words(self.tongue, item.where, self.around):
                    yield f"{self.tongue.skip} {place.removeprefix('each of ')}"
                    yield f"{self.tongue.skip} {place.removeprefix('next ')}"
            case Group():
                yield from self._group(item)
            case Repeat():
                yield from self._repeat(item)
            case Turn():
                yield "turn" if item.turned else "do not turn"
            case Join():
                yield from self._join(item)
            case Turning():
                yield from self._turning(item)
            case Mark():
                yield item.sign
            case _:
                return

    def _work(self, item: Work) -> Iterator[str]:
        name, where = self.tongue.name(item.stitch), item.where
        if item.apart:
            yield from self._apart(item)
        count = f"{item.count} " if item.count > 1 else ""
        if item.excepting:
            for words in self._work(replace(item, excepting=())):
                yield from (words + change for change in self._changes(item))
            return
        if where.which is Which.STRAIGHT:
            if where.loop in ("back", "front"):
                loop = "blo" if where.loop == "back" else "flo"
                yield f"{count}{name} in {loop}"
                yield f"{count}{name}-{loop}"
            yield f"{count}{name}"
            yield f"{name} {item.count}"
            return
        if where.loop == LAYERS and where.stop is not None:
            yield f"{count}{name} through both layers {stop_words(self.tongue, where.stop, self.around)}"
            return
        gathers = parts_of(item.stitch)[2]
        for place in place_words(self.tongue, where, self.around):
            if where.around:
                yield f"{count}{name} around {place}"
            if (
                gathers > 1
                and where.which in (Which.NEXT, Which.FIRST, Which.LAST)
                and where.many == 1
                and len(where.kinds) == 1
            ):
                many = replace(where, many=gathers)
                for wide in place_words(self.tongue, many, self.around):
                    yield f"{name} over {wide.removeprefix('each of ')}"
            yield f"{count}{name} in {place}"
        if where.which is Which.EACH and where.stop is not None:
            if where.nth == SPREAD:
                yield f"{count}{name} evenly {stop_words(self.tongue, where.stop, self.around)}"
            yield f"{count}{name} {stop_words(self.tongue, where.stop, self.around)}"
        if where.which is Which.NEXT and not where.kinds:
            yield f"{name} {where.many}"
            yield f"{name} {where.many} times"
            yield f"{item.count * where.many} {name}"

    def _apart(self, item: Work) -> Iterator[str]:
        """ "3 sc dec", which may be one thing or two: it stays what it was."""
        first = item.apart[0]
        times = f" x{first.times}" if isinstance(first, Repeat) else ""
        plain = first.items[0] if isinstance(first, Repeat) else first
        if isinstance(plain, Work):
            how = "dec" if parts_of(item.stitch)[2] > 1 else "inc"
            count = f"{plain.count} " if plain.count > 1 else ""
            yield f"{count}{self.tongue.name(plain.stitch)} {how}{times}"

    def _changes(self, item: Work) -> Iterator[str]:
        """What an "each" does otherwise at some of its places: ", working 3 sc in each corner"."""
        plain, grouped = [], []
        for each in item.excepting:
            places = " and ".join(kind_words(self.tongue, kind) for kind in each.kinds)
            inside = self.items(each.items)
            plain.append(f"{inside if len(each.items) == 1 else f'({inside})'} in each {places}")
            grouped.append(f"({inside}) in each {places}")
        for changes in (plain, grouped):
            for lead in (", working ", ", ", " and "):
                for end in ("", " around", " across"):
                    yield lead + " and ".join(changes) + end

    def _group(self, item: Group) -> Iterator[str]:
        inside = self.items(item.items)
        opens, closes = _BRACKETS[min(2, _depth(item.items))]
        for place in place_words(self.tongue, item.where, self.around):
            if item.name:
                yield f"{self.tongue.name(item.name)} in {place}"
            if item.loose:
                yield f"{inside} in {place}"
                continue
            yield f"{opens}{inside}{closes} in {place}"
        if item.name:
            yield self.tongue.name(item.name)

    def _repeat(self, item: Repeat) -> Iterator[str]:
        inside = self.items(item.items)
        ending = self._ending(item.ending, item.span) if item.ending is not None else ""
        if item.star:
            sign = "*" * (1 + _stars(item.items))
            yield f"{sign}{inside}; rep from {sign} {self._often(item)}{ending}"
            return
        opens, closes = _BRACKETS[min(2, _depth(item.items))]
        if item.loose and item.times is not None:
            yield f"{inside} x {item.times}"
        if item.times is None:
            yield f"{opens}{inside}{closes} {self._often(item)}{ending}"
        elif item.times == 2:
            yield f"{opens}{inside}{closes} twice{ending}"
        yield f"{opens}{inside}{closes} {item.times} times{ending}"

    def _often(self, item: Repeat) -> str:
        if item.further is not None:
            return {1: "once", 2: "twice"}.get(item.further, f"{item.further} times")
        if item.times is not None:
            more = item.times - 1
            return "once more" if more == 1 else f"{more} more times"
        return stop_words(self.tongue, item.stop, self.around) if item.stop else "across"

    def _ending(self, ending: Ending, within: Span) -> str:
        """What changes in the last pass, with the comma before it."""
        inside = self.items(ending.items)
        if ending.how == "omit":
            return f", omitting last {inside}"
        if ending.how == "with":
            return f", ending last rep with {inside}"
        if ending.how == "ending":
            return f", ending with {inside}"
        if ending.how == "at":
            return f", ending last rep at {inside}"
        if ending.how == "landing" and ending.where is not None:
            for place in place_words(self.tongue, ending.where, self.around):
                return f", working last st in {place}"
        return ", " + own_words(self.tongue, ending.span).strip(" ,;")

    def _join(self, item: Join) -> Iterator[str]:
        if item.stitch == "magic":
            yield "make a magic ring"
            return
        if item.where is None:
            yield "join"
            yield f"join with {self.tongue.name(item.stitch)}"
            return
        if item.where.which is Which.RING:
            yield f"join with {self.tongue.name('slst')} to form ring"
            return
        for place in place_words(self.tongue, item.where, self.around):
            yield f"join with {self.tongue.name(item.stitch)} in {place}"

    def _turning(self, item: Turning) -> Iterator[str]:
        always = " here and throughout" if item.throughout else ""
        if not item.counts:
            yield f"(does not count as a st{always})"
            return
        if item.more:
            names = [
                f"ch {name[2:]}" if name.startswith("sp") else self.tongue.name(name) for name in item.more
            ]
            yield f"(counts as {', '.join((self.tongue.name(item.as_stitch or 'st'), *names))}{always})"
        name = self.tongue.name(item.as_stitch) if item.as_stitch else "a st"
        yield f"(counts as {name}{f' and ch-{item.space} sp' if item.space else ''}{always})"
        yield f"(counts as {name}{f', ch {item.space}' if item.space else ''}{always})"


def _depth(items: Sequence[Item]) -> int:
    """How many brackets within brackets items are written with."""
    deepest = 0
    for item in items:
        if isinstance(item, Group):
            deepest = max(deepest, 1 + _depth(item.items) if not item.name else 0)
        elif isinstance(item, Repeat):
            deepest = max(deepest, _depth(item.items) + (not item.star))
        elif isinstance(item, Turning):
            deepest = max(deepest, 1)
    return deepest


def _stars(items: Sequence[Item]) -> int:
    """How many signs the stars and marks within items take up."""
    longest = 0
    for item in items:
        if isinstance(item, (Group, Repeat)):
            longest = max(longest, _stars(item.items) + (isinstance(item, Repeat) and item.star))
    return longest


__all__ = ["Where", "Writer"]
