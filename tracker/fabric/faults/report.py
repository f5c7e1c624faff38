"""Faults met while a row was worked, as problems that a maker can read.

Each is said once, at the first row that shows it, and not at all where what the row was worked onto is not known.
"""

from collections import Counter
from itertools import pairwise

from tracker.expressions import expression
from tracker.fabric.checks.leftovers import ENDS_HERE
from tracker.fabric.model import CH, HIDDEN, SP
from tracker.fabric.readings.history import Record
from tracker.fabric.rows.outcome import Outcome
from tracker.fabric.stated import far_off, holds_words
from tracker.notation.pattern import Pattern
from tracker.notation.tree import ANY, Group, Repeat, Skip, Stated, Which, Work
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline
from tracker.trade.nouns import amount
from tracker.trade.stitches import STITCHES, parts_of, written


def problems_of(record: Record, index: int, pattern: Pattern, seen: set[tuple[object, ...]]) -> list[Problem]:
    """Problems of one worked row."""
    unit, outcome = record.unit, record.outcome
    if not record.sure or not outcome.understood:
        # of a row whose words could not be read, only that can honestly be said
        return []
    out: list[Problem] = []
    if not outcome.found and not outcome.wrong:
        return out
    label = unit.printed
    vague = holds_words(unit.row.items)
    kinds = _other_kinds(record)
    far = kinds is None and _far_off(outcome)
    doubted = vague or far
    mark: tuple[object, ...]
    told: set[str] = set()
    stuck = {fault.says for fault in outcome.found if fault.code in _STUCK and fault.weight >= 4}
    for fault in outcome.found:
        mark = (fault.code, fault.span.start, fault.span.end)
        if mark in seen or fault.says in told:
            continue  # what two phrases of a row miss alike is one fault
        seen.add(mark)
        told.add(fault.says)
        severity = Severity.ERROR if fault.weight >= 4 else Severity.WARNING
        if fault.weight <= 1 and not (fault.code == "C206" and outcome.wrong):
            # stitches passed over in silence may be meant, but for a count that says otherwise
            severity = Severity.NOTE
        if fault.code == "C202" and not outcome.wrong and fault.weight < 10:
            odd = _silence_is_odd(record, fault.label == ENDS_HERE) or _few_jumped(record, fault.says)
            meant = unit.row.stated and not odd
            severity = Severity.NOTE if meant else Severity.WARNING
        if severity is Severity.ERROR and doubted:
            severity = Severity.WARNING
        if fault.code in _OF_WHAT_IS_LEFT and told & stuck:
            continue  # what is left over behind words that cannot be worked follows from them
        if vague and outcome.wrong:
            continue  # the count that differs tells of all that went astray there
        out.append(
            Problem(
                fault.code,
                severity,
                headline(label, in_terms(fault.says, pattern.uk)),
                Label(fault.span, fault.label),
                label,
                index,
                unit.part,
                in_terms(fault.help, pattern.uk),
            )
        )
    if outcome.wrong:
        stated = _stated_of(record)
        span = stated[0].span if stated else unit.label_span
        mark = ("C201", span.start)
        if mark not in seen:
            seen.add(mark)
            out.append(
                Problem(
                    "C201",
                    Severity.WARNING if doubted else Severity.ERROR,
                    headline(label, _says(outcome.wrong, pattern.uk, kinds)),
                    Label(span, "this count"),
                    label,
                    index,
                    unit.part,
                    _OTHER_KINDS if kinds is not None else MISREAD if far else _either(outcome.wrong),
                )
            )
    return out


_STUCK = frozenset(("C203", "C205"))
_OF_WHAT_IS_LEFT = frozenset(("C202", "C204"))
"""Codes of faults that words cannot be worked, and of what is then left over."""


def _silence_is_odd(record: Record, at_end: bool) -> bool:
    """True where stitches that are left without a word are likelier forgotten than meant, though the count agrees."""
    below, items = record.outcome.below, record.unit.row.items
    if any(e.kind == CH for e in below):
        return False
    if record.unit.kind == "round" and not any(e.kind == SP for e in below):
        # in a round of plain stitches nothing is passed over; among spaces and petals much is, and rightly
        return True
    if at_end and any(isinstance(item, Repeat) for item in items):
        # what goes on in repeats goes on to the end
        return True
    if any(e.kind == SP or e.group for e in below) or any(isinstance(item, (Skip, Group)) for item in items):
        return False
    stops = any(isinstance(i, Work) and i.where.stop is not None and i.where.stop.left for i in items[-1:])
    used = [place for element in record.outcome.elements for place in element.into]
    return not stops and sum(e.is_stitch for e in below) - len(set(used)) <= _FEW


def _few_jumped(record: Record, says: str) -> bool:
    """True where a few are jumped over before the last: "dc in next 2 dc, dc in top of ch-3" onto three dc."""
    if not says.startswith(("leaves 1 stitch ", "leaves 2 stitches ", "leaves 3 stitches ")):
        return False
    works = [i for i in record.unit.row.items if isinstance(i, (Work, Group, Repeat, Skip))]
    return any(
        isinstance(before, Work)
        and isinstance(last, Work)
        and last.where.which in (Which.TOP, Which.LAST)
        and before.where.which is Which.NEXT
        and before.where.many > 1
        and all(kind.name == ANY or kind.name in STITCHES for kind in before.where.kinds)
        for before, last in pairwise(works)
    )


