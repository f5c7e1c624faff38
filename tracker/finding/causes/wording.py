"""Mistakes in a maker's words: what happened, what to look at, what a finger finds.

Mistakes of a placed row come in, with the pattern's terms; three short sentences come out.
"""

from dataclasses import dataclass
from itertools import groupby

from tracker.fabric.model import SP, Element, Placed
from tracker.finding.causes.edits import Mistake, changed
from tracker.finding.causes.parts import on_foundation, parts_of_row, row_word
from tracker.finding.causes.table import CAUSES
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import parts_of, said


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
    first = told.headline.partition(":")[0].rstrip(".")
    return Sentences(f"Two things: {first}. {other.headline}", told.look, other.look)


def _one(placed: Placed, mistake: Mistake, uk: bool) -> Sentences:
    row = CAUSES[mistake.cause]
    words = _words(placed, mistake, uk)
    headline = row.headline
    change = changed(placed.worked.elements, mistake)
    if mistake.cause == "missed_turning_chain" and any(name.startswith("ch-") for name in change):
        headline = "The last window is not closed: its {st} goes into the turning chain."
    elif mistake.cause == "edge_increase_missed" and len(mistake.edits) > 1:
        headline = "The increases at both edges were not made."
    elif mistake.cause == "group_missed" and sum(change.values()) == -1:
        headline = "One chain space was passed over: {what} belongs in it."
    return Sentences(*(text.format(**words) for text in (headline, row.look, row.feel)))


def _words(placed: Placed, mistake: Mistake, uk: bool) -> dict[str, str]:
    """What stands in the braces of the table's sentences."""
    elements, below = placed.worked.elements, placed.worked.below
    edit = mistake.edits[0]
    concerned = elements[edit.start : edit.end] or edit.put
    stitch = next((e for e in concerned if e.is_stitch), None) or next(
        (e for e in elements if e.is_stitch), None
    )
    chains = next((e.chains for e in concerned if e.kind == SP), 0)
    if mistake.cause == "missed_turning_chain":
        chains = _chains(below[-2:])
    elif mistake.cause == "extra_in_first":
        chains = _chains(elements[:2])
    row = row_word(placed)
    return {
        "st": said(stitch.kind, uk) if stitch is not None else "stitch",
        "n": spoken_number(chains) if chains else "",
        "what": _listed(_meant(placed, mistake), uk),
        "row": row,
        "below": "the foundation chain"
        if on_foundation(placed)
        else f"the {row} below"
        if below
        else "the ring",
    }


def _chains(edge: tuple[Element, ...]) -> int:
    """Chains of the turning chain at an edge, those of its space with them."""
    return sum(e.chains for e in edge if e.turning)


def _meant(placed: Placed, mistake: Mistake) -> tuple[Element, ...]:
    """What should stand where the mistake is."""
    elements = placed.worked.elements
    edit = mistake.edits[0]
    if edit.start == edit.end:
        return edit.put
    if mistake.cause in ("group_short", "corner_single"):
        for part in parts_of_row(placed):
            if part.start <= mistake.at < part.end:
                return elements[part.start : part.end]
    return elements[edit.start : edit.end]


def _listed(elements: tuple[Element, ...], uk: bool) -> str:
    """Elements as they are said: "three double crochet, chain two, three double crochet"."""
    words: list[str] = []
    alike = groupby(
        (e for e in elements if e.counts), key=lambda e: (e.kind, e.chains if e.kind == SP else 0)
    )
    for (kind, chains), run in alike:
        many = len(list(run))
        if kind == SP:
            words.extend([f"chain {spoken_number(chains)}"] * many)
        elif parts_of(kind)[2] > 1:
            words.append(f"{spoken_number(many)} decrease{'s' if many > 1 else ''}")
        else:
            words.append(f"{spoken_number(many)} {said(kind, uk)}")
    return ", ".join(words)
