"""The one question that tells the places a maker may be at apart best.

Places come in; a Question comes out. It is worth the doubt its answer takes away, in bits, times how easily a maker
answers it with the work in their lap.
"""

from collections import Counter
from collections.abc import Callable, Collection, Hashable, Iterable
from math import log2

from tracker.finding.where.index import Index, Look
from tracker.finding.where.places import Place, Places
from tracker.records import dataclass
from tracker.trade.stitches import parts_of, said

SAMPLE = 300
"""Places a question is chosen by: the likeliest ones."""
LOOKED_AT = 60
"""Places for which a question about rows further below is tried."""
DEEP = 40
"""Rows counted back by such a question."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question."""

    about: str
    """What is asked: "rows", "count", "last", "corners", "below", "side", "part" or "above"."""
    words: str
    look: str = ""
    """For "above": the look that rows are counted from."""
    part: str = ""
    """For "rows": the part whose rows are counted."""
    answers: tuple[str, ...] = ()
    """What can be answered where that is no number: "RS" and "WS", names of parts, names of what was worked last
    with "" for nothing."""

    @property
    def key(self) -> str:
        """What tells it from other questions."""
        return f"{self.about} {self.look}".strip()


def best_question(index: Index, places: Places, uk: bool, passed: Collection[str] = ()) -> Question | None:
    """The question that splits the places best; None when there is nothing left to ask.

    `passed` has the keys of questions that the maker could not answer.
    """
    sample = places.unworded(SAMPLE)
    if len(sample) < 2:
        return None
    best: tuple[float, Question] | None = None
    for question, ease, answer in _questions(index, sample, uk):
        if question.key in passed:
            continue
        told = sample[:LOOKED_AT] if question.about == "above" else sample
        worth = _bits(told, answer) * ease
        if worth > 0 and (best is None or worth > best[0] + 1e-9):
            best = (worth, question)
    return best[1] if best else None


def _bits(sample: list[Place], answer: Callable[[Place], Hashable]) -> float:
    """How much doubt the answer takes away."""
    weights: Counter[Hashable] = Counter()
    for place in sample:
        weights[answer(place)] += place.likelihood  # type: ignore[assignment]
    whole = sum(weights.values())
    return -sum(w / whole * log2(w / whole) for w in weights.values() if w > 0)


Asked = tuple[Question, float, Callable[[Place], Hashable]]


def _questions(index: Index, sample: list[Place], uk: bool) -> Iterable[Asked]:
    """Every question there is for these places, with how easily it is answered."""
    first = index.placed(min(sample[0].index, index.length))
    round_ = "round" if first is not None and first.kind == "round" else "row"
    parts = {_part(index, place) for place in sample}
    if len(parts) > 1:
        names = sorted(part or "" for part in parts)
        named = [part or "the one without a name" for part in names]
        words = f"Which part is it: {', '.join(named[:-1])} or {named[-1]}?"
        yield Question("part", words, answers=tuple(names)), 1.2, lambda p: _part(index, p) or ""
    yield from _of_the_row(index, sample, round_, uk)
    deepest = max(place.index for place in sample)
    ease = 1.0 if deepest <= 25 else 0.8 if deepest <= 80 else 0.5
    stood = {_stood_on(index, place) for place in sample}
    if len(parts) < 2 or len(stood) < 2:
        # rows are counted from where the part begins; who has begun none of a part counts those of the one before
        part = next(iter(parts if len(parts) < 2 else stood), None) or ""
        words = f"How many {round_}s are finished?"
        yield Question("rows", words, part=part), ease, lambda p: p.index
    yield (
        Question("below", f"How many stitches are on the last finished {round_}?"),
        0.9,
        lambda p: _below(index, p),
    )
    sides = {_side(index, p) for p in sample}
    if None not in sides:
        yield (
            Question("side", "Does the right side face you, or the wrong side?", answers=("RS", "WS")),
            1.1,
            lambda p: _side(index, p),
        )
    yield from _further_down(index, sample, round_, uk)


