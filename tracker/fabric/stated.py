"""What a stated count tells of the row it stands at, when the words cannot."""

from collections.abc import Container, Mapping, Sequence

from tracker.fabric.checks.counts import as_groups, differs
from tracker.fabric.model import CH, HIDDEN, SP, Element
from tracker.notation.moved import as_told
from tracker.notation.pattern import Order, Row, Special
from tracker.notation.tree import (
    ANY,
    Chain,
    Edge,
    Group,
    Item,
    Join,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Stated,
    Stop,
    Travel,
    Turn,
    Turning,
    Which,
    Work,
)
from tracker.records import replace
from tracker.trade.stitches import STITCHES, parts_of


def from_stated(stated: tuple[Stated, ...]) -> tuple[Element, ...] | None:
    """Elements as a stated count lists them, when it lists one kind of stitch; None otherwise."""
    for count in stated:
        if count.change or count.partial or len(count.counts) != 1:
            continue
        name, number = count.counts[0]
        kind = "sc" if name in ("", ANY) else name
        if (parts_of(kind)[1] in STITCHES or kind in STITCHES) and number <= 10_000:
            return (Element(kind),) * number
    return None


def spread_told(stated: tuple[Stated, ...], made: Sequence[Element]) -> tuple[Element, ...] | None:
    """Elements of several kinds as a count lists them, evenly mixed: how they stand is not known, only how many.

    What is worked into so many loops or stitches comes out all the same. Spaces of no length have that of those `made`.
    """
    for count in stated:
        stitches: list[tuple[str, int]] = []
        spaces: list[tuple[int, int]] = []
        for name, number in count.counts:
            chains = name[3:-3] if name.startswith("ch-") and name.endswith(" sp") else ""
            kind = "sc" if name in ("", ANY) else name
            if chains.isdecimal():
                spaces.append((int(chains), number))
            elif name == "sp":
                spaces.append((next((e.chains for e in made if e.kind == SP), 3), number))
            elif parts_of(kind)[1] in STITCHES or kind in STITCHES:
                stitches.append((kind, number))
            else:
                break
        else:
            many = sum(number for _, number in (*stitches, *spaces))
            if stitches and 0 < many <= 4_000 and not (count.change or count.partial):
                return _mixed(stitches, spaces)
    return None


def _mixed(stitches: list[tuple[str, int]], spaces: list[tuple[int, int]]) -> tuple[Element, ...]:
    """Stitches and spaces, each kind as evenly among the others as can be, a stitch first."""
    placed = [(k / n, 0, Element(kind)) for kind, n in stitches for k in range(n)]
    placed += [((k + 1) / n - 1e-9, 1, Element(SP, chains)) for chains, n in spaces for k in range(n)]
    return tuple(element for _, _, element in sorted(placed, key=lambda one: one[:2]))


def below_told(row: Row) -> tuple[Element, ...] | None:
    """What a row that is worked once into each stitch of the row below tells of that row by its own count.

    None where the row works anything else, or states no count of its one kind of stitch.
    """
    works = [item for item in row.items if not isinstance(item, (Say, Turn, Turning, Chain, Mark, Join))]
    only = works[0] if len(works) == 1 else None
    if (
        not isinstance(only, Work)
        or only.where.which is not Which.EACH
        or only.count != 1
        or only.excepting
        or only.where.stop not in (None, Stop())
        or parts_of(only.stitch)[2] > 1
    ):
        return None
    told = next((s.counts for s in row.stated if not s.change and not s.partial), ())
    if len(told) != 1 or told[0][0] not in ("", ANY, only.stitch) or told[0][1] > 10_000:
        return None
    named = next((kind.name for kind in only.where.kinds if kind.name in STITCHES), "sc")
    return (Element(named),) * told[0][1]


