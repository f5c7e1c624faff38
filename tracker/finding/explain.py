"""The likeliest causes of a miscount, likeliest first, each with what to look at and what to feel for.

A fabric, a row and a count come in; Explained comes out. Candidates are made and ranked as a spelling corrector does
it (Peter Norvig, "How to Write a Spelling Corrector", https://norvig.com/spell-correct.html): every row that is one
mistake away, then two, kept when it gives exactly the count, as his candidates are kept when they are words; ranked by
how often makers make the mistake (his error model) times how many places of this row ask for it (in the place of his
language model: there is one right row, so no row is likelier than another beforehand); and all that is one mistake
away goes before all that is two. Not taken: that all single mistakes are equally likely, which he says is too simple.
Nothing raises.
"""

from collections.abc import Iterable, Mapping
from itertools import islice

from tracker.fabric.model import Element, Fabric, Placed
from tracker.finding.causes.edits import Mistake, apart, changed, meshes, work_again
from tracker.finding.causes.parts import row_word
from tracker.finding.causes.table import ALIKE, CAUSES, SAME_PLACES, TOGETHER
from tracker.finding.causes.wording import Sentences, sentences
from tracker.finding.evidence import Tally, alike
from tracker.finding.mistakes import single_mistakes
from tracker.finding.rows import row_mistakes, wrong_row
from tracker.program.row.squares import mesh_of, squares_of
from tracker.records import dataclass, field, replace
from tracker.trade.stitches import written

MOST = 6
"""Causes told."""
EXAMPLES = 60
"""Places kept of each kind of mistake."""
FAR = 0.08
"""Two mistakes that are so much less likely than the likeliest cause are not told."""
MESHED = 100
"""Rows of a stretch that are looked at for open squares: a piece that has them has them early."""
OFTEN = 4
"""How many times over a mistake is told at most; more is another matter."""
AGAIN = 2.0
"""What was done wrong once is so much likelier to be done wrong again."""
EVERYWHERE = 0.12
"""How often a cause that is there at all is there at every place."""


@dataclass(frozen=True, slots=True)
class Likely:
    """One cause of a miscount."""

    cause: str
    sentences: Sentences
    likelihood: float
    """All causes told together have 1."""
    mistakes: tuple[Mistake, ...]
    """What was done wrong, in one of the places where it can have been; empty for whole rows."""
    places: tuple[int, ...] = ()
    """Indices of elements of the row where it can have happened, from 0."""
    also: tuple[str, ...] = ()
    """Causes that look alike and are told with it."""

    @property
    def headline(self) -> str:
        return self.sentences.headline

    @property
    def look(self) -> str:
        return self.sentences.look

    @property
    def feel(self) -> str:
        return self.sentences.feel


@dataclass(frozen=True, slots=True)
class Explained:
    """A row's count, and why another was found."""

    row: str
    expected: dict[str, int]
    """By kind, in the pattern's terms."""
    have: dict[str, int]
    causes: tuple[Likely, ...]
    """Likeliest first, at most MOST."""
    note: str = ""
    """One sentence when there is no cause to tell."""

    def shown(self) -> dict[str, object]:
        """As JSON has it."""
        causes = [
            {
                "cause": each.cause, "headline": each.headline, "look": each.look, "feel": each.feel,
                "likelihood": round(each.likelihood, 4),
            }
            for each in self.causes
        ]  # fmt: skip
        return {"row": self.row, "expected": self.expected, "have": self.have, "causes": causes}


@dataclass(slots=True)
class _Kind:
    """All mistakes of one cause that change the counts alike."""

    cause: str
    change: dict[str, int]
    chances: float = 0.0
    """Places where it can happen, each as much as it is likely there."""
    examples: list[Mistake] = field(default_factory=list)
    places: int = 0

    @property
    def chance(self) -> float:
        row = CAUSES[self.cause]
        return min(row.most * min(1.0, self.chances), row.rate * self.chances)


def explain_miscount(fabric: Fabric, index: int, have: Tally, uk: bool = False) -> Explained:
    """Why a row (from 1) has what the maker counted, and not what it should."""
    placed = fabric.row(index)
    worked = placed.worked
    expected = {written(name, uk): number for name, number in worked.makes.items()}
    shown = have.shown(uk)
    if not worked.elements or _gives(have, worked.makes, False):
        note = (
            "That is what the row should have."
            if worked.elements
            else "What stands on this row is not known."
        )
        return Explained(placed.label, expected, shown, (), note)
    kinds = _kinds(placed, meshes(row for stretch in fabric.stretches for row in stretch.rows[:MESHED]))
    found: list[tuple[float, _Kind, tuple[Mistake, ...]]] = []
    for loosely in (False, True):
        found = [*_once(kinds, worked.makes, have, loosely), *_everywhere(kinds, worked.makes, have, loosely)]
        if len(found) < 3:
            found.extend(_twice(kinds, worked.makes, have, loosely))
        if not found:
            found.extend(_often(kinds, worked.makes, have, loosely))
        if found:
            break
    mesh = mesh_of(fabric)
    filet = mesh if mesh and squares_of(worked, mesh) else None
    causes = [_told(placed, uk, filet, *each) for each in found]
    causes.extend(_of_rows(fabric, index, have, worked.makes))
    told = _ranked(causes, any(len(e.into) > 1 for e in worked.elements))
    note = "" if told else "No one or two slips give that count: count once more, and count the row below."
    return Explained(placed.label, expected, shown, told, note)


