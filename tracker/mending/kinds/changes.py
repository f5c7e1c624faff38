"""Stitches put right: of another kind, an increase or a decrease left out or put in, a phrase left out.

A row comes in; edits go out, likeliest first. What is put in is told as the pattern tells it elsewhere.
"""

import re
from collections.abc import Iterator
from itertools import islice, pairwise

from tracker.load import Loaded
from tracker.mending.kinds.numbers import worked
from tracker.notation.pattern import Row
from tracker.notation.tree import ANY, Chain, Group, Item, Repeat, Skip, Turn, Turning, Which, Work
from tracker.problems import Fix, Span
from tracker.trade.stitches import STITCHES, written

_MOST = 14
"""Phrases that are put in, at most, in one place."""
_SKIPS = 8
"""Places in which what a row passes over elsewhere is put in."""
_ROWS = 200
"""Rows whose phrases are looked at."""
_SHORT = 60
"""Letters of a phrase that is put in."""
_TOGETHER = re.compile(
    r"\b(?P<name>sc|hdc|dc|tr|htr)2tog\b(?:\s+(?:over|in|across)\s+(?:the\s+)?next\s+2\s+\w+)?"
)
_DOUBLED = re.compile(r"\b2\s+(?=(?:sc|hdc|dc|tr|htr)\s+(?:in|into)\b)")


def once_a_pass(loaded: Loaded, row: Row) -> bool:
    """True where a row is off by so many stitches that one in every pass of a repeat would make it."""
    for placed in worked(loaded, row)[:1]:
        made = placed.worked
        passes = {all_of for step in made.steps for _, _, all_of in step.path if all_of > 1}
        used = {place for element in made.elements for place in element.into}
        off = {sum(e.is_stitch for e in made.below) - len(used)}
        for stated in row.stated:
            for name, number in stated.counts:
                off.add(number - made.makes.get(name, made.stitches if name in ("", ANY) else number))
        return any(number and number % many == 0 for number in off for many in passes)
    return False


