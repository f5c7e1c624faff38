"""Names, turning chains and places put right.

Words come in that no one knows or that contradict others; edits go out, likeliest first.
"""

import re
from collections.abc import Iterator, Sequence
from difflib import get_close_matches
from itertools import dropwhile

from tracker.fabric.readings.habits import stated_turning
from tracker.fabric.standing import FOUNDATION_STITCHES
from tracker.load import Loaded
from tracker.notation.pattern import Row
from tracker.notation.phrase.cursor import Context
from tracker.notation.phrase.spelling import nearest
from tracker.notation.tree import Item, Turning, Work
from tracker.problems import Fix, Problem, Span
from tracker.records import replace
from tracker.trade.stitches import STITCHES, height_of, written

_COUNTS = re.compile(
    r"(?:\b(?:does |do )?not\s+)?\bcounts?(?:ed)?\s+(?:as\s+)?(?:a\s+|an\s+|1\s+|first\s+)?\w+(?:\s+and\s+ch-\d\s+sp)?",
    re.IGNORECASE,
)
_NEGATIVE = re.compile(
    r"\b(?:does|do)\s+not\s+count(?:\s+as\s+(?:a\s+)?\w+)?|\bnot\s+counted\b|\bnot a st\b", re.IGNORECASE
)


def other_names(loaded: Loaded, problem: Problem) -> Iterator[Fix]:
    """Another name in place of the one that is not known, or that belongs to the other terms."""
    span = problem.label.span
    word = loaded.source.text[span.start : span.end]
    uk = loaded.pattern.uk
    context = Context(uk=uk)
    own = {special.name for special in loaded.pattern.specials}
    words = sorted(
        {w.lower() for w in re.findall(r"[A-Za-z][A-Za-z-]{1,12}", loaded.source.text[:100_000])}
        - {word.lower()}
    )
    used = [written(name, uk) for name in names_used(loaded)]
    found: list[str] = []
    if problem.code == "T105":
        other = next((row for row in STITCHES.values() if word.lower() in (row.name, row.uk)), None)
        if other is not None:
            found.append(other.uk if uk else other.name)
        found += used
    else:
        close = nearest(word.lower(), context)
        if close and sorted(close) == sorted(word.lower()):
            found.append(close)
        if len(word) > 1:
            found += get_close_matches(word.lower(), [*sorted(own), *used], n=3, cutoff=0.6)
        # where no name is near, what the row's own count names is likelier than a stitch the pattern never works
        found += [name for name in _stated(loaded, problem) if name in used]
        found += get_close_matches(word.lower(), used, n=3, cutoff=0.5)
        # what is only spelled alike comes behind what the pattern works, unless it is nearly the same
        found += get_close_matches(word.lower(), [close or ""], cutoff=0.85)
        found += get_close_matches(word.lower(), words, n=4, cutoff=0.6)
        found += used[:4]
        found += [close] if close and close != "slst" else ["sl st"]
    for name in dict.fromkeys(found):
        if name.lower() != word.lower():
            yield Fix(span, name.upper() if word.isupper() and len(word) > 1 else _as_written(loaded, name))


def _stated(loaded: Loaded, problem: Problem) -> list[str]:
    """Names that the counts of the row tell of in which a problem lies, in the pattern's own terms."""
    at = problem.label.span.start
    return [
        written(name, loaded.pattern.uk)
        for block in loaded.pattern.blocks
        if isinstance(block, Row) and block.span.start <= at < block.span.end
        for stated in block.stated
        for name, _ in stated.counts
    ]


def _as_written(loaded: Loaded, name: str) -> str:
    """A name in the letters in which the pattern writes it elsewhere: "FPdc"."""
    hit = re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", loaded.source.text[:100_000], re.IGNORECASE)
    return hit.group() if hit is not None and not hit.group()[:2].istitle() else name


def other_stitches(loaded: Loaded, problem: Problem) -> Iterator[Fix]:
    """Another of the pattern's stitches in place of one that is named and is not there: "in next 12 dc"."""
    uk = loaded.pattern.uk
    used = [written(name, uk) for name in names_used(loaded)][:4]
    known = {written(name, uk) for name in STITCHES}
    start = problem.label.span.start
    words = list(re.finditer(r"(?<![A-Za-z])[A-Za-z]+", loaded.source.text[start : problem.label.span.end]))
    for hit in reversed(words):
        name = hit.group().lower().removesuffix("s")
        if name in known:
            for other in used:
                if other != name:
                    yield Fix(Span(start + hit.start(), start + hit.start() + len(name)), other)


