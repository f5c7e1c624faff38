"""Mistakes in a maker's words: what happened, what to look at, what a finger finds.

Mistakes of a placed row come in, with the pattern's terms; three short sentences come out.
"""

from dataclasses import dataclass
from itertools import groupby

from tracker.fabric.model import SP, Element, Placed
from tracker.finding.causes.table import CAUSES
from tracker.finding.mistakes import Mistake, changed
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import said


@dataclass(frozen=True, slots=True)
class Sentences:
    """How a cause is told."""

    headline: str
    look: str
    """What to look at."""
    feel: str
    """What a finger finds."""


def sentences(placed: Placed, mistakes: tuple[Mistake, ...], uk: bool) -> Sentences:
    """One mistake, one done several times, or two different ones."""
    told = _one(placed, mistakes[0], uk)
    if len(mistakes) == 1:
        return told
    if len({m.cause for m in mistakes}) == 1:
        times = "Twice" if len(mistakes) == 2 else f"{spoken_number(len(mistakes)).capitalize()} times"
        return Sentences(f"{times}: {told.headline[0].lower()}{told.headline[1:]}", told.look, told.feel)
    other = _one(placed, mistakes[1], uk)
    return Sentences(f"Two things: {told.headline} {other.headline}", told.look, other.look)


def _one(placed: Placed, mistake: Mistake, uk: bool) -> Sentences:
    row = CAUSES[mistake.cause]
    words = _words(placed, mistake, uk)
    headline = row.headline
    if mistake.cause == "missed_turning_chain" and any(name.startswith("ch-") for name in changed(placed.worked.elements, mistake)):
        headline = "The last window is not closed: its {st} goes into the turning chain."
    if mistake.cause == "edge_increase_missed" and len(mistake.edits) > 1:
        headline = "The increases at both edges were worked as single stitches."
    if mistake.cause == "decrease_missed" and "{st}" not in headline:
        headline = "One {st} was worked as separate stitches."
    return Sentences(*(text.format(**words) for text in (headline, row.look, row.feel)))


def _words(placed: Placed, mistake: Mistake, uk: bool) -> dict[str, str]:
    """What stands in the braces of the table's sentences."""
    elements, below = placed.worked.elements, placed.worked.below
    edit = mistake.edits[0]
    concerned = elements[edit.start : edit.end] or edit.put
    stitch = next((e for e in concerned if e.is_stitch), None) or next((e for e in elements if e.is_stitch), None)
    chains = next((e.chains for e in concerned if e.kind == SP), 0)
    if mistake.cause == "missed_turning_chain":
        chains = _chain(below[-1:] if below else (), below)
    elif mistake.cause == "extra_in_first":
        chains = _chain(elements[:1], elements)
    return {
        "st": said(stitch.kind, uk) if stitch is not None else "stitch",
        "n": spoken_number(chains) if chains else "",
        "what": _listed(_meant(placed, mistake), uk),
        "row": "round" if placed.kind == "round" else "row",
        "other": "another row",
    }


def _chain(turning: tuple[Element, ...], row: tuple[Element, ...]) -> int:
    """Chains of a turning chain, its space with them."""
    beside = sum(e.chains for e in (*row[:2], *row[-2:]) if e.turning and e.kind == SP)
    return sum(e.chains for e in turning if e.turning) + beside


def _meant(placed: Placed, mistake: Mistake) -> tuple[Element, ...]:
    """What should stand where the mistake is."""
    elements = placed.worked.elements
    edit = mistake.edits[0]
    if edit.start == edit.end:
        return edit.put
    held = elements[edit.start : edit.end]
    if mistake.cause not in ("group_short", "corner_single"):
        return held
    group = elements[mistake.at].group
    if not group:
        return held
    start, end = mistake.at, mistake.at
    while start > 0 and (elements[start - 1].group == group or elements[start - 1].turning):
        start -= 1
    while end < len(elements) and elements[end].group == group:
        end += 1
    return elements[start:end]


def _listed(elements: tuple[Element, ...], uk: bool) -> str:
    """Elements as they are said: "three double crochet, chain two, three double crochet"."""
    words: list[str] = []
    for (kind, _), run in groupby((e for e in elements if e.counts), key=lambda e: (e.kind, e.chains if e.kind == SP else 0)):
        held = list(run)
        if kind == SP:
            words.extend(f"chain {spoken_number(e.chains)}" for e in held)
        else:
            words.append(f"{spoken_number(len(held))} {said(kind, uk)}")
    return ", ".join(words)