def along_told(row: Row) -> tuple[int, int] | None:
    """Index of the one stretch of a row that is worked evenly along an edge with no number, and the stitches in all.

    "Sc evenly across top edge. (36 sc)": the count behind the row tells how many. None where no count does, or where
    there are several such stretches.
    """
    found = [
        k
        for k, item in enumerate(row.items)
        if isinstance(item, Work) and item.where.which is Which.EVENLY and not item.count
    ]
    if len(found) != 1:
        return None
    only = row.items[found[0]]
    assert isinstance(only, Work)
    told = next((s.counts for s in row.stated if not s.change and not s.partial), ())
    if len(told) != 1 or told[0][0] not in ("", ANY, only.stitch) or told[0][1] > 4_000:
        return None
    return found[0], told[0][1]


def covers(stated: tuple[Stated, ...], elements: tuple[Element, ...]) -> bool:
    """True when stated counts name everything that stands on a row; never where nothing does."""
    names = {e.name for e in elements if e.kind != HIDDEN}
    if not names:
        return False
    for count in stated:
        if count.partial or count.change:
            continue
        told = {name for name, _ in count.counts}
        if names <= told or (len(names) == 1 and told & {"", ANY}):
            return True
    return False


def agrees(stated: tuple[Stated, ...], elements: tuple[Element, ...]) -> bool:
    """True when counts are stated and none of them differs from what stands on a row.

    One that tells only of what nobody knows, "(7 wobbles)", bears nothing out.
    """
    stated = tuple(as_groups(count, elements) for count in stated)
    known = any(not name.startswith("?") for count in stated for name, _ in count.counts)
    return known and not any(differs(count, elements, None) for count in stated)


def holds_words(items: Sequence[Item]) -> bool:
    """True for a row with words whose sense is not known: what seems wrong there may lie in them."""
    return any(
        isinstance(item, Say)
        and item.kind in ("words", "unsure")
        or isinstance(item, (Group, Repeat))
        and holds_words(item.items)
        for item in as_told(items)
    )


def ordered_by(row: Row) -> tuple[Order, ...]:
    """What a row that repeats others orders for them: what is ordered of it, and its words that may change them."""
    words = [
        Order(item.span, anyhow=True) for item in as_told(row.items) if isinstance(item, Say) and item.bears
    ]
    return (*row.orders, *words) if words else row.orders


def in_stitches(stated: Stated, made: Sequence[Element], specials: Mapping[str, Special]) -> Stated:
    """A count of specials as their plain stitches, where the row tells them stitch by stitch: "15 crossed dc, 1 dc"."""
    told: dict[str, int] = {}
    for name, number in stated.counts:
        special = next((s for s in specials.values() if s.name == name), None)
        works = [i for i in special.items if isinstance(i, Work)] if special is not None else []
        if (
            special is None
            or special.closes
            or any(e.special == name or e.kind == name for e in made)
            or len({w.stitch for w in works}) != 1
            or not all(isinstance(i, (Work, Skip, Say)) for i in special.items)
        ):
            told[name] = told.get(name, 0) + number
        else:
            plain, many = works[0].stitch, sum(w.count * max(1, w.where.many) for w in works)
            told[plain] = told.get(plain, 0) + number * many
    counts = tuple(told.items())
    return stated if counts == stated.counts else replace(stated, counts=counts)


def in_spaces(stated: Stated, specials: Mapping[str, Special]) -> Stated:
    """A count of open squares, by the name that the pattern gives them, as one of spaces: "8 om"."""
    named = [(name, specials.get(name[1:])) for name, _ in stated.counts if name.startswith("?")]
    open_ones = {name for name, special in named if special is not None and special.base == "window"}
    if not open_ones:
        return stated
    return replace(stated, counts=tuple(("sp" if n in open_ones else n, many) for n, many in stated.counts))


