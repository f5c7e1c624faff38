"""A row worked again with one thing done wrong, at every place where it can happen.

A placed row comes in; mistakes come out, each with what it does to the row that stands on the real one below. The
names of causes are those of the table CAUSES.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator

from tracker.fabric.model import CH, HIDDEN, SP, Element, Placed
from tracker.finding.causes.edits import Edit, Mistake
from tracker.finding.causes.parts import Part, on_foundation, parts_of_row, passes_of, plain_of
from tracker.notation.tree import Join
from tracker.records import replace
from tracker.trade.stitches import height_of, parts_of

TALL = 3
"""Chains as high as the stitches of a mesh are: those of a lower one are seldom told as squares."""
LARGE = 4
"""So many stitches in one place are known at a glance; more have to be counted."""
LONGEST = 2_000
"""Parts of a row that are tried; in a longer row all those between are like others that were."""


def single_mistakes(placed: Placed, mesh: frozenset[tuple[str, int]] = frozenset()) -> Iterator[Mistake]:
    """Every row that comes of one mistake; `mesh` has the open squares of the piece."""
    row = _Row(placed, mesh)
    yield from row.of_edges()
    yield from row.of_stitches()
    yield from row.of_groups()
    yield from row.of_squares()
    yield from row.of_passes()


class _Row:
    def __init__(self, placed: Placed, mesh: frozenset[tuple[str, int]]) -> None:
        self.placed = placed
        self.elements = placed.worked.elements
        self.below = placed.worked.below
        self.parts = parts_of_row(placed)
        self.mesh = mesh
        self.round = placed.kind == "round"
        # a round that begins with a chain is closed, though only a note may say so: a spiral has none
        chained = bool(self.elements) and (self.elements[0].turning or self.elements[0].kind == HIDDEN)
        self.joined = self.round and (
            chained or any(isinstance(step.item, Join) for step in placed.worked.steps)
        )
        self.shaping = any(p.what == "increase" for p in self.parts)
        self.narrowing = any(p.what == "decrease" for p in self.parts)
        plain = [self.elements[p.start] for p in self.parts if p.what == "stitch"]
        stitches = [e for e in self.elements if e.is_stitch]
        many = Counter(e.kind for e in self.elements if e.is_stitch)
        self.common = max(plain or stitches, key=lambda e: many[e.kind], default=None)
        """The stitch most worked in the row."""
        tail = [self.elements[p.start] for p in self.parts[-1:] if p.what == "stitch"]
        self.ending = tuple({e.kind: e for e in (*tail, self.common) if e is not None}.values())
        """What an extra stitch at the end is likeliest to be: what the row ends with, or what it is mostly made of."""

    def tried(self) -> Iterator[tuple[int, Part]]:
        """The parts, with their numbers."""
        for n, part in enumerate(self.parts):
            if n < LONGEST or n >= len(self.parts) - 2:
                yield n, part

    def held(self, part: Part) -> tuple[Element, ...]:
        return self.elements[part.start : part.end]

    def near(self, n: int, what: str) -> bool:
        return 0 <= n < len(self.parts) and self.parts[n].what == what

    def begun(self, n: int) -> bool:
        """True for a turning chain that is a stitch and its space."""
        return self.near(n, "turning") and self.parts[n].end - self.parts[n].start == 2

    def of_kind(self, n: int, kind: str) -> bool:
        return self.elements[self.parts[n].start].kind == kind

    def without(self, n: int) -> tuple[Edit, ...]:
        """One part left out; between two chains only one of them is made."""
        part = self.parts[n]
        if self.near(n - 1, "space") and (self.near(n + 1, "space") or n == len(self.parts) - 1):
            return (Edit(self.parts[n - 1].start, part.end),)
        if self.begun(n - 1) and self.near(n + 1, "space"):
            return (Edit(part.start, self.parts[n + 1].end),)
        return (Edit(part.start, part.end),)

    def extra(self, at: int, stitch: Element) -> tuple[Edit, ...]:
        return (Edit(at, at, (replace(stitch, turning=False, group=0),)),)

    # -- edges

    def of_edges(self) -> Iterator[Mistake]:
        """The first and the last stitch, the turning chain, the join, the marker."""
        if not self.parts or self.common is None:
            return
        end = len(self.elements)
        last = len(self.parts) - 1
        if self.joined:
            yield from self._closing(last)
        elif self.round:
            if self.parts[last].what in ("stitch", "increase", "decrease"):
                yield Mistake("marker_moved", end - 1, (Edit(end - 1, end),))
            yield from self._more("marker_moved")
        else:
            yield from self._last(last)
        hidden = any(e.kind == HIDDEN for e in self.below)
        chained = hidden or any(e.turning or e.kind == CH for e in self.below)
        # rows that are turned have a chain though none may be told, or only in a note
        hidden = hidden or self.placed.worked.turned and not chained
        if hidden or on_foundation(self.placed) and self.elements[0].kind == HIDDEN:
            yield from self._more("worked_into_uncounted_tch", 1.0 if hidden else 0.3)
        yield from self._first()

    def _more(self, cause: str, odd: float = 1.0) -> Iterator[Mistake]:
        """One stitch too many at the end."""
        end = len(self.elements)
        for n, stitch in enumerate(self.ending):
            yield Mistake(cause, end, self.extra(end, stitch), odd if n == 0 else odd * 0.5)

    def _closing(self, last: int) -> Iterator[Mistake]:
        yield from self._more("joining_st_worked")
        n = last
        while n > 0 and self.parts[n].what == "space":
            n -= 1
        part = self.parts[n]
        if n == last and part.what == "stitch":
            yield Mistake("joined_early", part.start, self.without(n))
        elif n == last and part.what == "increase":
            yield Mistake("joined_early", part.end - 1, (Edit(part.end - 1, part.end),), 0.6)
        elif part.what != "turning" and n:
            start = self.parts[n - 1].start if n < last and self.near(n - 1, "space") else part.start
            yield Mistake("joined_early", part.start, (Edit(start, part.end),), 0.4)

    def _last(self, n: int) -> Iterator[Mistake]:
        part = self.parts[n]
        if n == 0 or part.what == "space":
            return
        at = part.into[-1] if part.into else -1
        target = self.below[at] if 0 <= at < len(self.below) else None
        cause = "missed_turning_chain" if target is not None and target.turning else "last_stitch_missed"
        yield Mistake(cause, part.start, self.without(n), 1.0 if part.what in ("stitch", "decrease") else 0.5)
        if part.what == "stitch" and self.near(n - 1, "space"):
            # the chain that led to it hangs on: a maker may count it still
            yield Mistake(cause, part.start, (Edit(part.start, part.end),), 0.15)
        if part.what in ("increase", "group", "corner") and part.end - part.start > 1:
            yield Mistake(cause, part.end - 1, (Edit(part.end - 1, part.end),), 0.5)

    def _first(self) -> Iterator[Mistake]:
        first = self.parts[0]
        if first.what == "turning":
            stitch = self.elements[first.start]
            if first.into:
                odd = 1.0 if first.end - first.start == 1 else 0.3
                yield Mistake("extra_in_first", first.start, self.extra(first.start + 1, stitch), odd)
            if len(self.parts) > 2 and self.parts[1].what == "stitch":
                edits: tuple[Edit, ...] = (Edit(self.parts[1].start, self.parts[1].end),)
                if first.end - first.start > 1:
                    # with the chain that leads to it
                    edits = (Edit(first.end - 1, first.end), *edits)
                yield Mistake("first_stitch_skipped", self.parts[1].start, edits, 0.3)
        elif len(self.parts) > 1 and first.what == "stitch" and self.elements[0].kind == HIDDEN:
            odd = 0.75 if self.joined else 1.0
            yield Mistake("first_stitch_skipped", first.start, self.without(0), odd)
        elif len(self.parts) > 1 and first.what == "stitch" and not self.round:
            yield Mistake("first_stitch_skipped", first.start, self.without(0), 0.4)

    # -- single stitches

    def of_stitches(self) -> Iterator[Mistake]:
        """Passed over, worked twice; increases and decreases not made, or made where none should be."""
        last = len(self.parts) - 1
        for n, part in self.tried():
            if part.what == "stitch":
                stitch = self.elements[part.start]
                # between two chains it is a window or an arch that is missing: those are squares' business
                between = self.near(n - 1, "space") and self.near(n + 1, "space")
                if part.fills and not between:
                    yield Mistake("group_missed", part.start, self.without(n), 0.5)
                elif not between:
                    yield Mistake("skipped_stitch", part.start, self.without(n))
                yield Mistake("doubled_stitch", part.start, self.extra(part.end, stitch))
                if self.shaping:
                    yield Mistake("extra_increase", part.start, self.extra(part.end, stitch))
                yield from self._together(n)
            elif part.what == "decrease":
                yield from self._separate(part)
                yield Mistake("skipped_stitch", part.start, self.without(n), 0.2)
                yield Mistake(
                    "doubled_stitch", part.start, self.extra(part.end, self.elements[part.start]), 0.2
                )
            elif part.what == "increase":
                edge = not self.round and n in (0, last)
                cause = "edge_increase_missed" if edge else "increase_missed"
                many = part.end - part.start
                yield Mistake(cause, part.start, (Edit(part.start + 1, part.end),))
                if many > 2:
                    yield Mistake("group_short", part.start, (Edit(part.end - 1, part.end),), 0.5)
                yield Mistake("group_missed", part.start, self.without(n), 0.2)
                yield Mistake(
                    "doubled_stitch", part.start, self.extra(part.end, self.elements[part.end - 1]), 0.5
                )
                yield Mistake(
                    "extra_increase", part.start, self.extra(part.end, self.elements[part.end - 1]), 0.3
                )
            elif part.what == "picot":
                yield Mistake("chain_omitted", part.start, self.without(n))
            elif part.what == "turning" and self.near(n + 1, "stitch"):
                yield Mistake(
                    "doubled_stitch", part.start, self.extra(part.end, self.elements[part.start]), 0.1
                )
        edges = (self.parts[0], self.parts[last]) if last > 0 else ()
        if not self.round and edges and all(p.what == "increase" for p in edges):
            both = tuple(Edit(p.start + 1, p.end) for p in edges)
            yield Mistake("edge_increase_missed", edges[0].start, both, 0.7)

    def _together(self, n: int) -> Iterator[Mistake]:
        """Two stitches worked as one."""
        if not self.near(n + 1, "stitch"):
            return
        one, two = self.elements[self.parts[n].start], self.elements[self.parts[n + 1].start]
        post, base, together = parts_of(one.kind)
        if one.kind != two.kind or together > 1 or one.kind in ("slst", "tile"):
            return
        made = replace(one, kind=f"{post}{base}2tog", into=(*one.into, *two.into))
        yield Mistake(
            "extra_decrease",
            self.parts[n].start,
            (Edit(self.parts[n].start, self.parts[n + 1].end, (made,)),),
        )

    def _separate(self, part: Part) -> Iterator[Mistake]:
        """Stitches that belong together worked one by one, all of them or all but two."""
        stitch = self.elements[part.start]
        plain = plain_of(stitch.kind)
        if plain == stitch.kind:
            return
        singles = tuple(replace(stitch, kind=plain, into=(k,)) for k in stitch.into)
        yield Mistake("decrease_missed", part.start, (Edit(part.start, part.end, singles),))
        for gathered in range(2, len(stitch.into)):
            rest = tuple(replace(stitch, kind=plain, into=(k,)) for k in stitch.into[gathered:])
            fewer = replace(stitch, kind=f"{plain}{gathered}tog", into=stitch.into[:gathered])
            yield Mistake("decrease_missed", part.start, (Edit(part.start, part.end, (fewer, *rest)),), 0.3)

    # -- what is worked in one place

    def of_groups(self) -> Iterator[Mistake]:
        """Shells, fans, fillings and corners: missing, or with less in them than there should be."""
        for n, part in self.tried():
            if part.what not in ("group", "corner"):
                continue
            odd = 0.3 if part.begins else 0.5 if part.what == "corner" else 1.0
            yield Mistake("group_missed", part.start, self.without(n), odd)
            yield from self._beside(n, odd)
            yield from self._short(part)
            yield self._fuller(part)
            for k in range(part.start, part.end):
                if self.elements[k].kind == "picot":
                    yield Mistake("chain_omitted", k, (Edit(k, k + 1),))
            between = self.held(self.parts[n - 1]) if self.near(n - 1, "space") else ()
            again = tuple(replace(e, turning=False) for e in (*between, *self.held(part)))
            yield Mistake("extra_repeat", part.end, (Edit(part.end, part.end, again),), 0.7)

    def _beside(self, n: int, odd: float) -> Iterator[Mistake]:
        """A group left out with the one chain beside it, or without any."""
        part = self.parts[n]
        before, after = self.near(n - 1, "space"), self.near(n + 1, "space")
        if before and after:
            yield Mistake("group_missed", part.start, (Edit(part.start, part.end),), odd * 0.2)
        elif before and n < len(self.parts) - 1:
            yield Mistake("group_missed", part.start, (Edit(self.parts[n - 1].start, part.end),), odd * 0.6)
        elif after:
            yield Mistake("group_missed", part.start, (Edit(part.start, self.parts[n + 1].end),), odd * 0.6)

    def _fuller(self, part: Part) -> Mistake:
        """One stitch more in it than there should be: the more belong in it, the easier."""
        held = self.held(part)
        at = max(k for k, element in enumerate(held) if element.is_stitch)
        odd = max(1.0, len(held) / LARGE)
        return Mistake("doubled_stitch", part.start, self.extra(part.start + at + 1, held[at]), odd)

    def _short(self, part: Part) -> Iterator[Mistake]:
        held = self.held(part)
        corner = part.what == "corner"
        spaces = [k for k, e in enumerate(held) if e.kind == SP]
        length = len(held)
        for keep in range(1, length):
            if held[keep - 1].kind == SP:
                continue
            half = bool(spaces) and keep in spaces
            whole = keep == 1
            cause = "corner_single" if corner and (half or whole) else "group_short"
            missing = length - keep
            odd = 1.0 if half or missing == 1 or cause == "corner_single" else 0.6 / missing
            if missing == 1 and not spaces:
                odd = max(1.0, length / LARGE)
            yield Mistake(cause, part.start, (Edit(part.start + keep, part.end),), odd)
        for k in spaces:
            edit = (Edit(part.start + k, part.start + k + 1),)
            yield Mistake(
                "corner_single" if corner else "chain_omitted", part.start + k, edit, 0.5 if corner else 1.0
            )
            if corner:
                yield Mistake("chain_omitted", part.start + k, edit)
        if length > 2 and spaces[-1:] == [length - 2]:
            # its last stitch forgotten: the chain that led to it hangs on
            yield Mistake("group_short", part.start, (Edit(part.end - 1, part.end),), 0.3)
        if spaces:
            # one stitch fewer in a part of the group that has several
            for k in range(length - 1):
                if held[k].is_stitch and held[k + 1].is_stitch and (k == 0 or held[k - 1].kind == SP):
                    yield Mistake("group_short", part.start, (Edit(part.start + k, part.start + k + 1),))

    # -- meshes and filet

    def of_squares(self) -> Iterator[Mistake]:
        """Chains left out, squares left out or added, filled for open and open for filled."""
        for n, part in self.tried():
            begun = part.what == "turning" and part.end - part.start == 2
            if part.what == "space" or begun:
                at = part.end - 1
                space = self.elements[at]
                yield Mistake("chain_omitted", at, (Edit(at, at + 1),), 0.5 if begun else 1.0)
                if not self.near(n + 1, "stitch"):
                    continue
                stitch = self.elements[self.parts[n + 1].start]
                end = self.parts[n + 1].end
                if n + 1 < len(self.parts) - 1 and not begun:
                    yield Mistake("mesh_skipped", at, (Edit(at, end),))
                again = (space, replace(stitch, turning=False))
                yield Mistake("extra_mesh", end, (Edit(end, end, again),))
                if begun or any(self.near(n - 1, what) for what in ("stitch", "turning", "decrease")):
                    filled = (replace(stitch, turning=False),) * space.chains
                    odd = 1.0 if height_of(stitch.kind) >= TALL else 0.3
                    yield Mistake("block_for_mesh", at, (Edit(at, at + 1, filled),), odd)
            elif self.mesh:
                yield from self._opened(n, part)

    def _opened(self, n: int, part: Part) -> Iterator[Mistake]:
        """A filled square worked as an open one."""
        if n == 0 or n >= len(self.parts) - 1:
            return
        seldom = 1.0 if any(p.what == "space" or p.fills for p in self.parts) else 0.2
        for kind, chains in sorted(self.mesh):
            if self.elements[part.start].kind != kind or height_of(kind) < TALL:
                continue
            if part.what in ("group", "stitch") and part.fills and part.end - part.start == chains:
                after = n + 1
            elif part.what == "stitch" and all(
                self.near(n + k, "stitch") and not self.parts[n + k].fills and self.of_kind(n + k, kind)
                for k in range(chains + 1)
            ):
                after = n + chains
            else:
                continue
            post = self.parts[after]
            edit = Edit(part.start, post.start, (Element(SP, chains),))
            yield Mistake("mesh_for_block", part.start, (edit,), seldom)
            yield Mistake("group_missed", part.start, (Edit(part.start, post.end),), 0.5 * seldom)

    # -- repeats

    def of_passes(self) -> Iterator[Mistake]:
        """A pass of a repeat left out, or worked once more."""
        starts = [part.start for part in self.parts]
        for start, end in passes_of(self.placed):
            held = [
                p for p in self.parts[bisect_left(starts, start) : bisect_left(starts, end)] if p.end <= end
            ]
            solid = [p for p in held if p.what != "space"]
            if not solid or sum(p.end - p.start for p in held) < 2:
                continue
            missed, more = "repeat_missed", "extra_repeat"
            if len(solid) == 1:
                what = solid[0].what
                if what in ("stitch", "decrease") and len(held) == 2:
                    missed, more = "mesh_skipped", "extra_mesh"
                elif what in ("group", "corner"):
                    missed = "group_missed"
                else:
                    continue
            yield Mistake(missed, start, (Edit(start, end),))
            again = tuple(replace(e, turning=False) for e in self.elements[start:end])
            yield Mistake(more, end, (Edit(end, end, again),))
