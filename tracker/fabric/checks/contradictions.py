"""C209 — allow no turning chain that is said both to count and not to count.

Whether the chain counts decides where the first stitch goes and how many the row makes. When it is said once for all
rows and a row says otherwise, every count of the pattern is in doubt.

    Ch 3 counts as dc throughout. … Row 4: Ch 3 (does not count as a st) …     C209
    Row 4: Ch 3, turn, …                                                    (mended)
"""

from collections.abc import Iterator, Sequence

from tracker.fabric.model import CH, SP, Element
from tracker.fabric.readings.habits import Habit, stated_turning
from tracker.fabric.working.hook import Hook
from tracker.notation.pattern import Row
from tracker.notation.tree import Chain, Item, Join, Say, Travel, Turn, Where, Which, Work
from tracker.problems import Label, Problem, Severity
from tracker.problems.headline import headline
from tracker.trade.stitches import height_of, parts_of

NO_SUCH_CHAIN = "no such chain"
"""What is said of a chain that is not there."""
ANOTHER_CHAIN = "another chain"
"""Of one that is there, and is not the top of the stitch."""
PLAIN = frozenset(("sc", "hdc", "dc", "tr", "dtr"))
"""Stitches that have no other name."""


def _joined_in(row: Row, chains: int) -> bool:
    """True for a round that is joined below the top of its own chain, "join in 3rd ch of ch-5"."""
    joins = [item.where for item in row.items if isinstance(item, Join) and item.where is not None]
    return any(where.which is Which.TOP and 0 < where.nth < chains for where in joins)


def _beyond(row: Row) -> Iterator[Problem]:
    """A round that is joined in the 6th chain of five."""
    begun = next((item for item in row.items if not isinstance(item, (Travel, Turn, Say))), None)
    if not isinstance(begun, Chain):
        return
    for item in row.items:
        where = item.where if isinstance(item, (Join, Work)) and item.stitch == "slst" else None
        if where is not None and where.which is Which.TOP and where.nth > begun.count:
            said = f"names chain {where.nth} of a beginning chain that has {begun.count}"
            place = Label(where.span, NO_SUCH_CHAIN)
            help_ = f"Join in one of its {begun.count} chains, or make a longer chain."
            yield Problem(
                "C205", Severity.ERROR, headline(row.label, said), place, row.label, None, row.part, help_
            )


def misjoined(items: Sequence[Item], hook: Hook) -> None:
    """C210 for a round that is joined in its first htr and has made none: it begins with another stitch.

    Only where plain stitches are all that was made: what else a stitch may be called is not known.
    """
    join = next((item for item in reversed(items) if isinstance(item, Join)), None)
    where = join.where if join is not None else None
    if where is not None and where.which is Which.TOP and where.nth:
        _joined_beside(where, hook)
    if where is None or where.which is not Which.FIRST or where.down > 1 or len(where.kinds) != 1:
        return
    made = [e for e in hook.made if e.is_stitch]
    there = list(dict.fromkeys(parts_of(e.kind)[1] for e in made))
    name = where.kinds[0].name
    if not made or name not in PLAIN or name in there or not PLAIN.issuperset(there):
        return
    if any(e.special for e in made):
        return
    hook.fault(
        "C210",
        where.span,
        f"is joined in its first {name}, and begins with a {made[0].kind}",
        "another stitch",
        f"Where that is meant, say “first {made[0].kind}”.",
        weight=2,
    )


def chain_named(hook: Hook, where: Where, top: Element, chains: int, what: str = "turning") -> None:
    """What is wrong with the chain that is named, of a chain of so many that stands for a stitch."""
    if where.nth > chains:
        says = f"names chain {where.nth} of a {what} chain that has {chains}"
        hook.fault("C205", where.span, says, NO_SUCH_CHAIN, weight=2)
    elif where.nth not in (0, top.chains) and top.chains == height_of(top.kind) <= chains:
        # skipped chains of a foundation are more than the stitch is high: which of them is its top is not known
        stand = f"{top.chains} stand" if top.chains > 1 else "stands"
        says = f"names chain {where.nth} of a {what} chain whose first {stand} for the stitch"
        hook.fault("C210", where.span, says, ANOTHER_CHAIN, weight=2)


def _joined_beside(where: Where, hook: Hook) -> None:
    """C210 for a round that is joined within the space of its chain, or below the top of the stitch it stands for."""
    top, space = (*hook.made[:2], None, None)[:2]
    if top is None or space is None or not (top.turning and top.is_stitch and space.turning):
        return
    if any(element.kind == CH for element in hook.below.elements):
        return  # "ch 5, (dc, ch 1) 7 times in first ch": its first chain holds the round, the next three are the dc
    if space.kind == SP and where.nth <= top.chains + space.chains:
        chain_named(hook, where, top, top.chains + space.chains, "beginning")


def contradictions(habits: Habit, row: Row) -> Iterator[Problem]:
    """What a row says of its turning chain against what was said of all of them, or against itself."""
    yield from _beyond(row)
    told = stated_turning(row)
    if told is None:
        return
    chains, turning = told
    if not turning.counts and _joined_in(row, chains):
        yield Problem(
            "C209",
            Severity.ERROR,
            headline(
                row.label, f"says that its chain {chains} does not count, and is joined in one of its chains"
            ),
            Label(turning.span, "and it is joined to"),
            row.label,
            None,
            row.part,
            "What a round is joined to in the middle stands for a stitch and a space. Count the round, and say what the"
            " chain counts as.",
        )
        return
    # what is said of "turning chains" in general is not said of the single chain before sc
    for key in (chains, "") if chains != 1 else (chains,):
        known = habits.get(("chain", key))
        if (
            isinstance(known, tuple)
            and habits.get(("chain stated", key))
            and (known[0] == "none") == turning.counts
        ):
            says, said = ("counts", "not to count") if turning.counts else ("does not count", "to count")
            yield Problem(
                "C209",
                Severity.ERROR,
                headline(
                    row.label, f"says that its chain {chains} {says}, and earlier all of them are said {said}"
                ),
                Label(turning.span, "the other way before"),
                row.label,
                None,
                row.part,
                "Count a row that begins with it: that tells which is meant. Say it once.",
            )
