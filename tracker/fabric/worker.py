"""Works one row, word by word, onto the row below.

Items of the tree come in; elements, steps and problems come out. Doubts are asked of `choices`: what is asked and
not chosen takes the first option, and the asking is remembered, so that `readings` can try the others.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from tracker.fabric.below import UNLIMITED, Below, Missing, named
from tracker.fabric.model import CH, HIDDEN, SP, Element, Step
from tracker.notation.tree import (
    ANY,
    SPACE,
    Chain,
    Edge,
    Ending,
    Except,
    Group,
    Item,
    Join,
    Kind,
    Leave,
    Mark,
    Prose,
    Repeat,
    Say,
    Skip,
    Special,
    Stop,
    Travel,
    Turn,
    Turning,
    Where,
    Which,
    Work,
)  # fmt: skip
from tracker.problems import Span
from tracker.trade.stitches import STITCHES, by_chains, parts_of

MAX_ELEMENTS = 40_000
"""A row that would make more is not worked: no piece is that wide."""

Choice = str | int | bool | tuple[object, ...]


class TooLarge(Exception):
    """A row that would never end."""


@dataclass(slots=True)
class Found:
    """A fault met while working."""

    code: str
    span: Span
    says: str
    """What is so, to stand behind the row's name."""
    label: str = ""
    help: str = ""
    weight: int = 10


@dataclass(slots=True)
class Ground:
    """What surrounds a row: other edges, earlier rows, the pattern's special stitches."""

    specials: dict[str, Special]
    base: tuple[Element, ...] = ()
    row_ends: int = 0
    left: tuple[Element, ...] = ()
    closed: bool = False
    plain: str = "sc"
    """The stitch most worked so far, for "work even"."""
    earlier: dict[int, tuple[Element, ...]] = field(default_factory=dict)
    """Elements of earlier rows by number, for loops left free."""
    tiles: bool = False
    """True in a corner-to-corner piece."""
    last_number: int = 0
    """Number of the row below, 0 when it has none."""


