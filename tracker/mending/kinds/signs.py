"""Brackets, stars and marks put where they are missing.

A row comes in whose signs have no partner; edits go out that give them one, likeliest first.
"""

import re
from collections.abc import Iterator
from itertools import pairwise

from tracker.fabric.checks.unread import NEVER_CLOSED
from tracker.load import Loaded
from tracker.notation.pattern import Row
from tracker.notation.phrase.cursor import partners
from tracker.notation.phrase.repeats.stars import NO_STAR_BEFORE
from tracker.notation.scan import T, scan
from tracker.problems import Fix, Problem, Span

_CLOSED = {"(": ")", "[": "]", "{": "}"}
_OPENED = {closed: opened for opened, closed in _CLOSED.items()}


def brackets(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """A bracket put where its partner lacks it, or taken out."""
    text = loaded.source.text
    span = row.span if row is not None else problem.label.span
    tokens = scan(text, span.start, span.end)
    paired = partners(tokens)
    for k, token in enumerate(tokens):
        if k in paired or token.kind not in (T.OPEN, T.CLOSE):
            continue
        if token.kind is T.OPEN:
            closed = _CLOSED[token.text]
            ends = [
                t.start
                for t in tokens[k + 1 :]
                if t.kind in (T.COMMA, T.SEMICOLON, T.PERIOD, T.CLOSE, T.END, T.DASH)
            ]
            # "(2 dc, ch 2, 2 dc in next sp" closes before the place, "(sc in next st 5 times" before the number
            clause = []
            for one in tokens[k + 1 :]:
                if one.kind in (T.OPEN, T.SEMICOLON, T.STAR):
                    break
                clause.append(one)
            often = [
                one.start
                for one, two in pairwise((*clause, tokens[-1]))
                if two.text in ("times", "x")
                and one.kind is T.NUMBER
                or one.text in ("x", "×", "twice")
                or one.kind is T.TIMES
            ]
            places = [one.start for one in tokens[k + 1 :] if one.text in ("in", "into", "all")]
            for place in (*_ends_told(text, token.end, span.end), *often, *places, *ends):
                at = len(text[:place].rstrip())
                yield Fix(Span(at, at), closed)
            yield Fix(Span(token.start, token.end), "*")
        else:
            opened = _OPENED[token.text]
            starts = [
                t.start
                for before, t in pairwise(tokens[:k])
                if before.kind in (T.COMMA, T.SEMICOLON, T.COLON, T.STAR, T.OPEN, T.PERIOD)
            ]
            for place in (*_begun_told(text, span.start, token.start), *reversed(starts)):
                yield Fix(Span(place, place), opened)
        yield Fix(Span(token.start, token.end), "")


_STATEMENT = re.compile(
    r"(?:[^()\[\].;]{0,40}?\b(?:do(?:es)?\s+not\s+count|counts?)\s+as|=|not)(?:\s+(?:an?|\d|the|first|beg))?\s+\w+"
    r"(?:\s*(?:,|and|\+)\s*(?:ch[ -]?\d|\d-?ch)(?:\s+sp)?)?(?:\s+(?:here|now)\s+and\s+throughout|\s+throughout)?"
)
""" "(counts as dc and ch 2 here and throughout"."""
_VERB = re.compile(r"\b(?:(?:do|does)\s+not\s+)?counts?\s+as\b", re.IGNORECASE)
_COUNTS = r"\d+(?:\s+[A-Za-z][\w-]*(?:\s+sps?|\s+lps?|\s+[A-Z](?=[\s,.;]))?)?"
_COUNT = re.compile(rf"{_COUNTS}(?:(?:\s*[,+]|\s+and|\s[–-])\s*{_COUNTS})*")


_PLACE = re.compile(r"\s+(?:in|into|around|over)\b")
""" "(1 dc in next dc": no count, but what is worked."""


def _ends_told(text: str, start: int, end: int) -> Iterator[int]:
    """Where a statement or a count ends that a bracket opens at."""
    for pattern in (_STATEMENT, _COUNT):
        hit = pattern.match(text, start, end)
        worked = hit is not None and pattern is _COUNT and _PLACE.match(text, hit.end())
        if hit is not None and hit.end() > start and not worked:
            yield hit.end()


def _begun_told(text: str, start: int, end: int) -> Iterator[int]:
    """Where a statement or a count begins that ends at a bracket."""
    behind = text[start:end].rstrip()
    for pattern in (_STATEMENT, _COUNT):
        for hit in pattern.finditer(behind):
            if hit.end() == len(behind) and not (pattern is _STATEMENT and hit.group().lstrip()[:1] == "="):
                verb = _VERB.search(hit.group()) if pattern is _STATEMENT else None
                if verb is not None:
                    yield start + hit.start() + verb.start()
                yield start + hit.start() + len(hit.group()) - len(hit.group().lstrip())


_HOW_OFTEN = re.compile(
    r"(?<=\w)[,;]?\s+(?=(?:rep|repeat|to\s+(?:the\s+)?(?:end|last)|across|around|\d+\s+(?:more\s+)?times|twice|x\s?\d)\b)",
    re.IGNORECASE,
)
""" "sc in next st 12 times", "sc in next sc to end": what says how often stands behind what is repeated."""
_ONCE = re.compile(r"\b(?:first|same)\s+(?:ch-?\d\s+)?\w+(?:\s+as\s+\w+)?[,;]\s*$")


def stars(loaded: Loaded, row: Row | None, problem: Problem) -> Iterator[Fix]:
    """The star that a repeat goes back to, put before each phrase in turn; or the sign it names put right."""
    if row is None:
        return
    text = loaded.source.text
    at = problem.label.span
    signs = re.findall(r"\*+|†|‡", text[at.start : at.end])
    sign = signs[-1] if signs else "*"
    for other in dict.fromkeys(re.findall(r"\*+|†|‡", text[row.span.start : at.start])):
        for hit in re.finditer(re.escape(sign), text[at.start : at.end]):
            yield Fix(Span(at.start + hit.start(), at.start + hit.end()), other)
    if problem.label.text == NEVER_CLOSED:
        told = min((s.span.start for s in row.stated if s.span.start > at.end), default=row.span.end)
        for hit in _HOW_OFTEN.finditer(text, at.end, told):
            yield Fix(Span(hit.start(), hit.start()), sign)
        return
    tokens = scan(text, row.label_span.end, at.start)
    places = [tokens[0].start] if tokens else []
    places += [
        t.start
        for before, t in pairwise(tokens)
        if before.kind in (T.COMMA, T.SEMICOLON, T.PERIOD, T.COLON, T.DASH)
    ]
    whole = loaded.source.text[:100_000]
    begun = r"(?<!from )(?<!between )(?<!to )(?<![\w*])\*"
    apart = " " if len(re.findall(rf"{begun}\s\w", whole)) > len(re.findall(rf"{begun}\w", whole)) else ""
    # "sc in first sc, *…": what is told of the first stitch is worked once
    once = [place for place in places if _ONCE.search(text, row.label_span.end, place)]
    forward = problem.label.text == NO_STAR_BEFORE
    for place in dict.fromkeys((*once, *(places if forward else reversed(places)))):
        # a star right before "rep from *" has nothing to be worked again
        if not text.startswith("rep", place):
            yield Fix(Span(place, place), sign + apart)


def dropped_marks(loaded: Loaded, row: Row) -> Iterator[Fix]:
    """A mark that an ending names and that stands nowhere: "ending last rep at **"."""
    text = loaded.source.text[row.span.start : row.span.end]
    hit = re.search(r"\b(?:ending|end)\s+last\s+rep(?:eat)?\s+at\s+(\*\*|†)", text)
    if hit is None or text.count(hit[1]) > 1:
        return
    tokens = scan(loaded.source.text, row.label_span.end, row.span.start + hit.start())
    for token in reversed(tokens):
        if token.kind in (T.COMMA, T.SEMICOLON):
            yield Fix(Span(token.start, token.start), hit[1])