def statements(loaded: Loaded, row: Row, alone: bool = False, unusual: bool = False) -> Iterator[Fix]:
    """A turning chain said to count that does not, or the other way about; taken out first where it stands `alone`.

    With `unusual` only one that says another than patterns commonly do, or than the pattern's other rows.
    """
    if unusual and not _says_otherwise(loaded, row):
        return
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    uk = loaded.pattern.uk
    taken_out = [
        Fix(Span(start + hit.start(), start + hit.end()), "")
        for hit in re.finditer(r"\s*\([^()]*\b(?:counts?|counted|not a st)\b[^()]*\)", text)
    ]
    settled = bool(loaded.pattern.habits.turning) or any(
        isinstance(item, Turning) and item.throughout
        for block in loaded.pattern.blocks
        if isinstance(block, Row) and block is not row
        for item in block.items
    )
    if settled or alone:
        yield from taken_out
    for hit in _NEGATIVE.finditer(text):
        chains = re.search(r"\bch\s?(\d)\W*$|\b(\d)\s?ch\W*$", text[: hit.start()], re.IGNORECASE)
        many = int(chains[1] or chains[2]) if chains else 0
        # a chain stands for what is as high as it is, and with a space behind it for what is lower
        for name in sorted(
            [name for name in names_used(loaded) if name not in FOUNDATION_STITCHES][:3],
            key=lambda name: height_of(name) != many,
        ):
            yield Fix(Span(start + hit.start(), start + hit.end()), f"counts as {written(name, uk)}")
            more = many - height_of(name)
            if more > 0:
                space = f"{more}-ch sp" if uk else f"ch-{more} sp"
                yield Fix(
                    Span(start + hit.start(), start + hit.end()), f"counts as {written(name, uk)} and {space}"
                )
    for hit in _COUNTS.finditer(text):
        if "not" not in text[max(0, hit.start() - 10) : hit.end()].lower():
            yield Fix(Span(start + hit.start(), start + hit.end()), "does not count as a st")
    yield from taken_out


def _says_otherwise(loaded: Loaded, row: Row) -> bool:
    """True where a chain of three or more does not count, or of one does; of two, other than in other rows."""
    told = stated_turning(replace(row, items=tuple(_behind_travel(row.items))))
    if told is None:
        return False
    chains, turning = told
    if chains != 2:
        return turning.counts is not (chains > 2)
    rows = [block for block in loaded.pattern.blocks if isinstance(block, Row) and block is not row]
    others = [
        said[1].counts for other in rows if (said := stated_turning(other)) is not None and said[0] == 2
    ]
    return bool(others) and turning.counts not in others


def _behind_travel(items: Sequence[Item]) -> Iterator[Item]:
    """A row without the slip stitches that it begins with."""
    return dropwhile(lambda item: isinstance(item, Work) and item.stitch == "slst", items)