_FEW = 2
"""Stitches of which so many are left by a slip, and not for a strap or a flap."""


def _either(wrong: tuple[tuple[str, int, int], ...]) -> str:
    """What tells whether the count or the words are wrong."""
    if len(wrong) > 1:
        return "Either the counts or the words are wrong. Work the row on paper; what the next one uses tells which."
    _, stated, worked = wrong[0]
    return f"Either the count or the words are wrong. What the next row works into tells which: {worked} or {stated}."


_OTHER_KINDS = "The number agrees: one of them is called by another's name, in the words or in the count."
MISREAD = "So large a difference may come from words that were misread: compare the row with how it is told."


def _far_off(outcome: Outcome) -> bool:
    """True when a row ends so far from what is stated that its words are likelier misread than wrong.

    A stitch that is not there, or a repeat that does not come out, is told by the words themselves.
    """
    if any(fault.weight >= 5 and fault.code not in ("C202", "C207") for fault in outcome.found):
        return False
    if not any(element.is_stitch for element in outcome.elements):
        return False
    return far_off(outcome.wrong)


def _stated_of(record: Record) -> tuple[Stated, ...]:
    """The counts printed for a row: its own, where it refers to another."""
    extra = record.unit.extra
    if extra is not None and extra.stated:
        return extra.stated
    return record.unit.row.stated


def _other_kinds(record: Record) -> tuple[dict[str, int], dict[str, int]] | None:
    """What is made and what is stated, as far as they differ, where only the kinds do; None where numbers do too."""
    stated = _stated_of(record)
    if len(stated) != 1 or stated[0].change or stated[0].partial or stated[0].without:
        return None
    told = dict(stated[0].counts)
    elements = [e for e in record.outcome.elements if e.kind != HIDDEN]
    for name in [name for name in told if not _plain(name)]:
        # "7 bobbles, 22 sc": where the bobbles agree, the others are compared
        named = [e for e in elements if name in (e.special, e.kind)]
        if told.pop(name) != len(named):
            return None
        elements = [e for e in elements if e not in named]
    made = Counter(e.name for e in elements)
    if not told or not all(map(_plain, made)):
        return None
    for spaces in (False, True):
        names = [name for name in told if name.endswith("sp") is spaces]
        there = [name for name in made if name.endswith("sp") is spaces]
        if names and sum(told[n] for n in names) != sum(made[n] for n in there):
            return None
        if not names or "sp" in names:
            # a count that leaves the spaces out tells nothing of them, nor of how long they are
            told.pop("sp", None)
            made = Counter({name: many for name, many in made.items() if name not in there})
    differing = [name for name in {**made, **told} if made[name] != told.get(name, 0)]
    return (
        {name: made[name] for name in differing if made[name]},
        {name: told[name] for name in differing if name in told},
    )


def _plain(name: str) -> bool:
    """True for a stitch of the table, or a space."""
    return name == "sp" or name.startswith("ch-") or parts_of(name)[1] in STITCHES


def _says(
    wrong: tuple[tuple[str, int, int], ...],
    uk: bool,
    kinds: tuple[dict[str, int], dict[str, int]] | None,
) -> str:
    """ "makes 23, the pattern says 24"; with `kinds` that differ in number only, "makes 1 dc, 23 hdc, …"."""
    if kinds is not None and all(kinds):
        made, told = (
            ", ".join(amount(many, name_of(name, uk)) for name, many in side.items()) for side in kinds
        )
        return f"makes {made}, the pattern says {told}"
    if len(wrong) == 1:
        name, stated, worked = wrong[0]
        return f"makes {amount(worked, name_of(name, uk))}, the pattern says {stated}"
    made = ", ".join(amount(worked, name_of(name, uk)) for name, _, worked in wrong)
    told = ", ".join(amount(stated, name_of(name, uk)) for name, stated, _ in wrong)
    return f"makes {made}, the pattern says {told}"


def in_terms(words: str, uk: bool) -> str:
    """What was met while a row was worked, with the stitches called as the pattern calls them.

    >>> in_terms("there is no sc left to work into, the next stitch is a dc2tog", True)
    'there is no dc left to work into, the next stitch is a tr2tog'
    """
    return _NAME.sub(lambda hit: written(hit.group(), True), words) if uk else words


_NAME = expression(r"\b[a-z]+(?:\d+tog)?\b")


def name_of(name: str, uk: bool) -> str:
    """One counted thing: "dc", "ch-2 sp", "stitch" for stitches of any kind."""
    if name in ("", ANY):
        return "stitch"
    if len(own := name.removeprefix("?")) == 1:
        return f"{own.upper()}-st"
    return own if own.endswith(" sp") else written(own, uk)