def _kinds(placed: Placed, mesh: frozenset[tuple[str, int]]) -> list[_Kind]:
    """Every mistake of the row, those alike together."""
    kinds: dict[tuple[str, tuple[tuple[str, int], ...]], _Kind] = {}
    for mistake in single_mistakes(placed, mesh):
        change = changed(placed.worked.elements, mistake)
        if not change:
            continue
        key = (mistake.cause, tuple(sorted(change.items())))
        kind = kinds.setdefault(key, _Kind(mistake.cause, change))
        kind.chances += mistake.odd
        kind.places += 1
        if len(kind.examples) < EXAMPLES:
            kind.examples.append(mistake)
    return list(kinds.values())


def _gives(have: Tally, makes: Mapping[str, int], loosely: bool) -> bool:
    """True when a row with these counts is what the maker counted; kinds not mentioned may be anything."""
    told = dict(have.counts)
    held = alike(makes, told) if loosely else makes
    if any(number < 0 for number in makes.values()):
        return False
    if have.stitches is not None:
        stitches = sum(k for name, k in makes.items() if not name.startswith("ch-") and name != "picot")
        if stitches != have.stitches:
            return False
    return all(held.get(name, 0) == number for name, number in told.items())


def _after(makes: Mapping[str, int], *changes: Mapping[str, int], times: int = 1) -> dict[str, int]:
    out = dict(makes)
    for change in changes:
        for name, number in change.items():
            out[name] = out.get(name, 0) + number * times
    return out


def _unsaid(have: Tally, makes: Mapping[str, int], *changes: Mapping[str, int]) -> float:
    """Less likely for each kind that stands on the row without being in the maker's count by kinds.

    Who counts spaces counts all of them, so that a kind not spoken of is not there; who counts only stitches may
    have left the spaces out.
    """
    if not have.counts:
        return 1.0
    told = {name for name, _ in have.counts}
    spaces = any(name.startswith("ch-") for name in told)
    strange = {name for change in changes for name in change} - told
    there = {name for name, number in _after(makes, *changes).items() if number} - told
    if spaces:
        return float(0.4 ** len(there))
    return float(0.4 ** len(strange))


Candidate = tuple[float, _Kind, tuple[Mistake, ...]]