def other_words(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A place of another kind, or a decrease that was to be worked twice."""
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    for hit in re.finditer(r"\b(?:same|next)(?=\s+(?:st|sc|dc|hdc|tr|htr)\b)", text):
        yield Fix(Span(start + hit.start(), start + hit.end()), "next" if hit.group() == "same" else "same")
    for hit in re.finditer(r"(?<=,\s)\w+\d?tog(?=,)", text):
        yield Fix(Span(start + hit.start(), start + hit.end()), f"({hit.group()}) twice")


def phrases_twice(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A phrase that stands twice, one behind the other, taken out once."""
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    for hit in re.finditer(r"(,\s*[^,;.()\[\]*]{4,80})(?=\1[,;.)\]])", text):
        yield Fix(Span(start + hit.end(), start + 2 * hit.end() - hit.start()), "")
    for hit in re.finditer(
        r"(,\s*[(\[](?:[^()\[\]]|\([^()]{1,30}\)){4,80}[)\]][^,;.()\[\]]{0,40})(?=\1[,;.)\]])", text
    ):
        yield Fix(Span(start + hit.end(), start + 2 * hit.end() - hit.start()), "")
    for hit in re.finditer(r"(?<=[\s,;*(\[])([^,;.()\[\]*]{4,80}),\s*(?=\1[,;.)\]])", text):
        yield Fix(Span(start + hit.start(), start + hit.end()), "")


_PLAIN = re.compile(
    r"(?<![\w-])(?P<many>\d+\s+)?(?P<name>sc|dc|hdc|tr|htr)(?![\w-])(?P<where>\s+(?:in|into)\s+(?:the\s+)?(?:next|first|last)\s+(?:2\s+)?[a-z]+(?!\s*\d))?"
)


_DOUBLE = r"2\s(?:sc|hdc|dc|tr|htr)\s(?:in|into)\s(?:the\s)?next\b"


def changes_left_out(loaded: Loaded, row: Row, mirrored: bool = False) -> Iterator[Fix]:
    """An increase or a decrease in place of a plain stitch: where a pattern has many, one is soon left out.

    With `mirrored` only an increase at one end of a row that has one at the other.
    """
    start = row.label_span.end
    text = loaded.source.text[start : row.span.end]
    told = [stated.span for stated in row.stated]
    hits = [
        hit
        for hit in _PLAIN.finditer(text)
        if hit["many"] is None and not any(s.start <= start + hit.start() < s.end for s in told)
    ]
    if mirrored:
        for hit in hits:
            if _mirrors(hit, text):
                yield Fix(Span(start + hit.start("name"), start + hit.start("name")), "2 ")
        return
    for word in ("inc", "dec"):
        if re.search(rf"\b{word}\b", loaded.source.text[:100_000]):
            for hit in reversed(hits):
                behind = text[hit.end("name") :].lstrip()[:1]
                if hit["where"] is None and not behind.isdigit():
                    yield Fix(Span(start + hit.start("name"), start + hit.end("name")), word)
    # where the pattern's other rows increase: at the end of what is repeated, or at its beginning
    whole_text = loaded.source.text[:100_000]
    last, first = (len(re.findall(rf"{sign}{_DOUBLE}", whole_text)) for sign in (r",\s", r"[*(\[]\s?"))
    for hit in reversed(hits) if last > first else hits:
        if hit["where"] is not None:
            yield Fix(Span(start + hit.start("name"), start + hit.start("name")), "2 ")
    # "sc in next 2 sts" for one decrease before others
    hits.sort(key=lambda hit: " 2 " not in (hit["where"] or ""))
    for hit in hits:
        together = f"{hit['name']}2tog"
        if hit["where"] is not None and together in loaded.source.text:
            over = re.search(rf"\b{together} (?:over|in) (?:the )?next 2 \w+", loaded.source.text)
            whole = over is not None and together + over.group()[len(together) :]
            for words in (whole, together) if whole else (together,):
                yield Fix(Span(start + hit.start("name"), start + hit.end()), words)
    if re.search(r"\bdec\b", loaded.source.text[:100_000]):
        for hit in hits:
            if hit["where"] is not None:
                yield Fix(Span(start + hit.start("name"), start + hit.end()), "dec")
    for hit in hits:
        # the only one of its kind, left out
        together = f"{hit['name']}2tog"
        if hit["where"] is not None and together not in loaded.source.text:
            yield Fix(Span(start + hit.start("name"), start + hit.end()), together)


def _mirrors(hit: re.Match[str], text: str) -> bool:
    """True for "sc in first st" of a row that ends with "2 sc in last st", and the other way about."""
    words = f"{hit['name']}{hit['where'] or ''}"
    for this, that in (("first", "last"), ("last", "first")):
        if re.search(rf"\b{this}\b", words):
            return re.search(rf"\b2\s+{re.escape(re.sub(this, that, words))}", text) is not None
    return False


def names_used(loaded: Loaded) -> list[str]:
    """Names of stitches that the pattern makes, the commonest first."""
    many: dict[str, int] = {}
    for stretch in loaded.fabric.stretches:
        for placed in stretch.rows:
            for name, number in placed.worked.makes.items():
                if name in STITCHES and name != "slst":
                    many[name] = many.get(name, 0) + number
    # the plain ones of the ladder before those that close into one top
    return sorted(many, key=lambda name: (not STITCHES[name].height or STITCHES[name].closes, -many[name]))