def other_kinds(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A stitch of which the count has more, in place of one of which it has fewer than were made."""
    made: dict[str, int] = {}
    for placed in worked(loaded, row)[:1]:
        made = placed.worked.makes
    told = {name: number for stated in row.stated for name, number in stated.counts if name in STITCHES}
    uk = loaded.pattern.uk
    lacking = [written(name, uk) for name, number in told.items() if made.get(name, 0) < number]
    spare = [
        written(name, uk) for name, number in made.items() if name in STITCHES and told.get(name, 0) < number
    ]
    start, end = _body(row)
    text = loaded.source.text
    for wrong in spare:
        called = r"(?:sl\s?st|ss|slst)" if wrong in ("slst", "ss") else wrong
        for hit in re.finditer(rf"(?<![\w-]){called}(?![\w-])", text[start:end], re.IGNORECASE):
            if re.search(
                r"\b(?:next|each|first|last|same|of)(?:\s+\d+)?\s+$", text[start : start + hit.start()]
            ):
                continue  # what is worked into, and not what is worked
            for right in lacking:
                name = right.capitalize() if hit.group()[0].isupper() else right
                yield Fix(Span(start + hit.start(), start + hit.end()), name)


def stands_alone(loaded: Loaded, row: Row) -> bool:
    """True where a row has the only decrease of the pattern: it may have no business there."""
    here = _TOGETHER.findall(loaded.source.text, *_body(row))
    return len(here) == 1 == len(_TOGETHER.findall(loaded.source.text[:100_000]))


def changes_put_in(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A plain stitch in place of an increase or a decrease that should not be there."""
    start, end = _body(row)
    text = loaded.source.text
    lone = re.search(r"\b1\s+(?:sc|hdc|dc|tr|htr)\b", text[:100_000]) is None
    for hit in _TOGETHER.finditer(text, start, end):
        nouns = re.findall(rf"\b{hit['name']} in next (\w+)", text[start:end] + text[:100_000])
        nouns = [*_below(loaded, row, text[start:end]), *(n for n in nouns if not n.isdigit()), "st"]
        for noun in dict.fromkeys(nouns):
            yield Fix(Span(hit.start(), hit.end()), f"{hit['name']} in next {noun}")
    if lone:
        for hit in _DOUBLED.finditer(text, start, end):
            yield Fix(Span(hit.start(), hit.end()), "")


def _below(loaded: Loaded, row: Row, words: str) -> list[str]:
    """What a row calls what it works into, as far as that stands below it."""
    there = {e.name for placed in worked(loaded, row)[:1] for e in placed.worked.below}
    names = {written(name, loaded.pattern.uk) for name in there if name in STITCHES}
    called = re.findall(
        rf"\b(?:next|first|last|each|sk|skip|miss)\s(?:next\s)?(?:\d+\s)?({_NOUNS})\b", words, re.IGNORECASE
    )
    return [noun for noun in dict.fromkeys(called) if noun in names]


def left_out(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A phrase that other rows have between the same words, or at their beginning or end, put in; or one like it."""
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row) and block.span != row.span]
    own = phrases_of(loaded, row)
    others = [phrases_of(loaded, other) for other in rows[:_ROWS]]
    found: dict[Fix, None] = dict.fromkeys((*_mirrored(loaded, row, own), *_chain_lacking(loaded, row)))
    text = loaded.source.text
    for exactly in (True, False):
        for phrases in others:
            for (before, _), (phrase, _), (behind, _) in zip(phrases, phrases[1:], phrases[2:], strict=False):
                for (here, place), (after, then) in pairwise(own):
                    if _alike(here, after, exactly) != _alike(before, behind, exactly):
                        continue
                    opened = re.search(r"[*(\[]\s*$", text[place.end : then.start])
                    for words in (phrase,) if exactly else _one_more_or_fewer(phrase):
                        if opened is not None:
                            found[Fix(Span(then.start, then.start), f"{words}, ")] = None
                        found[Fix(Span(place.end, place.end), f", {words}")] = None
    lead, last = _edges(row)
    told = [phrase for phrases in others for phrase, _ in phrases if _OF_AN_EDGE.match(phrase)]
    for phrase in dict.fromkeys((*_like(loaded, row), *told)):
        for name in lacking(loaded, row):
            words = _OF_AN_EDGE.sub(rf"\g<many>{name} \g<where>", phrase)
            at = lead if " first " in words else last
            if at:
                found[Fix(Span(at, at), f", {words}")] = None
    yield from islice(found, _MOST)
    yield from islice((fix for fix in _skips_again(own) if fix not in found), _SKIPS)


def _chain_lacking(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """The chain of a space that the count has more of than the row makes, behind all that it works."""
    made: dict[str, int] = {}
    for placed in worked(loaded, row)[:1]:
        made = placed.worked.makes
    _, last = _edges(row)
    for stated in row.stated:
        for name, number in stated.counts:
            chains = re.fullmatch(r"ch-(\d+) sp", name)
            if chains is not None and made.get(name, 0) == number - 1:
                words = f"{chains[1]} ch" if loaded.pattern.uk else f"ch {chains[1]}"
                yield Fix(Span(last, last), f", {words}")


def _skips_again(own: list[tuple[str, Span]]) -> Iterator[Fix]:
    """What a row passes over at one side of a stitch, passed over at its other side too."""
    skips = [phrase for phrase, _ in own if _SKIP.match(phrase.lstrip("* "))]
    for words in dict.fromkeys(phrase.lstrip("* ") for phrase in skips):
        for (here, place), (after, _) in pairwise(own):
            if not _SKIP.match(here.lstrip("* ")) and not _SKIP.match(after):
                yield Fix(Span(place.end, place.end), f", {words[0].lower()}{words[1:]}")


_SKIP = re.compile(r"(?:sk|skip|miss)\b", re.IGNORECASE)


def _alike(one: str, other: str, exactly: bool) -> tuple[str, str]:
    """Two phrases as they are compared; their numbers left out where they need not be the same."""
    if exactly:
        return _plain(one), _plain(other)
    return re.sub(r"\d+", "#", _plain(one)), re.sub(r"\d+", "#", _plain(other))


def _one_more_or_fewer(phrase: str) -> Iterator[str]:
    """A phrase, and with its last number one more or fewer, as rows that grow tell it."""
    hits = list(re.finditer(r"\d+", phrase))
    yield phrase
    for step in (1, -1) if hits else ():
        value = int(hits[-1].group()) + step
        if value > 1:
            yield f"{phrase[: hits[-1].start()]}{value}{phrase[hits[-1].end() :]}"


def _mirrored(loaded: Loaded, row: Row, own: list[tuple[str, Span]]) -> Iterator[Fix]:
    """What a row begins with put at its end, and the other way about: "2 sc in first sc, …, 2 sc in last sc"."""
    lead, last = _edges(row)
    phrases = [phrase for phrase, _ in own]
    for phrase in phrases:
        if len(phrase) > _SHORT or not re.search(r"\b(?:in|into|over)\b", phrase):
            continue
        for this, that, at in (("first", "last", last), ("last", "first", lead)):
            other = re.sub(rf"\b{this}\b", that, phrase)
            if other != phrase and at and other.lower() not in map(str.lower, phrases):
                yield Fix(Span(at, at), f", {other[0].lower()}{other[1:]}")


_OF_AN_EDGE = re.compile(
    r"(?P<many>(?:\d\s?)?)(?:sc|hdc|dc|tr|htr|dtr)\s(?P<where>(?:in|into)\s(?:(?:each\sof\s)?(?:the\s)?(?:first|last|next)|top)\b.*)$"
)
""" "sc in last st", "1 tr into top of 3 ch": what rows begin and end with."""


def _like(loaded: Loaded, row: Row) -> Iterator[str]:
    """What the row may end or begin with, in its own words: "sc in last 2 sts" behind "rep to last 2 sts"."""
    start, end = _body(row)
    words = loaded.source.text[start:end]
    into = "into" if " into " in words else "in"
    one = re.search(r"\b(1\s?)(?:sc|hdc|dc|tr|htr)\b", words)
    lone = one[1] if one is not None else ""
    for hit in re.finditer(r"\bto\s(last\s(?:\d+\s)?\w+)\s*$|\bto\s(last\s(?:\d+\s)?\w+)(?=[,;.])", words):
        place = hit[1] or hit[2]
        of_each = ("each of ", "") if f"each of {place}" in loaded.source.text else ("", "each of ")
        for each in of_each if re.search(r"\d", place) else ("",):
            yield f"{lone}sc {into} {each}{place}"
            if _DOUBLED.search(loaded.source.text[:100_000]):
                yield f"2 sc {into} {each}{place}"
    nouns = re.findall(rf"\b(?:next|first|last|each)\s(?:\d+\s)?({_NOUNS})\b", words)
    many = _fewer(loaded, row)
    for noun in islice(dict.fromkeys((*nouns, "st")), 2):
        several = f"{many} {noun}s" if noun == "st" else f"{many} {noun}"
        of_each = (
            ("each of ", "")
            if re.search(r"\beach of (?:next|last)\b", loaded.source.text)
            else ("", "each of ")
        )
        for place in ("last", "next", "first"):
            for each in of_each if many > 1 else ("",):
                yield f"{lone}sc {into} {each}{place} {noun if many == 1 else several}"


_NOUNS = r"st|sc|hdc|dc|tr|htr|ch"


def _fewer(loaded: Loaded, row: Row) -> int:
    """By how many stitches a row falls short of its count; 1 where it does not, or states none."""
    for placed in worked(loaded, row)[:1]:
        made = placed.worked
        for stated in row.stated:
            for name, number in stated.counts:
                there = made.makes.get(name, 0) if name in STITCHES else made.stitches
                if name in ("", ANY) or name in STITCHES:
                    return max(1, number - there)
    return 1


def lacking(loaded: Loaded, row: Row) -> list[str]:
    """Names of stitches of which the count of a row has more than it makes; else those that it makes."""
    made: dict[str, int] = {}
    for placed in worked(loaded, row)[:1]:
        made = placed.worked.makes
    told = {name: number for stated in row.stated for name, number in stated.counts if name in STITCHES}
    names = [name for name, number in told.items() if made.get(name, 0) < number] or list(made)
    return [written(name, loaded.pattern.uk) for name in names if name in STITCHES][:2]


def _plain(phrase: str) -> str:
    return re.sub(r"[*\s]+", " ", phrase.lower()).strip()


def phrases_of(loaded: Loaded, row: Row) -> list[tuple[str, Span]]:
    """What stands between commas in a row, with its place; what is long is no phrase."""
    start, end = _body(row)
    text = loaded.source.text
    found = []
    for hit in re.finditer(r"[^,;.()\[\]]+", text[start:end]):
        words = hit.group().strip(" \t\n:-–—")
        if words and len(words) <= _SHORT:
            at = start + hit.start() + hit.group().index(words)
            found.append((" ".join(words.split()), Span(at, at + len(words))))
    return found


def _body(row: Row) -> tuple[int, int]:
    """Where the words of a row begin, and where its count does."""
    start = row.label_span.end if row.label_span.end <= row.span.end else row.span.start
    return start, min(
        (told.span.start for told in row.stated if told.span.start > start), default=row.span.end
    )


def _edges(row: Row) -> tuple[int, int]:
    """Behind the chain and turn that a row begins with (0 for none), and behind its last work."""
    lead = 0
    for item in row.items:
        if not isinstance(item, (Chain, Turn, Turning)):
            break
        lead = item.span.end
    last = lead
    for k, item in enumerate(row.items):
        closes = isinstance(item, Chain) and not any(
            isinstance(one, (Turn, Turning)) for one in row.items[k + 1 :]
        )
        if isinstance(item, (Work, Group, Repeat)) or (closes or isinstance(item, Skip)) and last > lead:
            # "…, ch 2" at the end of a row leads to a stitch that is missing
            last = item.span.end
    return lead, last


def lacks_its_end(loaded: Loaded, row: Row) -> bool:
    """True for a row that ends with no last stitch, where the pattern's other rows do."""
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row)]
    works = [item for item in row.items if isinstance(item, (Work, Group, Repeat))]
    if not works or _ends(works[-1]):
        return False
    others = [one for one in rows if one is not row and one.rerun is None and one.items]
    ends = [
        work[-1] for one in others if (work := [i for i in one.items if isinstance(i, (Work, Group, Repeat))])
    ]
    return any(map(_ends, ends)) or _to_the_last(works[-1])


def _ends(item: Item) -> bool:
    """True for what is worked into the last stitch or the turning chain."""
    return isinstance(item, (Work, Group)) and item.where.which in (Which.LAST, Which.TOP)


def _to_the_last(item: Item) -> bool:
    """True for what stops before the last stitches, which are dealt with behind it: "to last 2 sts"."""
    stop = item.stop if isinstance(item, Repeat) else item.where.stop if isinstance(item, Work) else None
    return stop is not None and stop.left > 0