class Worker:
    """One row being worked."""

    def __init__(self, below: Below, ground: Ground, choices: dict[object, Choice]) -> None:
        self.below = below
        self.top_edge = below
        self.ground = ground
        self.choices = choices
        self.asked: dict[object, tuple[Choice, ...]] = {}
        self.made: list[Element] = []
        self.steps: list[Step] = []
        self.found: list[Found] = []
        self.path: tuple[tuple[int, int, int], ...] = ()
        self.limit = UNLIMITED
        self.place: tuple[int, ...] | None = None
        """Where a group is worked: indices into the row below, () for a ring; None outside of groups."""
        self.group = 0
        self.groups = 0
        self.special = ""
        self.repeats = 0
        self.across: Repeat | None = None
        """The last repeat that went on to the end."""
        self.edge_used = False
        self.left_said = False
        self.loops = ""
        self.silent = 0
        """The most stitches passed over to reach a space."""
        self.spaces_worked: set[int | None] = set()
        self.unread = False
        self.closed_by: Join | None = None
        self.budget = 200_000

    # -- doubts

    def ask(self, key: object, options: Sequence[Choice]) -> Choice:
        """The choice made for a doubt; the first option when none was."""
        self.asked.setdefault(key, tuple(options))
        return self.choices.get(key, options[0])

    # -- making

    def make(self, kind: str, into: tuple[int, ...], chains: int = 0, turning: bool = False) -> None:
        if len(self.made) >= MAX_ELEMENTS:
            raise TooLarge
        self.made.append(Element(kind, chains, turning, self.group, self.special, False, False, into))

    def fault(
        self, code: str, span: Span, says: str, label: str = "", help_text: str = "", weight: int = 10
    ) -> None:
        self.found.append(Found(code, span, says, label, help_text, weight))

    # -- running items

    def run(self, items: Sequence[Item]) -> None:
        """Works items in order; a fault stops none of those after it."""
        for k, item in enumerate(items):
            before, at = len(self.made), self.below.at
            try:
                self.one(item, items[k + 1 :])
            except Missing as missing:
                if self.limit != UNLIMITED or self.place is not None:
                    raise
                self._missing(item, missing)
            if isinstance(
                item, (Work, Chain, Skip, Group, Turning, Travel, Join, Turn, Say, Prose, Edge, Leave)
            ) and not isinstance(item, Turning):
                self.steps.append(Step(item, before, len(self.made), at, self.below.at, self.path))

    def _missing(self, item: Item, missing: Missing) -> None:
        span = item.span
        self.fault(
            missing.code,
            span,
            missing.says,
            "here",
            "Check the count of the row below and the repeats before this.",
        )

    def one(self, item: Item, rest: Sequence[Item]) -> None:
        self.budget -= 1
        if self.budget < 0:
            raise TooLarge
        if isinstance(item, Work):
            self.work(item, rest)
        elif isinstance(item, Chain):
            self.chain(item, rest)
        elif isinstance(item, Skip):
            self.skip(item, rest)
        elif isinstance(item, Group):
            self.grouped(item, rest)
        elif isinstance(item, Repeat):
            self.repeat(item, rest)
        elif isinstance(item, Join):
            self.join(item, next((i for i in rest[:1] if isinstance(i, Turning)), None))
        elif isinstance(item, Travel):
            self.travel(item)
        elif isinstance(item, Edge):
            self.edge(item)
        elif isinstance(item, Leave):
            self.left_said = True
        elif isinstance(item, Say):
            if item.kind == "loop":
                self.loops = item.text
        elif isinstance(item, Prose):
            self.unread = True

    # -- chains

    def chain(self, item: Chain, rest: Sequence[Item]) -> None:
        following = next((i for i in rest if not isinstance(i, (Turning, Say, Turn))), None)
        if self._is_picot(item, following):
            self.picot_open = True
            return
        self.make(SP, (), item.count)

    def _is_picot(self, item: Chain, following: Item | None) -> bool:
        """Chains that the next slip stitch closes upon themselves: the slip stitch makes the picot."""
        if (
            isinstance(following, (Work, Join))
            and following.stitch == "slst"
            and isinstance(following.where, Where)
        ):
            where = following.where
            return (
                where.which is Which.FROM_HOOK
                or where.which is Which.MADE
                or (where.which is Which.NTH and any(k.name == CH for k in where.kinds))
            )
        return False

    # -- places

    def targets(self, where: Where, item: Item, rest: Sequence[Item], per: int = 1) -> list[tuple[int, ...]]:
        """Every place a Where names, each as the indices it takes; () for rings and edges that are not counted."""
        below = self.below
        which = where.which
        limit = self.limit
        if which is Which.SAME:
            return [self.same(where)]
        if which is Which.RING:
            return [()]
        if which is Which.EVENLY:
            self.edge_used = True
            return [()]
        if which is Which.ROW_END:
            self.edge_used = True
            return [()] * (where.many or max(1, self.ground.row_ends))
        if which is Which.MADE:
            return [()]
        if (
            where.down < 0
            and self.ground.earlier
            and -where.down not in self.ground.earlier
            and -where.down != self.ground.last_number
        ):
            self.fault(
                "R301",
                where.span,
                f"works into row {-where.down}, which does not exist",
                "no such row",
                "Check the number of the row that is meant.",
            )
        if where.down < 0 and -where.down == self.ground.last_number:
            where = replace(where, down=1)
            if self.below is not self.top_edge and self.top_edge.at == 0:
                self.below = below = self.top_edge
        if where.down > 1 and which in (Which.NEXT, Which.EACH):
            if which is Which.NEXT and not (rest and isinstance(rest[0], Skip)):
                return [(self.take(Kind(ANY), item),) for _ in range(where.many)]
            if which is Which.NEXT:
                return [()] * where.many
        if where.down < 0 or where.loop.startswith("free"):
            return [()] * max(1, where.many if which is not Which.EACH else self._free_count(where))
        if which is Which.FROM_HOOK:
            return [self.from_hook(where)]
        if which is Which.TOP:
            return [self.top(where, item)]
        if which is Which.BETWEEN:
            return self.between(where)
        if which is Which.FIRST:
            return self.first(where, item, per)
        if which is Which.LAST:
            return self.last(where, item, per)
        if which is Which.NTH:
            kind = where.kinds[0] if where.kinds else Kind(ANY)
            for _ in range(max(0, where.nth - 1)):
                below.take(kind, limit)
            return [(below.take(kind, limit)[0],)]
        if which is Which.EACH:
            return self.each(where, item, rest, per)
        return self.next(where, item, per)

    def _free_count(self, where: Where) -> int:
        elements = self.ground.earlier.get(-where.down if where.down < 0 else 0)
        return sum(1 for e in elements or () if e.is_stitch) or 1

    def next(self, where: Where, item: Item, per: int) -> list[tuple[int, ...]]:
        out: list[tuple[int, ...]] = []
        kinds = where.kinds or (Kind(ANY),)
        self._edge_for(kinds[0])
        if (
            kinds[0].name == "corner"
            and not self.below.has_corners()
            and any(e.kind == SP for e in self.below.elements)
        ):
            kinds = (Kind("corner sp", kinds[0].chains),)
        if (
            kinds[0].name in ("corner", "corner sp")
            and not self.below.has_corners()
            and not any(e.kind == SP for e in self.below.elements)
        ):
            # the corner of a piece that has none yet: a place between two edges
            return [()] * where.many
        if where.nth == -1 and where.many == 1 and self._unused_here(kinds[0]):
            assert self.below.here is not None
            self.below.at = max(self.below.at, self.below.here + 1)
            return [(self.below.here,)]
        for n in range(min(where.many, MAX_ELEMENTS + 1)):
            taken: list[int] = []
            for _ in range(per):
                if len(kinds) == 2 and kinds[1].name.startswith("middle of:"):
                    taken.append(
                        self.below.middle_of(kinds[0], Kind(kinds[1].name[10:], kinds[1].chains), self.limit)
                    )
                    continue
                taken.append(self.take(kinds[0] if len(kinds) == 1 else kinds[n % len(kinds)], item))
            out.append(tuple(taken))
        return out

    def _unused_here(self, kind: Kind) -> bool:
        """True when the place the hook has travelled to is what a bare noun names: "(sc, ch 2, sc) in ch-3 sp"."""
        here = self.below.here
        if here is None or here >= self.below.n or any(here in e.into for e in self.made):
            return False
        return kind.name in (SP, "corner", "corner sp") and self.below.matches(
            self.below.elements[here], kind
        )

    def take(self, kind: Kind, item: Item) -> int:
        """Takes the next of a kind; says so when stitches were passed that no word names."""
        below = self.below
        at = below.at
        if kind.name == ANY and not below.chains_too and self._spaces_ahead():
            below.chains_too = bool(self.ask("chains are stitches", (False, True)))
        elif kind.name == ANY:
            self._spaces_ahead() and self.ask("chains are stitches", (False, True))
        try:
            i, passed = below.take(kind, self.limit)
        except Missing:
            if self.ground.left and self.limit == UNLIMITED:
                self._take_up()
                i, passed = below.take(kind, self.limit)
            elif self.edge_used and self.ground.base and kind.name in (ANY, CH):
                self._to_edge(self.ground.base)
                self.ground.base = ()
                below = self.below
                i, passed = below.take(kind, self.limit)
            elif (special := self.ground.specials.get(kind.name)) is not None and len(
                [x for x in special.items if isinstance(x, Chain)]
            ) == 1:
                # "next bar", where one of them was chained by hand
                chains = next(x.count for x in special.items if isinstance(x, Chain))
                i, passed = below.take(Kind(SP, chains), self.limit)
            else:
                raise
        if kind.name == SP or (kind.name in ("corner", "corner sp") and below.elements[i].kind == SP):
            self.silent = max(self.silent, below.unsaid(at, i))
            self.spaces_worked.add(kind.chains if kind.name == SP else below.elements[i].chains)
        elif passed and kind.name not in ("corner", "corner sp", "tch"):
            self.silent = max(self.silent, passed)
            if not below.loose:
                self.fault(
                    "C206",
                    item.span,
                    f"passes over {passed} stitch{'es' if passed > 1 else ''} without saying so to reach the next {named(kind)}",
                    "passes over",
                    weight=1,
                )
        elif (
            kind.name not in (ANY, CH, SP, "tch", "corner", "group")
            and not below.matches(below.elements[i], kind)
            and below.elements[i].kind not in (SP,)
            and not below.elements[i].special
        ):
            pass
        return i

    def _spaces_ahead(self) -> bool:
        below = self.below
        i = below.at
        return any(e.kind == SP for e in below.elements[max(0, i - 1) : min(below.n, i + 30)])

    def _take_up(self) -> None:
        """Goes on in stitches that an earlier row left unworked."""
        below = self.below
        rest = below.elements[below.at :]
        below.elements = (*below.elements[: below.at], *rest, *self.ground.left)
        below.n = len(below.elements)
        self.ground.left = ()

    def _edge_for(self, kind: Kind) -> None:
        """Moves to the free side of the foundation when chains are wanted and the top has none."""
        if (
            kind.name == CH
            and self.edge_used
            and self.ground.base
            and not any(e.kind in (CH, SP) for e in self.below.elements)
        ):
            self._to_edge(self.ground.base)
            self.ground.base = ()

    def _to_edge(self, elements: tuple[Element, ...]) -> None:
        below = Below(elements, False)
        below.chains_too = self.below.chains_too
        below.loose = self.below.loose
        self.below = below

    def same(self, where: Where) -> tuple[int, ...]:
        below = self.below
        if self.place is not None and below.here is None:
            return self.place
        if below.here is None:
            if below.ring or below.n == 0:
                return ()
            kind = where.kinds[0] if where.kinds else Kind(ANY)
            if kind.name == SP:
                i, _ = below.take(Kind(SP, kind.chains), self.limit)
                return (i,)
            i = below.take_stitch(self.limit)
            return (i,)
        i = below.here
        if where.kinds and where.kinds[0].name == SP and below.elements[i].kind != SP:
            j = below.find(where.kinds[0], below.at)
            if j is not None and not self.made:
                below.at, below.here = j + 1, j
                return (j,)
        if below.at <= i:
            below.at, below.sub = i + 1, 0
        return (i,)

    def from_hook(self, where: Where) -> tuple[int, ...]:
        below = self.below
        if below.n and below.elements[0].kind == CH and not any(e.into for e in self.made):
            if where.nth > below.n:
                raise Missing("C207", f"there is no {where.nth}th chain in a chain of {below.n}")
            below.at, below.sub, below.here = where.nth, 0, where.nth - 1
            return (where.nth - 1,)
        return ()

    def top(self, where: Where, item: Item) -> tuple[int, ...]:
        below = self.below
        i = below.turning_index()
        if i is None:
            # no turning chain stands there: the last stitch is what can be meant
            i = below.from_end(1, ())
            if below.at > i:
                raise Missing("C205", "there is no turning chain left to work into")
        if i < below.at:
            if below.elements[i].kind == HIDDEN or i == below.at - 1 and below.here == i:
                return (i,)
            raise Missing("C203", "the turning chain is already worked into")
        element = below.elements[i]
        if element.kind == HIDDEN:
            self.ask(("tch is worked", element.chains), (False,))
        unsaid = below.unsaid(below.at, i)
        if unsaid:
            if self.limit != UNLIMITED:
                raise Missing("C206", "there are stitches left before the turning chain")
            self._jump(item, unsaid)
        below.at, below.sub, below.here = max(below.at, i + 1), 0, i
        if (
            where.nth
            and element.chains
            and where.nth > element.chains + self._space_beside(i)
            and element.kind != HIDDEN
        ):
            self.fault(
                "C205",
                where.span,
                f"names chain {where.nth} of a turning chain that has {element.chains + self._space_beside(i)}",
                "no such chain",
                weight=2,
            )
        return (i,)

    def _space_beside(self, i: int) -> int:
        elements = self.below.elements
        return sum(
            elements[j].chains
            for j in (i - 1, i + 1)
            if 0 <= j < len(elements) and elements[j].kind == SP and elements[j].turning
        ) + (99 if not elements[i].turning else 0)

    def _jump(self, item: Item, unsaid: int) -> None:
        count = f"{unsaid} stitch{'es' if unsaid > 1 else ''}"
        if self.across is not None:
            span = self.across.told_at or self.across.span
            self.fault("C204", span, f"has a repeat that does not come out even: {count} left over before the end", "does not come out even",
                       "Check the count of the row below, and what stands before and after the repeat.")  # fmt: skip
        else:
            self.fault(
                "C202",
                item.span,
                f"leaves {count} unworked before its end",
                "jumps over them",
                "Check how often the repeat before this is worked.",
            )

    def between(self, where: Where) -> list[tuple[int, ...]]:
        """Gaps between groups."""
        below = self.below
        elements = below.elements
        start = max(below.at, below.gap + 1, 1)
        gaps = []
        for i in range(start, below.n):
            a, b = elements[i - 1], elements[i]
            if _one_place(a, b):
                continue
            gaps.append(i)
        if where.which is Which.BETWEEN and where.many == 0:
            both = [
                i
                for i in gaps
                if i >= 2
                and _one_place(elements[i - 2], elements[i - 1])
                and i + 1 < below.n
                and _one_place(elements[i], elements[i + 1])
            ]
            gaps = both
            out = [(i,) for i in gaps]
        else:
            if where.nth == -1:
                gaps = gaps[-where.many :]
            out = [(i,) for i in gaps[: where.many]]
            if len(out) < where.many:
                raise Missing("C203", "there is no space between stitches left")
        if out:
            below.gap = out[-1][0]
            below.at = max(below.at, below.gap)
            below.here = below.gap
        self.silent = UNLIMITED
        return out

    def first(self, where: Where, item: Item, per: int) -> list[tuple[int, ...]]:
        below = self.below
        kind = where.kinds[0] if where.kinds else Kind(ANY)
        self._edge_for(kind)
        if self.made and any(e.into for e in self.made) and below.at > max(1, where.many):
            # "first" of something further along: the next that lies ahead
            return self.next(replace(where, which=Which.NEXT), item, per)
        if (
            kind.name == SP
            and below.closed
            and self.made
            and below.find(kind, below.at) is None
            and below.n
            and below.elements[0].kind == SP
        ):
            return [(0,)]
        if kind.name in (SP, "corner", "corner sp", "group", CH):
            return self.next(replace(where, which=Which.NEXT), item, per)
        if below.at and below.here == 0 and self._stands_on_first():
            below.at, below.sub = 0, 0
        return self.next(replace(where, which=Which.NEXT), item, per)

    def _stands_on_first(self) -> bool:
        return len(self.made) >= 1 and all(e.turning or e.kind in (SP, HIDDEN) for e in self.made)

    def last(self, where: Where, item: Item, per: int) -> list[tuple[int, ...]]:
        below = self.below
        kind = where.kinds[0] if where.kinds else Kind(ANY)
        if kind.name == "tch":
            return [self.top(where, item)]
        if kind.name in ("corner", "corner sp") and not below.has_corners():
            if not any(e.kind == SP for e in below.elements):
                return [()] * where.many
            kind = Kind("corner sp", kind.chains)
        many = where.many * per
        self._edge_for(kind)
        below = self.below
        if (
            kind.name == CH
            and not any(e.kind == CH for e in below.elements[below.at :])
            and below.find(Kind(SP), below.at) is None
        ):
            kind = Kind(ANY)
        try:
            start = below.from_end(many, (kind,))
        except Missing:
            if self.ground.left:
                self._take_up()
                start = below.from_end(many, (kind,))
            else:
                raise
        if start < below.at:
            if kind.name not in (SP, CH) and self._closing_place(start, many):
                return [(start + k,) for k in range(where.many)]
            raise Missing("C203", f"the last {named(kind)} is already worked into")
        unsaid = below.unsaid(below.at, start)
        if unsaid and kind.name not in (SP, "corner sp"):
            if self.limit != UNLIMITED and unsaid > self.silent:
                raise Missing("C206", "there are stitches left before the last")
            if unsaid > self.silent:
                self._jump(item, unsaid)
        elif kind.name == SP:
            self.spaces_worked.add(kind.chains)
            self.silent = max(self.silent, unsaid)
        below.at, below.sub = start, 0
        return self.next(replace(where, which=Which.NEXT, kinds=(kind,)), item, per)

    def _closing_place(self, start: int, many: int) -> bool:
        return False

    def each(self, where: Where, item: Item, rest: Sequence[Item], per: int) -> list[tuple[int, ...]]:
        return [taken for taken, _ in self.each_with(where, item, rest, per, ())]

    def each_with(
        self, where: Where, item: Item, rest: Sequence[Item], per: int, excepting: tuple[Except, ...]
    ) -> list[tuple[tuple[int, ...], Except | None]]:
        """Every place an "each" names, with the exception that holds there, if one does."""
        below = self.below
        kinds = where.kinds or (Kind(ANY),)
        if len(kinds) == 2 and kinds[1].name.startswith("middle of:"):
            out: list[tuple[tuple[int, ...], Except | None]] = []
            end = self.end_of(where.stop, rest)
            while True:
                try:
                    out.append(
                        ((below.middle_of(kinds[0], Kind(kinds[1].name[10:]), min(self.limit, end)),), None)
                    )
                except Missing:
                    return out
        self._edge_for(kinds[0])
        end = min(self.limit, self.end_of(where.stop, rest))
        generic = any(k.name == ANY for k in kinds)
        if (
            generic
            and any(e.kind == SP for e in below.elements[below.at : end])
            and not any(k.name in (SP, CH) for k in kinds)
        ):
            below.chains_too = bool(self.ask("chains are stitches", (False, True)))
        stitches_named = [k for k in kinds if k.name not in (SP, CH, ANY, "corner sp")]
        loose = below.loose
        if stitches_named and not generic:
            odd = [
                e
                for e in below.elements[below.at : end]
                if below._generic(e)
                and not any(below.matches(e, k) for k in (*kinds, *(k for x in excepting for k in x.kinds)))
            ]
            if odd:
                related = all(any(below.related(e, k) for k in stitches_named) for e in odd)
                loose = bool(
                    self.ask("names are loose", (True, False) if related or not excepting else (False, True))
                )
        singles: list[tuple[int, Except | None]] = []
        for i in range(below.at, min(end, below.n)):
            element = below.elements[i]
            special = next((x for x in excepting if self._excepted(element, x)), None)
            if special is not None:
                singles.append((i, special))
                continue
            if element.kind == HIDDEN:
                continue
            if element.kind == SP:
                if any(k.name in (SP, "corner sp") and below.matches(element, k) for k in kinds):
                    singles.append((i, None))
                elif any(k.name == CH for k in kinds) or (generic and below.chains_too):
                    left = element.chains - (below.sub if i == below.at else 0)
                    singles.extend([(i, None)] * left)
                continue
            if (
                any(below.matches(element, k) for k in kinds)
                or (loose and stitches_named)
                or (generic and below._generic(element))
            ) or element.turning and any(k.name == CH for k in kinds) and not stitches_named:
                singles.append((i, None))
        if not generic and not stitches_named:
            self.spaces_worked.update(k.chains for k in kinds if k.name == SP)
            self.silent = UNLIMITED
        if where.stop is not None and where.stop.at == "corner" or end < below.n:
            below.at, below.sub = max(below.at, min(end, below.n)), 0
        else:
            below.at, below.sub = below.n, 0
        if singles:
            below.here = singles[-1][0]
        if per > 1:
            taken = [i for i, _ in singles]
            whole = len(taken) // per * per
            if whole != len(taken):
                below.at = taken[whole]
            return [(tuple(taken[k : k + per]), None) for k in range(0, whole, per)]
        return [((i,), x) for i, x in singles]

    def _excepted(self, element: Element, x: Except) -> bool:
        if len(x.kinds) == 2 and x.kinds[1].name.startswith("middle of:"):
            return element.corner and element.kind != SP
        return any(self.below.matches(element, k) for k in x.kinds)

    def end_of(self, stop: Stop | None, rest: Sequence[Item]) -> int:
        """Where an "each" or a repeat must end: at its stop, or where what follows begins to need places."""
        below = self.below
        if stop is not None and (stop.left or stop.at):
            return below.limit_of(stop)
        return self.reserved(rest)

    def reserved(self, rest: Sequence[Item]) -> int:
        """Index from which the items that follow need the places for themselves."""
        below = self.below
        needs: list[Kind] = []
        for item in rest:
            if not self._needs(item, needs):
                break
        if not needs:
            return below.n
        end = below.n
        while end > below.at and (
            below.elements[end - 1].slipped or (below.elements[end - 1].kind == HIDDEN)
        ):
            end -= 1
        i = end
        for kind in reversed(needs):
            if kind.name == "tch":
                at = below.turning_index()
                if at is not None and below.elements[at].kind == HIDDEN:
                    continue
                kind = Kind(ANY)
            j = i - 1
            while j >= below.at and not (
                below._generic(below.elements[j])
                if kind.name not in (SP, CH, "corner sp")
                else (
                    below.matches(below.elements[j], kind)
                    or (kind.name == CH and below.elements[j].kind == SP)
                )
            ):
                j -= 1
            if j < below.at:
                return below.n if kind.name in (SP,) else max(below.at, j + 1)
            i = j
        return i

    def _needs(self, item: Item, needs: list[Kind]) -> bool:
        """Adds the places an item takes; False when it is not known how many, or when the rest needs none."""
        if isinstance(item, (Chain, Say, Turning, Mark, Prose)):
            return True
        if isinstance(item, (Work, Skip)):
            where = item.where
            per = (
                parts_of(item.stitch)[2]
                if isinstance(item, Work) and item.stitch not in self.ground.specials
                else 1
            )
            if where.which in (Which.SAME, Which.RING, Which.MADE, Which.EVENLY, Which.ROW_END):
                return where.which in (Which.SAME, Which.MADE)
            if where.which is Which.FROM_HOOK:
                return True
            if where.which is Which.TOP:
                needs.append(Kind("tch"))
                return True
            if where.which in (Which.NEXT, Which.FIRST, Which.LAST, Which.NTH):
                kind = where.kinds[0] if where.kinds else Kind(ANY)
                if kind.name not in (SP, CH, "tch", "corner sp"):
                    kind = Kind(ANY)
                if where.many * per > 4000:
                    return False
                needs.extend([kind] * (where.many * per))
                return where.which is not Which.LAST
            if where.which is Which.STRAIGHT and isinstance(item, Work):
                special = self.ground.specials.get(item.stitch)
                if special is not None and special.items and not special.one_place:
                    return False
                if item.stitch == "picot" or item.count > 4000:
                    return item.stitch == "picot"
                needs.extend(
                    [Kind(ANY)] * (item.count * (per if special is None else max(1, special.closes)))
                )
                return True
            return False
        if isinstance(item, Group):
            if item.where.which in (Which.SAME,):
                return True
            if item.where.which in (Which.NEXT, Which.FIRST, Which.LAST):
                kind = item.where.kinds[0] if item.where.kinds else Kind(ANY)
                needs.extend(
                    [kind if kind.name in (SP, CH, "corner sp") else Kind(ANY)] * min(item.where.many, 4000)
                )
                return item.where.which is not Which.LAST
            if item.where.which is Which.TOP:
                needs.append(Kind("tch"))
                return True
            return False
        if isinstance(item, Repeat):
            if item.times is None or item.times > 400:
                return False
            once: list[Kind] = []
            for inside in item.items:
                if not self._needs(inside, once):
                    return False
            if len(once) * item.times > 4000:
                return False
            needs.extend(once * item.times)
            return True
        return False

    # -- stitches

    def work(self, item: Work, rest: Sequence[Item]) -> None:
        name = item.stitch
        special = self.ground.specials.get(name)
        where = item.where
        if name == "even":
            self._even(item, rest)
            return
        if name.startswith(("inc ", "dec ")):
            self._spread(item, rest)
            return
        if name in ("fsc", "fhdc", "fdc", "ftr") and not self.below.n:
            for _ in range(min(item.count, MAX_ELEMENTS + 1)):
                self.make(name, ())
            return
        if special is not None and (
            special.base in _SQUARES or not (special.base and name == special.base and not special.closes)
        ):
            self.special_stitch(item, special, rest)
            return
        if name == "picot":
            for _ in range(item.count):
                self.make("picot", ())
            return
        if self.picot_open and name == "slst":
            self.picot_open = False
            self.make("picot", ())
            return
        per = self._together(item)
        if self.place is not None and where.which in (Which.STRAIGHT, Which.SAME):
            for _ in range(item.count):
                self.make(name, self.place)
            return
        if where.which is Which.STRAIGHT:
            kind = Kind(ANY)
            if self.below.ring:
                for _ in range(min(item.count, MAX_ELEMENTS + 1)):
                    self.make(name, ())
                return
            for _ in range(min(item.count, MAX_ELEMENTS + 1)):
                taken = tuple(self.take(kind, item) for _ in range(per))
                self.make(name, taken)
            return
        if item.excepting:
            for taken, x in self.each_with(where, item, rest, per, item.excepting):
                if x is None:
                    self.in_place(taken, name, item.count)
                else:
                    self._worked_in(x.items, taken)
            return
        if (
            where.which is Which.FROM_HOOK
            and where.nth
            and self.below.n
            and self.below.elements[0].kind == CH
            and not any(e.into for e in self.made)
        ):
            self.foundation_start(item, where, rest)
        count = item.count
        if where.which is Which.EVENLY or (where.which is Which.RING and self.below.ring):
            self.targets(where, item, rest)
            for _ in range(min(count, MAX_ELEMENTS + 1)):
                self.make(name, ())
            return
        places = self.targets(where, item, rest, per)
        if self.ends is not None and where.which is Which.EACH and places:
            grows, extra, plain = self.ends
            self.ends = None
            if grows:
                for taken in places[:-1]:
                    self.in_place(taken, name, count)
                self.in_place(places[-1], name, count + extra)
            else:
                for taken in places[: -1 - extra]:
                    self.in_place(taken, name, count)
                self.make(f"{name}{1 + extra}tog", tuple(i for taken in places[-1 - extra :] for i in taken))
            return
        for taken in places:
            self.in_place(taken, name, count)

    def _spread(self, item: Work, rest: Sequence[Item]) -> None:
        """Increases or decreases that are told for the row as a whole."""
        grows = item.stitch.startswith("inc")
        plain = self.ground.plain
        if item.stitch.endswith("ends"):
            self.ends = (grows, item.count, plain)
            follows = any(isinstance(i, Work) for i in rest)
            if grows:
                taken = (self.below.take_stitch(self.limit),)
                self.in_place(taken, plain, 1 + item.count)
            else:
                self.make(
                    f"{plain}{1 + item.count}tog",
                    tuple(self.below.take_stitch(self.limit) for _ in range(1 + item.count)),
                )
            if not follows:
                self.work(Work(plain, 1, Where(Which.EACH, item.span, 0, (Kind(ANY),)), item.span), rest)
            return
        if not self._anything_left(self.below.n):
            # the row is already worked: some of its stitches are the increases or decreases
            first = next((e for e in self.made if e.is_stitch and not e.turning), None)
            name = first.kind if first else plain
            if grows:
                for _ in range(item.count):
                    self.make(name, (max(0, self.below.n - 1),))
            else:
                spots = [k for k, e in enumerate(self.made) if e.kind == name and not e.turning]
                for k in reversed(spots[: 2 * item.count]):
                    del self.made[k]
                for _ in range(min(item.count, len(spots) // 2)):
                    self.make(name + "2tog", ())
            return
        left = [i for i in range(self.below.at, self.below.n) if self.below._generic(self.below.elements[i])]
        count = min(item.count, len(left))
        if grows:
            for k, i in enumerate(left):
                extra = (k + 1) * count // len(left) - k * count // len(left)
                self.in_place((i,), plain, 1 + extra)
        else:
            k = 0
            plain_ones = len(left) - 2 * count
            for n in range(count):
                run = (n + 1) * plain_ones // count - n * plain_ones // count
                for _ in range(run):
                    self.make(plain, (left[k],))
                    k += 1
                if k + 1 < len(left):
                    self.make(plain + "2tog", (left[k], left[k + 1]))
                    k += 2
        self.below.at, self.below.sub = self.below.n, 0

    def _together(self, item: Work) -> int:
        """Places that one stitch of the name takes: 1 when all of it is worked in one place."""
        per = parts_of(item.stitch)[2]
        if per == 1 or self.place is not None:
            return 1
        where = item.where
        if where.which in (Which.SAME, Which.RING, Which.TOP, Which.EVENLY, Which.ROW_END):
            return 1
        if (
            where.which in (Which.NEXT, Which.EACH, Which.LAST, Which.FIRST)
            and where.kinds
            and where.kinds[0].name in (SP, "group", "corner")
            and not item.stitch.startswith("sc")
        ):
            return 1 if where.many == 1 or where.which is Which.EACH else per
        return per

    def in_place(self, taken: tuple[int, ...], name: str, count: int) -> None:
        if count > 1:
            self.groups += 1
            saved, self.group = self.group, self.group or self.groups
            first = len(self.made)
            for _ in range(min(count, MAX_ELEMENTS + 1)):
                self.make(name, taken)
            self.group = saved
            if count % 2 and count >= 3 and not saved:
                middle = first + count // 2
                self.made[middle] = replace(self.made[middle], corner=True)
            return
        self.make(name, taken)

    def foundation_start(self, item: Work, where: Where, rest: Sequence[Item]) -> None:
        """What the skipped chains of a first row stand for."""
        skipped = where.nth - 1
        height = _height(item.stitch)
        says = next((i for i in rest[:3] if isinstance(i, Turning)), None)
        if any(e.kind not in (HIDDEN,) for e in self.made):
            return
        name = (
            item.stitch
            if parts_of(item.stitch)[2] == 1 and not parts_of(item.stitch)[0] and item.stitch in STITCHES
            else "dc"
        )
        if says is not None:
            if says.counts:
                self._stand(says.as_stitch or by_chains(skipped, name), says.space, skipped, ())
                if (
                    says.more
                    and says.more[-1] in STITCHES
                    and len([m for m in says.more if m in STITCHES]) > 1
                ):
                    pass
            else:
                self.make(HIDDEN, (), skipped)
            return
        options = first_row_options(skipped, height, name)
        if len(options) == 1:
            choice: Choice = options[0]
        else:
            choice = self.ask(("first row", skipped, height), options)
        self._apply_turning(choice, skipped, ())

    def _stand(self, name: str, space: int, chains: int, into: tuple[int, ...]) -> None:
        own = max(1, chains - space)
        self.make(name, into, own, True)
        if space:
            self.make(SP, (), space, True)

    def _apply_turning(self, choice: Choice, chains: int, into: tuple[int, ...]) -> None:
        assert isinstance(choice, tuple)
        if choice[0] == "none":
            self.make(HIDDEN, (), chains)
        elif choice[0] == "space":
            self.make(SP, (), chains, True)
        else:
            space = choice[2]
            assert isinstance(space, int)
            self._stand(str(choice[1]), space, chains, into)

    def special_stitch(self, item: Work, special: Special, rest: Sequence[Item]) -> None:
        """A stitch of the pattern's own."""
        if special.base in ("window", "block", "beg window", "beg block"):
            times = item.count * (item.where.many if item.where.which is Which.NEXT else 1)
            for _ in range(min(times, MAX_ELEMENTS)):
                self.square(special)
            return
        if special.base in ("tile", "beg tile"):
            if special.base == "beg tile" or item.where.which is Which.MADE:
                self.make("tile", ())
                return
            where = (
                item.where
                if item.where.which is not Which.STRAIGHT
                else Where(Which.NEXT, item.span, item.count)
            )
            if where.kinds and where.which is not Which.EACH or where.which is Which.SAME:
                where = replace(
                    where, which=Which.LAST if where.which is Which.LAST else Which.NEXT, kinds=(), nth=0
                )
            elif where.which is Which.EACH:
                stop = where.stop
                where = replace(
                    where, kinds=(Kind(ANY),), stop=replace(stop, kinds=()) if stop is not None else None
                )
            for taken in self.targets(where, item, rest):
                self.make("tile", taken)
            return
        saved = self.special
        try:
            if special.closes:
                self._closing(item, special, rest)
                return
            if special.base == "picot" or item.stitch == "picot":
                for _ in range(item.count):
                    self.special = special.name
                    self.make("picot", ())
                return
            self.special = special.name
            if special.one_place:
                if item.where.which is Which.STRAIGHT and self.place is None:
                    if self.below.ring:
                        wheres: list[tuple[int, ...]] = [()] * item.count
                    else:
                        wheres = [(self.take(Kind(ANY), item),) for _ in range(item.count)]
                    count = 1
                elif self.place is not None and item.where.which in (Which.STRAIGHT, Which.SAME):
                    wheres, count = [self.place], item.count
                else:
                    wheres = self.targets(item.where, item, rest)
                    count = item.count
                for taken in wheres:
                    for _ in range(count):
                        outer, self.group = self.group, 0
                        self._worked_in(special.items, taken)
                        self.group = outer
                return
            times = item.count * (
                item.where.many if item.where.which is Which.NEXT and item.where.many > 1 else 1
            )
            if item.where.which is Which.EACH and item.where.stop is not None:
                self._across(Repeat(special.items, item.span, None, stop=item.where.stop), rest)
                return
            for _ in range(min(times, MAX_ELEMENTS)):
                self.groups += 1
                saved_group, self.group = self.group, self.groups
                first = len(self.made)
                self.run_inside(special.items)
                self.group = saved_group
                if (
                    len(self.made) - first > 1
                    and not special.one_place
                    and any(e.kind == SP for e in self.made[first:])
                ):
                    # the stitch that closes it is shared with what comes after
                    self.made[-1] = replace(self.made[-1], group=0, special="")
        finally:
            self.special = saved

    def square(self, special: Special) -> None:
        """One square of filet: a window or a block, over whatever lies below it."""
        below = self.below
        fill = special.closes
        if special.base.startswith("beg"):
            own = 3 + (fill if special.base == "beg window" else 0)
            self.make("dc", (0,) if below.n else (), own if special.base == "beg block" else 3, True)
            below.at, below.here = max(below.at, 1), 0
        over_space = below.at < below.n and below.elements[below.at].kind == SP
        if special.base.endswith("window"):
            if over_space:
                below.at += 1
            else:
                for _ in range(fill):
                    below.take_stitch(self.limit)
            self.make(SP, (), fill, special.base.startswith("beg"))
        elif over_space:
            place = below.at
            below.at += 1
            self.in_place((place,), "dc", fill)
        else:
            for _ in range(fill):
                self.make("dc", (below.take_stitch(self.limit),))
        self.make("dc", (below.take_stitch(self.limit),))

    def run_inside(self, items: Sequence[Item]) -> None:
        """Items as part of a larger whole: what they miss is the whole's fault."""
        steps = len(self.steps)
        for k, inside in enumerate(items):
            self.one(inside, items[k + 1 :])
        del self.steps[steps:]

    def _closing(self, item: Work, special: Special, rest: Sequence[Item]) -> None:
        name = special.base or special.name
        per = 1 if special.one_place or self.place is not None else special.closes
        self.special = special.name
        where = item.where
        if self.place is not None and where.which in (Which.STRAIGHT, Which.SAME):
            for _ in range(item.count):
                self.make(name, self.place)
            return
        if where.which is Which.STRAIGHT:
            for _ in range(item.count):
                if self.below.ring:
                    self.make(name, ())
                else:
                    self.make(name, tuple(self.take(Kind(ANY), item) for _ in range(per)))
            return
        if where.which is Which.RING:
            for _ in range(item.count):
                self.make(name, ())
            return
        if (
            per > 1
            and where.which is Which.NEXT
            and where.kinds
            and where.kinds[0].name == SP
            and where.many == 1
        ):
            per = 1
        for taken in self.targets(where, item, rest, per):
            for _ in range(item.count):
                self.make(name, taken)

    def _worked_in(self, items: Sequence[Item], taken: tuple[int, ...]) -> None:
        """Items all worked in one place."""
        saved_place, saved_group = self.place, self.group
        self.groups += 1
        self.place = taken
        self.group = saved_group or self.groups
        first = len(self.made)
        here = self.below.here
        if taken:
            self.below.here = taken[0]
        steps = len(self.steps)
        try:
            for k, inside in enumerate(items):
                self.one(inside, items[k + 1 :])
        finally:
            self.place, self.group = saved_place, saved_group
            del self.steps[steps:]
            if not taken:
                self.below.here = here
        self._mark_corner(first)

    def _mark_corner(self, first: int) -> None:
        made = self.made[first:]
        spaces = [first + k for k, e in enumerate(made) if e.kind == SP]
        stitches = [first + k for k, e in enumerate(made) if e.is_stitch]
        if spaces:
            pick = spaces[len(spaces) // 2] if len(spaces) % 2 else spaces[0]
            self.made[pick] = replace(self.made[pick], corner=True)
        elif len(stitches) >= 3 and len(stitches) % 2:
            pick = stitches[len(stitches) // 2]
            self.made[pick] = replace(self.made[pick], corner=True)

    def _even(self, item: Work, rest: Sequence[Item]) -> None:
        for (i,) in self.each(replace(item.where, kinds=(Kind(ANY),)), item, rest, 1):
            element = self.below.elements[i]
            post, base, together = parts_of(element.kind)
            plain = (
                base
                if base in STITCHES and STITCHES[base].height and not STITCHES[base].closes
                else self.ground.plain
            )
            self.make(post + plain if not post else element.kind if together == 1 else plain, (i,))

    # -- groups, skips, repeats

    def grouped(self, item: Group, rest: Sequence[Item]) -> None:
        where = item.where
        if where.which is Which.STRAIGHT:
            where = replace(where, which=Which.NEXT, many=1)
        if (
            where.which is Which.FROM_HOOK
            and self.below.n
            and self.below.elements[0].kind == CH
            and not any(e.into for e in self.made)
        ):
            first = first_stitch(item.items, self.ground.specials)
            self.foundation_start(Work(first or "dc", 1, where, item.span), where, rest)
        if self.place is not None and where.which is Which.SAME:
            self._worked_in(item.items, self.place)
            return
        for taken in self.targets(where, item, rest):
            self._worked_in(item.items, taken)

    def skip(self, item: Skip, rest: Sequence[Item] = ()) -> None:
        where = item.where
        below = self.below
        kind = where.kinds[0] if where.kinds else Kind(ANY)
        if kind.name == "picot":
            return
        if where.which is Which.FIRST and self._stands_on_first() and kind.name not in (SP,):
            # the stitch under a counted turning chain is the first of those skipped
            already = 1 if below.at >= 1 and below.here == 0 and any(e.turning for e in self.made) else 0
            for _ in range(max(0, min(where.many, MAX_ELEMENTS) - already)):
                self.take(kind, item)
            return
        if where.which is Which.SAME:
            return
        if where.which is Which.FROM_HOOK:
            if below.n and below.elements[0].kind == CH:
                first = first_stitch(rest, self.ground.specials) or "sc"
                self.foundation_start(Work(first, 1, where, item.span), where, rest)
            below.at, below.here = min(below.n, max(0, where.nth - 1)), None
            return
        if (
            where.which is Which.NEXT
            and kind.name not in (SP, CH)
            and self._stands_on_first()
            and below.here == 0
            and below.at == 1
            and any(e.turning for e in self.made)
            and not any(e.kind == SP for e in self.made)
            and where.many >= 1
            and self.ask(("skip under", item.span.start), (False, True))
        ):
            where = replace(where, many=where.many - 1)
        if where.which is Which.LAST:
            start = below.from_end(where.many, (kind,))
            below.at = max(below.at, start)
        if where.which is Which.TOP:
            index = below.turning_index()
            if index is not None:
                below.at = max(below.at, index + 1)
            return
        if where.which is Which.EACH:
            below.at = min(below.n, self.end_of(where.stop, ()))
            return
        here = below.here
        faults = len(self.found)
        for _ in range(min(where.many, MAX_ELEMENTS)):
            for k in where.kinds or (kind,):
                special = self.ground.specials.get(k.name)
                if special is not None and special.items and below.find(k, below.at, below.at + 2) is None:
                    length = sum(1 for i in special.items if isinstance(i, (Work, Chain))) - (
                        0 if special.one_place else 1
                    )
                    below.at = min(below.n, below.at + max(1, length))
                    continue
                self.take(k, item)
        del self.found[faults:]
        below.here = here

    def repeat(self, item: Repeat, rest: Sequence[Item]) -> None:
        if item.times is None and item.further is None:
            self._across(item, rest)
            return
        times = item.times
        if times is None:
            assert item.further is not None
            options: tuple[Choice, ...] = (
                (item.further + 1, item.further) if item.star else (item.further, item.further + 1)
            )
            chosen = self.ask(("times", item.span.start), options)
            times = int(chosen) if isinstance(chosen, int) else item.further + 1
        if times > MAX_ELEMENTS:
            raise TooLarge
        self.repeats += 1
        number = self.repeats
        path = self.path
        body = _stripped(item.items)
        if self.place is None and self._one_each(body) and False:
            pass
        for turn in range(times):
            self.path = (*path, (number, turn, times))
            last = turn == times - 1
            items = body
            if last and item.ending is not None:
                items = self._last_pass(item, rest) or body
                if items is None:
                    items = body
            if self.limit == UNLIMITED and self.place is None:
                before = (self.below.at, len(self.made))
                try:
                    self._pass(items, rest if last else ())
                except Missing as missing:
                    self.path = path
                    told = item.told_at or item.span
                    self.fault(missing.code if missing.code != "C203" else "C203", told,
                               f"asks for {times} times, and on pass {turn + 1} {missing.says}", f"{times} times",
                               "Check how often the repeat is worked, and the count of the row below.")  # fmt: skip
                    return
                if before == (self.below.at, len(self.made)) and times > 1000:
                    raise TooLarge
            else:
                self._pass(items, rest if last else ())
        self.path = path
        if item.ending is not None and item.ending.how == "ending":
            self._ending_items(item, rest)

    def _one_each(self, body: Sequence[Item]) -> bool:
        return False

    def _pass(self, items: Sequence[Item], rest: Sequence[Item]) -> None:
        """One pass; a missing target leaves it to the caller."""
        for k, inside in enumerate(items):
            before, at = len(self.made), self.below.at
            following = (*items[k + 1 :], *rest)
            self.one(inside, following)
            if not isinstance(inside, (Repeat, Turning, Mark)) and self.place is None:
                self.steps.append(Step(inside, before, len(self.made), at, self.below.at, self.path))

    def _last_pass(self, item: Repeat, rest: Sequence[Item]) -> tuple[Item, ...] | None:
        """The items of the last pass as its ending changes them; None when it changes none."""
        ending = item.ending
        assert ending is not None
        if ending.how == "omit":
            return _without(_stripped(item.items), ending.items)
        if ending.how == "at":
            sign = next((m.sign for m in ending.items if isinstance(m, Mark)), "")
            cut = next(
                (
                    k
                    for k, inside in enumerate(item.items)
                    if isinstance(inside, Mark) and inside.sign == sign
                ),
                None,
            )
            return _stripped(item.items[:cut]) if cut is not None else None
        if ending.how == "with":
            return self._replaced(item, ending, rest)
        return None

    def _replaced(self, item: Repeat, ending: Ending, rest: Sequence[Item]) -> tuple[Item, ...] | None:
        """The last pass with its tail replaced: the shortest tail that lets it end where it must."""
        body = _stripped(item.items)
        end = min(self.limit, self.reserved(rest))
        for drop in range(len(body) + 1):
            candidate = (*body[: len(body) - drop], *ending.items)
            mark = self._mark()
            try:
                self._pass(candidate, rest)
                good = self.below.unsaid(self.below.at, end) == 0
            except Missing:
                good = False
            self._back(mark)
            if good:
                return candidate
        return (*body[:-1], *ending.items)

    def _mark(self) -> tuple[object, ...]:
        b = self.below
        return (
            b.at,
            b.sub,
            b.here,
            b.gap,
            len(self.made),
            len(self.steps),
            len(self.found),
            self.groups,
            self.edge_used,
            b,
            self.silent,
            b.elements,
            b.n,
            self.ground.left,
        )

    def _back(self, mark: tuple[object, ...]) -> None:
        at, sub, here, gap, made, steps, found, groups, edge, below, silent, elements, n, left = mark
        assert isinstance(below, Below)
        self.below = below
        below.at, below.sub, below.here, below.gap = at, sub, here, gap  # type: ignore[assignment]
        below.elements, below.n = elements, n  # type: ignore[assignment]
        self.ground.left = left  # type: ignore[assignment]
        del self.made[made:]  # type: ignore[misc]
        del self.steps[steps:]  # type: ignore[misc]
        del self.found[found:]  # type: ignore[misc]
        self.groups = groups  # type: ignore[assignment]
        self.edge_used = bool(edge)
        self.silent = silent  # type: ignore[assignment]

    def _across(self, item: Repeat, rest: Sequence[Item]) -> None:
        """A repeat that goes on to the end of the row, or to its stop."""
        stop = item.stop or Stop()
        following: Sequence[Item] = rest
        ending = item.ending
        as_item = False
        if ending is not None and ending.how == "ending":
            as_item = bool(self.ask(("ending", item.span.start), (True, False)))
            if as_item:
                following = (*ending.items, *rest)
        end = min(self.limit, self.end_of(stop, following))
        body = _stripped(item.items)
        saved, self.limit = self.limit, end if end < self.below.n else saved_limit(self.limit, self.below.n)
        self.repeats += 1
        number = self.repeats
        path = self.path
        turn = 0
        try:
            while turn < MAX_ELEMENTS:
                if not self._anything_left(end):
                    break
                self.path = (*path, (number, turn, -1))
                mark = self._mark()
                if ending is not None and ending.how in ("omit", "at", "with"):
                    last = self._try_last(item, ending, end, rest)
                    if last is not None:
                        self._pass(last, ())
                        turn += 1
                        break
                try:
                    self._pass(body, ())
                except Missing:
                    self._back(mark)
                    break
                if self.below.at == mark[0] and self.below.sub == mark[1] and self.below.gap == mark[3]:
                    self._back(mark)
                    break
                turn += 1
        finally:
            self.limit = saved
            self.path = path
        if turn:
            self._say_passes(number, turn, path)
        self.across = item
        if turn == 0 and self.below.n and self._anything_left(end):
            left = self.below.unsaid(self.below.at, end)
            if left or stop.left:
                self.fault(
                    "C204",
                    item.told_at or item.span,
                    "has a repeat that does not fit even once",
                    "does not fit",
                    weight=5,
                )
        elif stop.left or stop.at:
            over = self.below.unsaid(self.below.at, end)
            if over and self._spaces_in(item) and over <= self.silent:
                over = 0
            if over:
                self.fault("C204", item.told_at or item.span,
                           f"has a repeat that does not come out even: {over} stitch{'es' if over > 1 else ''} over", "does not come out even",
                           "Check the count of the row below, and what stands before and after the repeat.")  # fmt: skip
                self.below.at = end
        if ending is not None and ending.how == "ending" and as_item:
            self.run_rest(ending.items, rest)

    def run_rest(self, items: Sequence[Item], rest: Sequence[Item]) -> None:
        for k, inside in enumerate(items):
            before, at = len(self.made), self.below.at
            try:
                self.one(inside, (*items[k + 1 :], *rest))
            except Missing as missing:
                if self.limit != UNLIMITED or self.place is not None:
                    raise
                self._missing(inside, missing)
            self.steps.append(Step(inside, before, len(self.made), at, self.below.at, self.path))

    def _ending_items(self, item: Repeat, rest: Sequence[Item]) -> None:
        assert item.ending is not None
        if self.ask(("ending", item.span.start), (True, False)):
            self.run_rest(item.ending.items, rest)

    def _anything_left(self, end: int) -> bool:
        below = self.below
        return any(e.kind != HIDDEN for e in below.elements[below.at : min(end, below.n)])

    def _try_last(
        self, item: Repeat, ending: Ending, end: int, rest: Sequence[Item]
    ) -> tuple[Item, ...] | None:
        """The changed last pass, when with it the row comes out; else None."""
        changed = self._last_pass(item, rest)
        if changed is None:
            return None
        mark = self._mark()
        try:
            self._pass(changed, ())
            done = self.below.unsaid(self.below.at, end) == 0 and (
                self.below.unsaid_spaces(self.below.at, end) == 0
                or ending.how != "omit"
                or not self._spaces_in(item)
            )
        except Missing:
            done = False
        self._back(mark)
        return changed if done else None

    def _spaces_in(self, item: Repeat) -> bool:
        """True when a repeat works into spaces, so that a space left over means another pass."""
        return any(
            isinstance(i, (Work, Group, Skip)) and i.where.kinds and i.where.kinds[0].name == SPACE
            for i in item.items
        )

    def _say_passes(self, number: int, turns: int, path: tuple[tuple[int, int, int], ...]) -> None:
        """Writes how many passes there were into the steps of a repeat that went on to the end."""
        depth = len(path)
        for k in range(len(self.steps) - 1, -1, -1):
            step = self.steps[k]
            if len(step.path) <= depth or step.path[depth][0] != number:
                break
            entry = (number, step.path[depth][1], turns)
            self.steps[k] = replace(step, path=(*step.path[:depth], entry, *step.path[depth + 1 :]))

    # -- joins, edges

    def join(self, item: Join, says: Turning | None) -> None:
        """Closes a round; a taller stitch that closes it is part of its last space."""
        self.closed_by = item
        if item.stitch in ("slst", "magic"):
            return
        last = self.made[-1] if self.made else None
        height = _height(item.stitch)
        open_space = last is not None and last.kind == SP
        chains = (says.space if says is not None and says.counts and says.space else 0) or (
            (last.chains + height) if open_space and last is not None else height
        )
        if says is not None and says.counts and says.as_stitch and not says.space:
            self.make(item.stitch, ())
            return
        if open_space and not self.ask(("join apart", item.span.start), (False, True)):
            assert last is not None
            self.made[-1] = replace(last, chains=chains)
        elif open_space:
            self.make(item.stitch, ())
        else:
            self.make(SP, (), chains)
        self.ends_in_space = True

    def travel(self, item: Travel) -> None:
        """Moves to a new beginning without making anything."""
        below = self.below
        if item.fresh and self.ground.left and not below.n:
            self._take_up()
        start: int | None = None
        for where in item.where:
            kind = where.kinds[0] if where.kinds else Kind(ANY)
            if where.loop.startswith("free") and -where.down in self.ground.earlier:
                elements = tuple(e for e in self.ground.earlier[-where.down] if e.is_stitch)
                self.below = below = Below(elements, True)
                below.free = True
                start = 0
                continue
            if where.which is Which.EACH and where.stop is not None and where.stop.at:
                start = min(below.n - 1, below.limit_of(where.stop))
                continue
            if where.which is Which.BETWEEN:
                start = max(1, below.at)
                below.gap = start - 1
                continue
            try:
                if where.which is Which.LAST:
                    start = below.from_end(1, (kind,))
                elif where.which in (Which.SAME, Which.TOP):
                    start = below.here if below.here is not None else 0
                elif where.which in (Which.NEXT, Which.FIRST, Which.NTH):
                    if where.which is not Which.NEXT or item.fresh:
                        below.at = below.at if where.which is Which.NEXT else 0
                    for _ in range(min(where.many, 10_000) if where.which is not Which.NTH else where.nth):
                        start, _ = below.take(kind if kind.name != "group" else Kind(ANY), self.limit)
            except Missing as missing:
                if not below.ring and below.n:
                    self.fault(missing.code, item.span, missing.says, "not there")
        if start is None:
            return
        if below.closed:
            # the round begins here; what was travelled over comes at its end, and may be left
            passed = tuple(
                replace(e, slipped=True) if e.kind != HIDDEN else e for e in below.elements[:start]
            )
            if item.fresh:
                passed = below.elements[:start]
            below.elements = (*below.elements[start:], *passed)
            self.offset = start
            below.at, below.sub, below.here = 0, 0, 0
            if below.gap >= 0:
                below.gap, below.here, below.at = 0, None, 0
            if below.elements and below.elements[0].kind == SP:
                below.at = 1
        else:
            below.at, below.sub, below.here = start, 0, start

    def edge(self, item: Edge) -> None:
        if item.name == "base":
            self._base_edge()
        elif item.name in ("side", "top"):
            self.edge_used = True

    def _base_edge(self) -> None:
        """Goes on along the other side of the foundation."""
        below = self.below
        if below.n and any(e.kind == CH for e in below.elements):
            here = below.here if below.here is not None else below.n
            worked = [i for e in self.made for i in e.into]
            first = min(worked) if worked else 0
            chains = below.elements[first : here + (1 if self.ask("far end too", (False, True)) else 0)]
            self._to_edge(tuple(reversed(chains)))
            self.edge_used = False
            self.other_side = True
            return
        self.edge_used = True
        if self.ground.base:
            self._to_edge(self.ground.base)
            self.ground.base = ()

    other_side = False
    offset = 0
    picot_open = False
    """True between the chains of a picot and the slip stitch that closes it."""
    picot_open = False
    ends_in_space = False
    """True between the chains of a picot and the slip stitch that closes it."""
    ends: tuple[bool, int, str] | None = None


def _one_place(a: Element, b: Element) -> bool:
    """True when two neighbours were worked in one place, so that there is no gap between them."""
    return bool(a.group and a.group == b.group) or bool(a.into and a.into == b.into)


_SQUARES = ("tile", "beg tile", "window", "block", "beg window", "beg block")


def saved_limit(limit: int, n: int) -> int:
    """A limit inside which a missing target ends a pass rather than the row."""
    return min(limit, n)


def _stripped(items: Sequence[Item]) -> tuple[Item, ...]:
    return tuple(item for item in items if not isinstance(item, Mark))


def _without(items: tuple[Item, ...], dropped: tuple[Item, ...]) -> tuple[Item, ...]:
    """Items without what a last pass leaves out, looked for from the end."""
    out = list(items)
    for drop in reversed(dropped):
        for k in range(len(out) - 1, -1, -1):
            item = out[k]
            if isinstance(item, (Say, Mark)):
                continue
            if isinstance(drop, Chain) and isinstance(item, Chain):
                out.pop(k)
                break
            if isinstance(drop, Work) and isinstance(item, Work):
                if item.where.which is Which.STRAIGHT and item.count > drop.count:
                    out[k] = replace(item, count=item.count - drop.count)
                elif item.where.which in (Which.NEXT,) and item.where.many > drop.count and item.count == 1:
                    out[k] = replace(item, where=replace(item.where, many=item.where.many - drop.count))
                elif item.count > drop.count and item.where.many == 1:
                    out[k] = replace(item, count=item.count - drop.count)
                else:
                    out.pop(k)
                break
            if (
                isinstance(drop, Skip)
                and isinstance(item, Skip)
                or isinstance(drop, (Group, Repeat))
                and isinstance(item, (Group, Repeat))
            ):
                out.pop(k)
                break
            if isinstance(drop, Chain) and isinstance(item, (Group, Work, Skip)):
                continue
    return tuple(out)


def _height(name: str) -> int:
    row = STITCHES.get(parts_of(name)[1])
    return row.height if row else 3


def first_row_options(skipped: int, height: int, name: str) -> tuple[Choice, ...]:
    """What the chains skipped in a first row can stand for, the likeliest by common practice first."""
    none: Choice = ("none",)
    if name == "slst" or height <= 0:
        return (none,)
    if height == 1:
        return (none,) if skipped <= 1 else (none, ("st", "sc", 0))
    if height == 2 and name == "hdc":
        if skipped == 1:
            return (none,)
        if skipped == 2:
            return (("st", "hdc", 0), none)
        return (("st", "hdc", 0), ("st", "hdc", (skipped - 2) // 2), none)
    if skipped < height:
        return (none, ("st", name, 0)) if skipped == height - 1 else (none,)
    extra = skipped - height
    if extra == 0:
        return (("st", name, 0), none)
    options: list[Choice] = []
    if extra >= 2:
        options.append(("st", name, extra // 2))
    options.append(("st", name, 0))
    if extra == 1:
        options.append(("st", name, 1))
    options.append(none)
    return tuple(options)


def turning_options(chains: int, first: str, height: int) -> tuple[Choice, ...]:
    """What a turning chain can stand for, the likeliest by common practice first."""
    none: Choice = ("none",)
    plain = first if first in STITCHES and STITCHES[first].height >= 2 and not STITCHES[first].closes else ""
    if chains == 1:
        return (none, ("st", first, 0)) if first in ("sc", "hdc") else (none,)
    if height <= 1:
        if chains == 2:
            return (none, ("st", "hdc", 0), ("st", "sc", 1), ("space",))
        options: list[Choice] = []
        if chains >= 5:
            options = [("st", "dc", chains - 3), ("space",)]
        elif chains == 3:
            options = [("st", "dc", 0), ("st", "hdc", 1), ("space",)]
        else:
            options = [("st", "dc", 1), ("st", "sc", chains - 1), ("space",)]
        return (*options, ("st", "sc", chains - 1), none)
    if chains == 2:
        if height == 2:
            return (none, ("st", "hdc", 0))
        return (none, ("st", plain or "dc", 0), ("st", "hdc", 0))
    if chains < height:
        return (
            (("st", plain or "dc", 0), none)
            if chains == 3 and height == 4
            else (none, ("st", plain or "dc", 0))
        )
    if chains == height:
        return (("st", plain or by_chains(chains, "dc"), 0), none)
    extra = chains - height
    out: list[Choice] = [("st", plain or "dc", extra)]
    if chains == 4 and height == 3:
        out += [("st", "tr", 0)]
    if chains == 5 and height == 3:
        out += [("st", "dtr", 0)]
    if height == 2 and chains == 3:
        out += [("st", "dc", 0)]
    if height == 2:
        out += [("st", "dc", chains - 3)]
    if height == 4 and chains >= 5:
        out += [("st", "dc", chains - 3)]
    return (*out, none, ("space",))


def first_stitch(items: Sequence[Item], specials: dict[str, Special]) -> str | None:
    """The first stitch that items work, looked for inside groups and repeats."""
    for item in items:
        if isinstance(item, Work):
            special = specials.get(item.stitch)
            if special is not None and special.items:
                inside = first_stitch(special.items, specials)
                if inside:
                    return inside
                continue
            if special is not None and special.base in STITCHES:
                return special.base
            if item.stitch in ("picot", "slst"):
                continue
            return parts_of(item.stitch)[1]
        if isinstance(item, (Group, Repeat)):
            inside = first_stitch(item.items, specials)
            if inside:
                return inside
    return None
