"""What the rows have taught about turning chains: said once for all, or proved by the arithmetic of a row.

Keys: ("chain", chains) or ("chain", "") for what a turning chain counts as, ("chain stated", …) when that was said
for all rows, the key of any doubt that a row settled, ("proved", key) where the count of that row proved it, and
("known", key) for a first row in which common practice holds.
"""

from collections.abc import Iterable, Mapping, Sequence

from tracker.fabric.rows.opening.rising import skips_first
from tracker.fabric.working.hook import Choice
from tracker.notation.moved import as_told
from tracker.notation.pattern import Pattern, Row
from tracker.notation.tree import Chain, Edge, Group, Item, Repeat, Say, Turn, Turning, Work

Habit = dict[object, Choice]


def first_habits(pattern: Pattern) -> Habit:
    """What the pattern's notes say of turning chains."""
    habits: Habit = {}
    for chains, turning in pattern.habits.turning:
        _learn(habits, chains, turning)
    return {**habits, **_known_first_rows(pattern)}


def _known_first_rows(pattern: Pattern) -> Habit:
    """First rows whose skipped chains stand for what common practice says: no row of the pattern says otherwise."""
    said = [(chains, turning.counts) for chains, turning in pattern.habits.turning]
    said += [told for told in map(_counting, pattern.blocks) if told is not None]
    known: Habit = {}
    if all(not counts for chains, counts in said if chains in ("", 1)):
        known["known", ("first row", 2, 1)] = True
    two = {counts for chains, counts in said if chains in ("", 2)}
    if len(two) == 1 and not any(map(_both_sides, pattern.blocks)):
        # two chains are taken before a half double as they are at the start of the other rows
        known["first row", 2, 2] = ("st", "hdc", 0) if True in two else ("none",)
        known["known", ("first row", 2, 2)] = True
    tall = {counts for chains, counts in said if chains != 1}
    if tall == {True}:
        known["known", ("first row", 3, 3)] = known["known", ("first row", 4, 4)] = True
    return known


def _both_sides(block: object) -> bool:
    """True for a round along both sides of a chain: what its chains stand for is no rule of its later rounds."""
    return isinstance(block, Row) and any(
        isinstance(item, Edge) and item.name == "base" for item in block.items
    )


def _counting(block: object) -> tuple[int, bool] | None:
    """Chains that begin a row and whether they count, by what it says of them or by the stitch it skips behind them."""
    if not isinstance(block, Row):
        return None
    items = as_told(block.items)
    told = _stated_in(items)
    if told is not None:
        return told[0], told[1].counts
    chain = next((item for item in items if not isinstance(item, (Say, Turn))), None)
    if isinstance(chain, Chain) and skips_first(items[items.index(chain) + 1 :]):
        return chain.count, True
    return None


def _learn(habits: Habit, chains: int | str, turning: Turning) -> None:
    """Adds one statement."""
    habits[("chain", chains)] = (
        ("st", turning.as_stitch or "", turning.space) if turning.counts else ("none",)
    )
    if turning.throughout:
        habits[("chain stated", chains)] = True


def stated_turning(row: Row) -> tuple[int, Turning] | None:
    """Chains of a row's turning chain and what the row says of it, or None when it says nothing."""
    return _stated_in(row.items)


def _stated_in(items: Sequence[Item]) -> tuple[int, Turning] | None:
    chain: Chain | None = None
    for item in items:
        if isinstance(item, Chain) and chain is None:
            chain = item
        elif isinstance(item, Turning) and chain is not None:
            return chain.count, item
        elif isinstance(item, (Work, Group, Repeat)):
            return None
    return None


_OF_THE_WORDS = ("skip under", "times", "ending", "after slip stitches", "last sts")
"""Doubts about the words of one row: settled once, they hold whenever the row is worked again."""


def that_bear_on(habits: Habit, row: Row) -> list[tuple[object, Choice]]:
    """The habits that matter to a row: all but what was settled about the words of others."""
    start, end = row.span.start, row.span.end
    return [
        (key, choice)
        for key, choice in habits.items()
        if not (isinstance(key, tuple) and key[0] in _OF_THE_WORDS) or start <= int(key[1]) < end
    ]


def _against(habits: Habit, chains: int, turning: Turning) -> bool:
    """True when a row says of its chain what was ruled out for all rows: an error of that row, and no new habit."""
    known = habits.get(("chain", chains))
    stated = ("chain stated", chains) in habits and not turning.throughout
    return stated and isinstance(known, tuple) and (known[0] == "none") == turning.counts


def to_prove(habits: Habit, asked: Iterable[object]) -> bool:
    """True when a row asked what a turning chain stands for and no count has proved that yet."""
    return any(isinstance(key, tuple) and key[0] == "turn" and ("proved", key) not in habits for key in asked)


def learned(
    habits: Habit,
    row: Row,
    asked: Mapping[object, tuple[Choice, ...]],
    choices: Mapping[object, Choice],
    counted: bool = False,
) -> Habit:
    """Habits with what a row says of its turning chain, and with the doubts about it that it settled.

    `counted` when the row states a count that it makes: what its chain stands for is proved by that.
    """
    new: Habit = {}
    told = stated_turning(row)
    if told is not None and not _against(habits, *told):
        _learn(new, *told)
    for key, options in asked.items():
        taken = choices.get(key, habits.get(key, options[0]))
        if counted and isinstance(key, tuple) and key[0] == "turn" and habits.get(key, taken) == taken:
            new["proved", key] = True
        if not isinstance(key, tuple) or key in habits:
            continue
        if key not in choices:
            if key[0] == "turn":
                # what a chain stands for in one row it stands for in others like it
                new[key] = options[0]
            continue
        if key[0] == "turn" or key[0] in _OF_THE_WORDS:
            new[key] = choices[key]
    # the same ones where nothing is new: what is known of them by identity stays known
    told_before = all(key in habits and habits[key] == value for key, value in new.items())
    return habits if told_before else {**habits, **new}
