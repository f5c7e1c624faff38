"""Mistakes in a maker's words: what happened, what to look at, what a finger finds.

Mistakes of a placed row come in, with the pattern's terms; three short sentences come out.
"""

from itertools import groupby

from tracker.fabric.model import SP, Element, Placed
from tracker.finding.causes.edits import Mistake, changed
from tracker.finding.causes.parts import Part, on_foundation, parts_of_row, row_word
from tracker.finding.causes.table import CAUSES
from tracker.records import dataclass
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


def sentences(placed: Placed, mistakes: tuple[Mistake, ...], uk: bool, mesh: int | None = None) -> Sentences:
    """One mistake, one done several times, or two different ones; `mesh` has the chains of a window in filet."""
    told = _one(placed, mistakes[0], uk, mesh)
    if len(mistakes) == 1:
        return told
    if len({m.cause for m in mistakes}) == 1:
        times = "Twice" if len(mistakes) == 2 else f"{spoken_number(len(mistakes)).capitalize()} times over"
        return Sentences(f"{times}, {_small(told.headline)}", told.look, told.feel)
    other = _one(placed, mistakes[1], uk, mesh)
    first = told.headline.partition(":")[0].rstrip(".")
    return Sentences(f"Two things: {_small(first)}; and {_small(other.headline)}", told.look, other.look)


def _small(sentence: str) -> str:
    return f"{sentence[:1].lower()}{sentence[1:]}"


_SQUARES_LOOK = (
    "Hold the {row} against the one below: from one square on, the posts no longer stand on each other."
)
_SQUARES_FEEL = "Count the {squares} with a fingertip from both ends: where do they stop standing in line?"
"""In filet a square that is missing or too many shows in the posts, not in a place that is empty or full."""


def _one(placed: Placed, mistake: Mistake, uk: bool, mesh: int | None) -> Sentences:
    row = CAUSES[mistake.cause]
    words = _words(placed, mistake, uk)
    headline, look, feel = row.headline, row.look, row.feel
    if mesh and mistake.cause in _OF_SQUARES and (squares := _squares(_meant(placed, mistake), mesh)):
        words["what"], look, feel = squares, _SQUARES_LOOK, _SQUARES_FEEL
        words["squares"] = "squares" if "," in squares else f"{squares.split()[1].removesuffix('s')}s"
        if squares == "one block":
            headline = f"One block {_OF_SQUARES[mistake.cause]}."
    change = changed(placed.worked.elements, mistake)
    if mistake.cause == "missed_turning_chain" and any(name.startswith("ch-") for name in change):
        what = "window" if mesh else "chain space"
        headline = f"The last {what} is not closed: its {{st}} goes into the turning chain."
    elif mistake.cause == "edge_increase_missed" and len(mistake.edits) > 1:
        headline = "The increases at both edges were not made."
    elif mistake.cause == "doubled_stitch" and _group_at(placed, mistake) is not None:
        headline = "One group has one {st} too many: {what} belong in it."
        look = "Look at each group: one is fuller than the others."
        feel = "Count each group under a fingertip: is there one more in one?"
    elif mistake.cause == "chain_omitted" and change.get("picot"):
        headline, look, feel = _PICOT
    elif mistake.cause == "group_missed" and sum(change.values()) == -1:
        headline = "One chain space was passed over: {what} belongs in it."
    if not mesh and mistake.cause in _IN_LACE:
        headline, look, feel = _IN_LACE[mistake.cause]
    if words["row"] == "round":
        look = look.replace(_EDGE, _SEAM)
    return Sentences(*(text.format(**words) for text in (headline, look, feel)))


_PICOT = (
    "One picot was left out.",
    "Look along the edge: between two picots the way is twice as long.",
    "Run a fingertip along the tips: is there one too few?",
)
_EDGE, _SEAM = "the edge s", "the seam s"
"""A round has no edge that slants or steps: where it closes does."""
_ON = "from some place on, its stitches no longer stand where they did."
_IN_LACE = {
    "mesh_skipped": (
        "One {st} is missing, with its chain {n}.",
        f"Hold the {{row}} against the one below: {_ON}",
        "Feel from chain to chain: is one twice as far as the others?",
    ),
    "extra_mesh": (
        "One {st} too many, with its chain {n}.",
        f"Hold the {{row}} against the one below: {_ON}",
        "Feel from chain to chain: do two stand over one?",
    ),
    "block_for_mesh": (
        "A chain {n} was worked as stitches.",
        "Look along the {row}: one place is solid where a hole should be.",
        "Push a fingertip through each hole: is one closed?",
    ),
    "mesh_for_block": (
        "A chain stands where {st} should be.",
        "Look along the {row}: one place is open that should be solid.",
        "Run a fingertip along the solid part: does it fall through?",
    ),
}
"""Squares, windows and pictures are of filet: elsewhere it is a stitch with its chain."""


_OF_SQUARES = {"group_missed": "is missing", "repeat_missed": "is missing", "extra_repeat": "too many"}
"""Causes by which whole squares are missing or too many."""


def _squares(elements: tuple[Element, ...], mesh: int) -> str:
    """Elements as squares, "one window, two blocks"; "" where they are no whole squares."""
    kinds: list[str] = []
    at = 0
    while at < len(elements):
        if elements[at].kind == SP:
            kinds.append("window")
            at += 2
        else:
            kinds.append("block")
            at += mesh + 1
    if at != len(elements) or any(elements[n].kind == SP for n in range(1, at) if elements[n - 1].kind == SP):
        return ""
    runs = ((kind, len([*run])) for kind, run in groupby(kinds))
    return ", ".join(f"{spoken_number(many)} {kind}{'s' if many > 1 else ''}" for kind, many in runs)


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
    if mistake.cause == "doubled_stitch" and (group := _group_at(placed, mistake)) is not None:
        return elements[group.start : group.end]
    if edit.start == edit.end:
        return edit.put
    if mistake.cause in ("group_short", "corner_single"):
        for part in parts_of_row(placed):
            if part.start <= mistake.at < part.end:
                return elements[part.start : part.end]
    return elements[edit.start : edit.end]


def _group_at(placed: Placed, mistake: Mistake) -> Part | None:
    """The shell, fan or corner of several stitches that a mistake happens in; None for single ones."""
    return next(
        (
            part
            for part in parts_of_row(placed)
            if part.what in ("group", "corner") and part.start == mistake.at and part.end - part.start > 1
        ),
        None,
    )


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