def _example(kind: _Kind) -> Mistake:
    """One in the middle: what stands at the edges is often not like the rest."""
    return kind.examples[len(kind.examples) // 2]


def _once(kinds: Iterable[_Kind], makes: Mapping[str, int], have: Tally, loosely: bool) -> list[Candidate]:
    return [
        (kind.chance * _unsaid(have, makes, kind.change), kind, (_example(kind),))
        for kind in kinds
        if _gives(have, _after(makes, kind.change), loosely)
    ]


def _everywhere(
    kinds: Iterable[_Kind], makes: Mapping[str, int], have: Tally, loosely: bool
) -> list[Candidate]:
    """One thing misread, and so done wrong at every place."""
    return [
        (kind.chance * EVERYWHERE * _unsaid(have, makes, kind.change), kind, tuple(kind.examples))
        for kind in kinds
        if CAUSES[kind.cause].everywhere
        and 1 < kind.places == len(kind.examples)
        and _gives(have, _after(makes, kind.change, times=kind.places), loosely)
        and all(apart(a, b) for a, b in zip(kind.examples, kind.examples[1:], strict=False))
    ]


def _twice(kinds: list[_Kind], makes: Mapping[str, int], have: Tally, loosely: bool) -> list[Candidate]:
    out: list[Candidate] = []
    for n, one in enumerate(kinds):
        for other in kinds[n:]:
            if not _gives(have, _after(makes, one.change, other.change), loosely):
                continue
            if all(one.change.get(k, 0) == -v for k, v in other.change.items()):
                continue
            pair = next(((a, b) for a in one.examples[:8] for b in other.examples[-8:] if apart(a, b)), None)
            if pair is None:
                continue
            first = one if one.chance >= other.chance else other
            chance = one.chance * other.chance * (AGAIN if one is other else 1.0)
            out.append((chance * _unsaid(have, makes, one.change, other.change), first, pair))
    return sorted(out, key=lambda each: -each[0])[:MOST]


def _often(kinds: Iterable[_Kind], makes: Mapping[str, int], have: Tally, loosely: bool) -> list[Candidate]:
    """The same thing done wrong several times, when nothing less gives the count."""
    out: list[Candidate] = []
    for kind in kinds:
        chosen: list[Mistake] = []
        for example in kind.examples:
            if not chosen or apart(chosen[-1], example):
                chosen.append(example)
            if len(chosen) > OFTEN:
                break
            if len(chosen) > 2 and _gives(have, _after(makes, kind.change, times=len(chosen)), loosely):
                out.append((float(kind.chance ** len(chosen)), kind, tuple(chosen)))
                break
    return sorted(out, key=lambda each: -each[0])[:3]


def _told(
    placed: Placed, uk: bool, mesh: int | None, chance: float, kind: _Kind, mistakes: tuple[Mistake, ...]
) -> Likely:
    places = tuple(m.at for m in kind.examples)
    return Likely(kind.cause, sentences(placed, mistakes, uk, mesh), chance, mistakes, places)


def _of_rows(fabric: Fabric, index: int, have: Tally, makes: Mapping[str, int]) -> Iterable[Likely]:
    placed = fabric.row(index)
    # kinds of stitches that do not belong on the row tell of another row at once
    strange = 4.0 if have.counts and {name for name, _ in have.counts} != set(makes) else 1.0
    for mistake in (*row_mistakes(fabric, index, have), *wrong_row(fabric, index, have)[:1]):
        row = CAUSES[mistake.cause]
        look, feel = (text.format(row=row_word(placed)) for text in (row.look, row.feel))
        chance = row.rate * strange * (0.5 if abs(mistake.index - index) > 1 else 1.0)
        yield Likely(mistake.cause, Sentences(mistake.headline, look, feel), chance, ())


def _ranked(causes: Iterable[Likely], narrowing: bool) -> tuple[Likely, ...]:
    """One entry for each cause, those that look alike together, likeliest first; one mistake before two."""
    by_name: dict[str, Likely] = {}
    for each in sorted(causes, key=lambda c: (len(c.mistakes) > 1, -c.likelihood)):
        if (best := by_name.get(each.cause)) is None:
            by_name[each.cause] = each
        else:
            places = tuple(dict.fromkeys((*best.places, *each.places)))
            # kinds of stitches share what one cause may come to: a row of two kinds has no more slips than one of one
            likelihood = best.likelihood + each.likelihood * 0.5
            if len(best.mistakes) == 1:
                likelihood = max(best.likelihood, min(likelihood, CAUSES[each.cause].most))
            by_name[each.cause] = replace(best, likelihood=likelihood, places=places)
    most = max((each.likelihood for each in by_name.values()), default=0.0)
    by_name = {
        k: each for k, each in by_name.items() if len(each.mistakes) < 2 or each.likelihood > most * FAR
    }
    for one, other in ALIKE:
        if not (narrowing and other == "extra_decrease"):
            _tell_together(by_name, one, other)
    for one, other in SAME_PLACES:
        if one in by_name and other in by_name and {*by_name[one].places} & {*by_name[other].places}:
            _tell_together(by_name, one, other)
    for one, other in TOGETHER:
        if len(by_name) > MOST:
            _tell_together(by_name, one, other)
    ranked = sorted(by_name.values(), key=lambda c: -c.likelihood)[:MOST]
    whole = sum(each.likelihood for each in ranked) or 1.0
    return tuple(replace(each, likelihood=each.likelihood / whole) for each in ranked)


def _tell_together(by_name: dict[str, Likely], one: str, other: str) -> None:
    a, b = by_name.get(one), by_name.get(other)
    if a is None or b is None or len(a.mistakes) != len(b.mistakes):
        return
    lead, less = (a, b) if a.likelihood >= b.likelihood else (b, a)
    del by_name[less.cause]
    by_name[lead.cause] = replace(
        lead, likelihood=lead.likelihood + less.likelihood, also=(*lead.also, less.cause, *less.also),
        places=tuple(dict.fromkeys((*lead.places, *less.places))),
    )  # fmt: skip


def row_with(fabric: Fabric, index: int, likely: Likely) -> tuple[Element, ...]:
    """What stands on the row when that is what happened."""
    return work_again(fabric.row(index).worked.elements, likely.mistakes)


def slip_in(fabric: Fabric, index: int, seen: tuple[str, ...], uk: bool = False) -> Likely | None:
    """The likeliest single mistake with which a row begins as it was seen; None when no one mistake does it."""
    placed = fabric.row(index)
    best: tuple[float, _Kind, Mistake] | None = None
    for kind in _kinds(placed, meshes(row for stretch in fabric.stretches for row in stretch.rows[:MESHED])):
        for mistake in kind.examples if best is None or kind.chance > best[0] else ():
            names = (e.name for e in work_again(placed.worked.elements, (mistake,)) if e.counts)
            if tuple(islice(names, len(seen))) == seen:
                best = (kind.chance, kind, mistake)
                break
    return _told(placed, uk, None, best[0], best[1], (best[2],)) if best else None