def far_off(wrong: Sequence[tuple[str, int, int]]) -> bool:
    """True for counts so far from what is stated that the words are likelier misread than wrong."""
    stated, worked = sum(s for _, s, _ in wrong), sum(w for _, _, w in wrong)
    return abs(stated - worked) > max(6, max(stated, worked) * 2 // 5)


def has_chains(items: Sequence[Item]) -> bool:
    """True for a row that makes chains behind its first stitch, so that a count of stitches does not tell all of it."""
    begun = False
    for item in items:
        if isinstance(item, Chain) and begun or isinstance(item, (Group, Repeat)) and has_chains(item.items):
            return True
        begun = begun or isinstance(item, (Work, Group, Repeat, Prose))
        if isinstance(item, Repeat) and isinstance(item.items[0] if item.items else None, Chain):
            return True
    return False


def keeps(items: Sequence[Item], specials: Container[str]) -> bool:
    """True when nothing among the items adds or takes stitches: plain ones, one in each."""
    for item in items:
        if isinstance(item, Work):
            if (
                item.stitch in specials
                or item.stitch.startswith(("inc ", "dec "))
                or item.count != 1
                and item.where.which is not Which.STRAIGHT
                or parts_of(item.stitch)[2] > 1
                or item.where.which is Which.SAME
                or item.excepting
            ):
                return False
        elif isinstance(item, Repeat):
            if not keeps(item.items, specials):
                return False
        elif isinstance(item, Group):
            return False
    return True


def uses_ends(items: Sequence[Item]) -> bool:
    """True when any of the items goes along an edge, so that the number of row ends matters."""
    for item in items:
        if isinstance(item, (Work, Group)) and item.where.which is Which.ROW_END:
            return True
        if isinstance(item, (Group, Repeat)) and uses_ends(item.items):
            return True
        if isinstance(item, Edge):
            return True
    return False


def names_shapes(items: Sequence[Item]) -> bool:
    """True when any of the items goes by more than the number of stitches: a corner, a group, a space, a special."""
    for item in as_told(items):
        if isinstance(item, (Work, Group, Skip)):
            where = item.where
            if any(kind.inside or not _plain(kind.name) for kind in where.kinds):
                return True
            if where.which is Which.BETWEEN or where.stop is not None and where.stop.at in _SHAPES:
                return True
        if isinstance(item, Work) and item.excepting or isinstance(item, Group) and names_shapes(item.items):
            return True
        if isinstance(item, Repeat) and (
            names_shapes(item.items) or item.stop is not None and item.stop.at in _SHAPES
        ):
            return True
    return False


_SHAPES = ("corner", "space", "stitch")
"""Stops that are found by what stands there."""


def _plain(name: str) -> bool:
    """True for a kind of which a row made of nothing but stitches has as many as stitches."""
    return name in ("", ANY, "row end", "tch", CH) or parts_of(name)[1] in STITCHES


def names_rows(items: Sequence[Item]) -> bool:
    """True when any of the items goes into a row named by its number, or into loops that a row left free."""
    for item in items:
        if isinstance(item, (Work, Group, Skip)) and (
            item.where.down < 0 or item.where.loop.startswith("free")
        ):
            return True
        if isinstance(item, Travel) and any(w.down < 0 or w.loop.startswith("free") for w in item.where):
            return True
        if isinstance(item, (Group, Repeat)) and names_rows(item.items):
            return True
        if isinstance(item, Edge) and item.name == "free":
            return True
    return False


def posts_named(items: Sequence[Item]) -> frozenset[str]:
    """Post stitches that the items go around: of a row below without any, those are meant that stand a row lower."""
    found: set[str] = set()
    for item in items:
        if isinstance(item, (Work, Group, Skip)) and item.where.around:
            found.update(kind.name for kind in item.where.kinds if parts_of(kind.name)[0])
        if isinstance(item, (Group, Repeat)):
            found |= posts_named(item.items)
    return frozenset(found)


def not_the_last(row: Row) -> Row:
    """A row of a range before its last: "do not turn at end of last row" does not hold for it."""
    only = row.items[0] if len(row.items) == 1 else None
    if (
        isinstance(only, Work)
        and only.where.stop is not None
        and only.where.stop.left
        and parts_of(only.stitch)[2] > 1
    ):
        # "Rnds 8 and 9: dec around until 6 sts remain": that is so at the end of the last
        return replace(row, items=(replace(only, where=replace(only.where, stop=Stop())),))
    turns = [item for item in row.items if isinstance(item, Turn)]
    if len(turns) < 2 or turns[-1].turned or not turns[-2].turned:
        return row
    return replace(row, items=tuple(item for item in row.items if item is not turns[-1]))
