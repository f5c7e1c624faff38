"""Groups worked in one place, made even; repeats given what they lack; when words are likelier wrong than a count.

A row comes in whose count differs; edits go out, likeliest first. A group is nearly always the same from both ends, and
one slip in it counts once for every place that it is worked in. A repeat nearly always works a stitch, and passes over
as many as it makes chains for.
"""

import re
from collections.abc import Iterator
from itertools import islice

from tracker.load import Loaded
from tracker.mending.kinds.changes import lacking, phrases_of
from tracker.mending.kinds.numbers import worked
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Chain, Group, Repeat, Skip, Work
from tracker.problems import Fix, Span
from tracker.trade.stitches import STITCHES

_GROUP = re.compile(r"[(\[]([^()\[\]]*)[)\]]")
_PART = re.compile(
    r"(?P<many>\d{1,2})\s(?P<name>sc|hdc|dc|tr|htr|dtr)\b|\bch\s?\d\b|\b\d\s?ch\b|\b(?:sc|hdc|dc|tr|htr|dtr)\b"
)
_FAR = 6
"""So many more or fewer are no slip in a count, save where a figure of it is another."""


def uneven_groups(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """ "(2 dc, ch 2, 3 dc) in next sp": one of the numbers made the other, in both ways."""
    start = row.label_span.end
    for hit in _GROUP.finditer(loaded.source.text, start, row.span.end):
        parts = list(_PART.finditer(hit[1]))
        if len(parts) < 3 or any(
            one["name"] != other["name"] for one, other in zip(parts, reversed(parts), strict=True)
        ):
            continue
        # behind the chain that is its first stitch a group begins with one fewer
        before = loaded.source.text[start : hit.start()]
        begun = int(_BEGUN.search(before) is not None and not set("*[") & set(before))
        halves = zip(parts[: len(parts) // 2], reversed(parts), strict=False)
        pairs = [
            (one, other, begun if k == 0 else 0)
            for k, (one, other) in enumerate(halves)
            if one["many"]
            and other["many"]
            and int(one["many"]) + (begun if k == 0 else 0) != int(other["many"])
        ]
        if len(pairs) != 1:
            continue
        first, last, fewer = pairs[0]
        for wrong, value in ((last, int(first["many"]) + fewer), (first, int(last["many"]) - fewer)):
            at = hit.start(1) + wrong.start("many")
            if value > 0:
                yield Fix(Span(at, at + len(wrong["many"])), str(value))


_BEGUN = re.compile(r"\b(?:ch\s?[2-9]|[2-9]\s?ch)\b(?:\s*\([^()]{0,30}\))?,\s*$", re.IGNORECASE)


def far_from_stated(loaded: Loaded, row: Row) -> bool:
    """True where a row makes so many more or fewer than its count that this is hardly a slip of one figure."""
    for placed in worked(loaded, row)[:1]:
        made = placed.worked
        for stated in row.stated:
            for name, number in stated.counts:
                if name not in ("", ANY) and name not in STITCHES:
                    continue
                there = made.makes.get(name, 0) if name in STITCHES else made.stitches
                if abs(there - number) >= _FAR and not _one_figure(str(there), str(number)):
                    return True
    return False


def _one_figure(one: str, other: str) -> bool:
    """True for numbers that differ in one figure, or in the order of two."""
    same = len(one) == len(other)
    return same and (
        sum(a != b for a, b in zip(one, other, strict=True)) == 1 or sorted(one) == sorted(other)
    )


_MOST = 8
"""Phrases that are put into a repeat, or told again."""
_NOUN = r"(?:sts?|sc|hdc|dc|tr|htr|chs?|ch-\d (?:sp|lp)|\d-ch (?:sp|lp))"
_SKIP = re.compile(rf"\b(?:sk|skip|miss)\s(?:the\s)?(?:next\s)?(?:\d+\s)?{_NOUN}(?![\w-])", re.IGNORECASE)


def repeats_lacking(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A stitch put into a repeat that works none; a skip, or the chain of a space, into one that lacks it."""
    text = loaded.source.text[:100_000]
    for item in row.items:
        if not isinstance(item, Repeat) or not item.items:
            continue
        inside = item.items
        end = inside[-1].span.end
        works = any(isinstance(one, (Work, Group, Repeat)) for one in inside)
        chains = [one for one in inside if isinstance(one, Chain)]
        skips = any(isinstance(one, Skip) for one in inside)
        found: dict[Fix, None] = {}
        if not works:
            own = re.findall(
                rf"\b(?:sk|skip|miss)\s(?:next\s)?(?:\d+\s)?({_NOUN})", text[item.span.start : end]
            )
            for name in lacking(loaded, row):
                lone = "1 " if re.search(rf"\b1 {name}\b", text) else ""
                into = "into" if re.search(rf"\b{name} into\b", text) else "in"
                told = [
                    hit.group()
                    for hit in re.finditer(
                        rf"(?:\b1 )?(?<![-\w]){name} in(?:to)? (?:the )?next {_NOUN}(?![\w-])", text
                    )
                ]
                same = [words for words in told if words.split()[-1] in own]
                plain = [f"{lone}{name} {into} next {noun.removesuffix('s')}" for noun in own]
                for words in dict.fromkeys((*same, *plain, *told)):
                    found[Fix(Span(end, end), f", {words}")] = None
        elif chains and not skips:
            told = list(dict.fromkeys(hit.group() for hit in _SKIP.finditer(text)))
            skip = next((word for word in ("sk", "miss", "skip") if re.search(rf"\b{word}\b", text)), "skip")
            noun = re.search(rf"\b(?:in|into) (?:the )?next ({_NOUN})", text[item.span.start : end])
            if noun is not None and not told:
                many = chains[0].count
                told.append(f"{skip} next {noun[1]}" if many == 1 else f"{skip} next {many} {noun[1]}s")
            for words in told[:3]:
                for chain in chains:
                    found[Fix(Span(chain.span.end, chain.span.end), f", {words[0].lower()}{words[1:]}")] = (
                        None
                    )
        elif not chains and skips:
            for stated in row.stated:
                for name, _ in stated.counts:
                    length = re.fullmatch(r"ch-(\d+) sp", name)
                    for one in inside if length is not None else ():
                        words = f"{length[1]} ch" if loaded.pattern.uk else f"ch {length[1]}"  # type: ignore[index]
                        found[Fix(Span(one.span.start, one.span.start), f"{words}, ")] = None
                        found[Fix(Span(end, end), f", {words}")] = None
        yield from islice(found, _MOST)


def own_again(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A phrase of the row told in another place of it too: "2 sc in next st, sc in next 5" has one more of either."""
    own = phrases_of(loaded, row)
    worked_in = [words.lstrip("* ") for words, _ in own if re.search(r"\b(?:in|into)\s|2tog\b", words)]
    found: dict[Fix, None] = {}
    for words in dict.fromkeys(worked_in):
        for here, place in own:
            if words not in here and not re.search(r"\b(?:rep|repeat|counts?|join)\b", here):
                found[Fix(Span(place.end, place.end), f", {words}")] = None
    yield from islice(found, _MOST)
