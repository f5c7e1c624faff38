"""What a pattern tells beside a stitch: how it is worked, "working in front of the chains", and what comes before it.

What is told within a repeat, and what stands between two phrases, is no step of a worked row: it is looked up here by
the stitch that it belongs to. Words come out, "" where nothing is told.
"""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from tracker.fabric.model import Step, WorkedRow
from tracker.notation.pattern import Row
from tracker.notation.tree import Edge, Group, Item, Mark, Repeat, Say, Travel, Work
from tracker.problems import Source, Span
from tracker.program.row.groups import Beat, Breath, Sort, told_at_the_start
from tracker.records import replace
from tracker.session.wording.made.telling import Telling, capital

_AHEAD = re.compile(
    r"(?:^|[,;.:*(\[])\s*((?:working|crossing|going|reaching)\b[^,;.:*()\[\]]*"
    r"\b(?:in front|behind|over|across)\b[^,;.:*()\[\]]*),?\s*$",
    re.IGNORECASE,
)
"""Words in front of a stitch that tell on which side of others it is worked: "working in front of sts just made, "."""
_NAMES = re.compile(
    r"\bmade\b|\bcounts?\b|\b(?:is|are) (?:now )?(?:done|complete)|^\W*(?:an? |the )?[\w-]+(?: \d+)?\W*$",
    re.IGNORECASE,
)
"""A remark that names or counts what was done and tells nothing to do: "(picot made)", "(shell)"."""
_FAR = 90
"""Letters in front of a stitch that are looked through."""


def way_before(step: Step, worked: WorkedRow, telling: Telling) -> str:
    """ "working in front of stitches just made", told ahead of the stitch; "" where its row says no such thing."""
    item = step.item
    if not isinstance(item, Work | Group):
        return ""
    start = max(worked.row.label_span.end, item.span.start - _FAR)
    hit = _AHEAD.search(telling.source.text, start, item.span.start)
    if hit is None or any(_overlap(other.item.span, Span(*hit.span(1))) for other in worked.steps):
        return ""
    return telling.words(Span(*hit.span(1)))


def way_behind(step: Step, worked: WorkedRow, telling: Telling) -> str:
    """ "working in front of the chain-two spaces", a remark within a repeat; "" for none and for a mere name."""
    said = _remarks(worked.row, telling.source).get(step.item.span) if step.path else None
    if said is None or any(other.item.span == said.span for other in worked.steps):
        return ""
    return telling.written(said).strip("() .,")


@lru_cache(maxsize=64)
def _remarks(row: Row, source: Source) -> dict[Span, Say]:
    """The remarks within a row's repeats that tell how, by the words of the stitch each stands behind."""
    found: dict[Span, Say] = {}
    for items in _bodies(row.items):
        before: Item | None = None
        for item in items:
            if isinstance(item, Say) and item.kind == "remark" and isinstance(before, Work | Group):
                if not _NAMES.search(source.words(item.span)):
                    found[before.span] = item
            elif not isinstance(item, Mark):
                before = item
    return found


def _bodies(items: Sequence[Item]) -> Iterator[Sequence[Item]]:
    for item in items:
        if isinstance(item, Repeat):
            yield item.items
            yield from _bodies(item.items)


def _overlap(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def told_ahead(breath: Breath, worked: WorkedRow, telling: Telling) -> tuple[str, Breath]:
    """What a group's words say before anything is worked, as sentences of its own; and the group without it."""
    steps = breath.first.steps
    if breath.sort not in (Sort.PIECES, Sort.RUN) or len(breath.beats) > 1:
        return "", breath
    end = 0
    while end < len(steps) - 1 and _is_remark(steps[end], worked, telling):
        end += 1
    while end and isinstance(steps[end].item, Travel):
        end -= 1  # those words are the travel's own
    if not end:
        return "", breath
    said = "".join(f"{capital(telling.written(step.item).strip('(.,) '))}. " for step in steps[:end])
    return said, replace(breath, beats=(replace(breath.first, steps=steps[end:]),))


def _is_remark(step: Step, worked: WorkedRow, telling: Telling) -> bool:
    """True for words that stand by themselves, and are no way in which the stitches behind them are worked."""
    item = step.item
    if not isinstance(item, Say) or item.kind not in ("remark", "words") or told_at_the_start(step, worked):
        return False
    words = telling.written(item)
    return len(words.split()) > 2 and not words.lower().startswith("working ")


def rotated(beat: Beat, telling: Telling) -> str:
    """ "Rotate the work a quarter turn. " before stitches along another edge; "" where nothing is said of it."""
    said = [step.item.span for step in beat.steps if isinstance(step.item, Edge | Say)]
    words = telling.words(Span(said[0].start, said[-1].end)) if said else ""
    return f"{capital(words)}. " if _ROTATES.search(words) else ""


_ROTATES = re.compile(r"\b(?:rotat|quarter|sideways)", re.IGNORECASE)


def told_by_chain(step: Step, words: str, telling: Telling) -> bool:
    """True for "(that's your first double crochet)" behind a chain that was told as such."""
    said = isinstance(step.item, Say) and step.item.kind == "remark"
    return said and ": your first " in words and bool(_YOUR_FIRST.match(telling.written(step.item)))


_YOUR_FIRST = re.compile(
    r"\W*(?:that|this|it|which)(?:[’']s| is| will be| counts as)\b[^.]*\bfirst\b", re.IGNORECASE
)