def _of_the_row(index: Index, sample: list[Place], round_: str, uk: bool) -> Iterable[Asked]:
    """Questions about the row on the hook."""
    lasts = sorted({_last(index, p) or "" for p in sample}, key=lambda name: (not name, name))
    if 1 < len(lasts) <= 5 and any(lasts[1:]):
        listed = [f"a {spoken(name, uk)}" if name else f"nothing of this {round_} yet" for name in lasts]
        words = f"What did you work last: {', '.join(listed[:-1])} or {listed[-1]}?"
        yield Question("last", words, answers=tuple(lasts)), 1.1, lambda p: _last(index, p) or ""
    most = max(p.stitches_done for p in sample)
    ease = 1.0 if most <= 40 else 0.85 if most <= 120 else 0.6
    yield (
        Question("count", f"How many stitches are on this {round_} so far?"),
        ease,
        lambda p: p.stitches_done,
    )
    if any(_corners(index, p) for p in sample):
        words = f"How many corners has this {round_} so far?"
        yield Question("corners", words), 1.05, lambda p: _corners(index, p)


def _further_down(index: Index, sample: list[Place], round_: str, uk: bool) -> Iterable[Asked]:
    """Questions that count rows back to one that stands out."""
    told = sample[:LOOKED_AT]
    looks = {n for p in told for k in range(1, DEEP) if (n := index.at(p.index - k)) is not None}
    kinds = {like for n in looks for like in _likes(index.looks[n])}
    for like in sorted(kinds):
        if all(like in _likes(index.looks[n]) for n in looks):
            continue
        words = f"How many {round_}s stand above the last {look_named(like, round_, uk)}?"
        yield Question("above", words, like), 0.9, lambda p, like=like: _above(index, p, like)  # type: ignore[misc]


def look_named(like: str, round_: str, uk: bool) -> str:
    """A look as it is said: "row with spaces", "round without spaces", "row with bobbles in it"."""
    of_spaces = {"open": f"{round_} with spaces", "solid": f"{round_} without spaces"}
    return of_spaces.get(like) or f"{round_} with {said(like, uk)}s in it"


def _likes(look: Look) -> set[str]:
    """Words by which a row may be known: open or solid, and the stitches that stand out."""
    out = {"open" if any(name.startswith("ch-") for name in look.makes) else "solid"}
    return out | {
        n for n in look.makes if not n.startswith("ch-") and (parts_of(n)[0] or parts_of(n)[1] in _BOLD)
    }


_BOLD = ("bo", "puff", "pop", "cl", "picot", "spsc", "revsc")


def _above(index: Index, place: Place, like: str) -> int:
    for k in range(DEEP):
        look = index.at(place.index - 1 - k)
        if look is None:
            return -1
        if like in _likes(index.looks[look]):
            return k
    return DEEP


def _part(index: Index, place: Place) -> str | None:
    placed = index.placed(place.index) or index.placed(place.index - 1)
    return placed.part if placed else None


def _stood_on(index: Index, place: Place) -> str | None:
    """The part of the last row that was finished, where none of the next is worked."""
    placed = None if place.elements_done else index.placed(place.index - 1)
    return placed.part if placed else _part(index, place)


def _side(index: Index, place: Place) -> str | None:
    placed = index.placed(place.index)
    return placed.worked.side if placed else None


def _last(index: Index, place: Place) -> str | None:
    """What was worked last in the row on the hook; None at its start."""
    look = index.at(place.index)
    if look is None or not place.elements_done:
        return None
    return index.looks[look].names[place.elements_done - 1]


def _corners(index: Index, place: Place) -> int:
    look = index.at(place.index)
    return 0 if look is None else sum(1 for k in index.looks[look].corners if k < place.elements_done)


def _below(index: Index, place: Place) -> int:
    """Stitches on the last finished row; 0 where there is none below."""
    look = index.at(place.index - 1)
    if look is None or index.placed(place.index) is not None and index.starts_afresh(place.index):
        return 0
    return index.looks[look].stitches


def spoken(name: str, uk: bool) -> str:
    """A stitch or a space as it is said: "double crochet", "chain 2"."""
    if name.startswith("ch-"):
        return f"chain {name[3:].split()[0]}"
    return said(name, uk)
