"""The place the hook has reached in the row below; finds the targets that are named and moves past them."""

from tracker.fabric.below.gaps import split_shell
from tracker.fabric.below.surface import UNLIMITED, Missing, Surface, closed, named
from tracker.fabric.model import CH, HIDDEN, SP, Element
from tracker.notation.tree import ANY, EITHER, Kind
from tracker.trade.begun import elsewhere
from tracker.trade.nouns import a_

_ANY_GROUP = ("group", "corner", "whole group")
"""Names of groups that no list of special stitches defines."""


class Below(Surface):
    """A surface and the place the hook has reached on it."""

    __slots__ = ("at", "gap", "here", "marks", "slipped", "sub")

    def __init__(self, elements: tuple[Element, ...], closed: bool, ring: bool = False) -> None:
        super().__init__(elements, closed, ring)
        self.at = 0
        """Index of the next element, from 0."""
        self.sub = 0
        """Chains of the space at `at` that are already worked one by one."""
        self.here: int | None = None
        """Index of the element last worked into; None before the first, or when it is none of these."""
        self.gap = -1
        """Index of the element after the gap last worked into."""
        self.marks: tuple[int, ...] = ()
        """Where markers hang, as `Standing.marks` has them."""
        self.slipped = -1
        """Index before which a marker was slipped last."""

    def next_mark(self) -> int | None:
        """Index of the element before which, or in which, the next marker hangs."""
        places = (mark // 2 for mark in self.marks)
        return next((i for i in places if i > self.at or i == self.at != self.slipped), None)

    def anything_left(self, end: int) -> bool:
        """True when something stands between the hook and an index that a word could name."""
        return any(e.kind != HIDDEN for e in self.elements[self.at : min(end, self.n)])

    def passed_to(self, end: int, most: int = UNLIMITED) -> int:
        """How many stitches lie before an index that no word has dealt with, `most` at the most; what is left of a
        group worked into in its middle goes without saying."""
        begun = self.elements[self.here].group if self.here is not None and self.here < self.n else 0
        start = self.at
        while begun and start < end and self.elements[start].group == begun:
            start += 1
        return self.unsaid(start, end, most)

    def next_stitch(self, limit: int) -> tuple[int, bool]:
        """Index of the next stitch (or single chain, when chains are stitches), and whether it is a single chain."""
        i = self.at
        while i < min(self.n, limit):
            element = self.elements[i]
            if element.kind == SP and self.chains_too:
                return i, True
            if element.is_stitch:
                return i, False
            i += 1
        raise Missing("C203", "there is no stitch left to work into")

    def take_stitch(self, limit: int = UNLIMITED) -> int:
        """Takes the next stitch and gives its index."""
        i, chain = self.next_stitch(limit)
        if chain:
            self._take_chain(i)
        else:
            self.at, self.sub = i + 1, 0
        self.here = i
        return i

    def _take_chain(self, i: int) -> None:
        """Takes one chain of the space at an index."""
        if i != self.at:
            self.at, self.sub = i, 0
        self.sub += 1
        if self.sub >= max(1, self.elements[i].chains):
            self.at, self.sub = i + 1, 0

    def take(self, kind: Kind, limit: int = UNLIMITED) -> tuple[int, int]:
        """Takes the next element a kind names: its index, and how many stitches were passed over unsaid."""
        kind = self.meant(kind)
        if kind.name == ANY:
            return self.take_stitch(limit), 0
        if kind.name == CH:
            return self._take_single(limit), 0
        if kind.name == SP:
            start = self.at if self.sub == 0 else self.at + 1
            found = self.find(kind, start, limit)
            if found is None:
                other = self.find(Kind(SP), start, limit)
                if other is not None and self._is_turning_space(other, kind):
                    self.at, self.sub, self.here = other + 1, 0, other
                    return other, 0
                if other is None:
                    raise Missing(
                        "C205" if self.at < self.n else "C203", f"there is no {named(kind)} left to work into"
                    )
                raise Missing(
                    "C205",
                    f"there is no {named(kind)} left, the one there is {a_(self.elements[other].name)}",
                )
            self.at, self.sub, self.here = found + 1, 0, found
            return found, 0
        if kind.name in ("corner", "corner sp"):
            found = self.find(kind, self.at if self.sub == 0 else self.at + 1, limit)
            if found is None:
                raise Missing("C205", "there is no corner left to work into")
            passed = sum(1 for e in self.elements[self.at : found] if e.is_stitch)
            self.at, self.sub, self.here = found + 1, 0, found
            return found, passed
        if kind.name == "group":
            found = self.find(kind, self.at, limit)
            if found is not None and self._part_of_the_first(found):
                found = None
            if found is None:
                # where nothing was made in one place, the word means something else
                if not any(e.group for e in self.elements):
                    raise Missing("T101", "which group is meant is not known")
                raise Missing("C205", "there is no group left to work into")
            self.at, self.sub, self.here = self.after_group(found), 0, found
            return found, 0
        i, _ = self.next_stitch(limit)
        for k in range(self.at, i):
            if self.elements[k].kind == SP and self.matches(self.elements[k], kind):
                # "sc in next bar": a name of the pattern's own for a space
                return self._settle(k, kind), 0
        element = self.elements[i]
        begun = self.elements[self.here].group if self.here is not None and self.here < self.n else 0
        if begun and element.group == begun and not self.matches(element, kind):
            # in the middle of a fan the next of another kind stands behind it
            behind = self.after_group(i)
            after = next((k for k in range(behind, min(self.n, limit)) if self.elements[k].is_stitch), None)
            if after is not None and self.matches(self.elements[after], kind):
                return self._settle(after, kind), 0
        if begun and element.group == begun and self._left_of_shell(element, kind):
            # "shell in next shell", from the middle of one: the next is the one behind it
            behind = self.after_group(i)
            i = next((k for k in range(behind, min(self.n, limit)) if self.elements[k].is_stitch), i)
            element = self.elements[i]
        alike = self.matches(element, kind) or self.related(element, kind)
        j = i if alike else self.find(kind, i, limit)
        if j is not None and self._slipped_over(self.elements[j], kind):
            raise Missing("C203", f"there is no {named(kind)} left to work into")
        if alike:
            return self._settle(i, kind), 0
        if j is None:
            raise Missing(
                "C205",
                f"there is no {named(kind)} left to work into, "
                f"the next stitch is {a_('chain' if element.kind == CH else element.kind)}",
            )
        # what is left of a group worked into in its middle goes without saying
        beside = self._place_of_the_chain()
        passed = sum(
            1
            for e in self.elements[i:j]
            if e.is_stitch and not (begun and e.group == begun) and not (beside and e.into == beside)
        )
        return self._settle(j, kind), passed

    def _place_of_the_chain(self) -> tuple[int, ...]:
        """The place of a turning chain that the hook stands in: "ch 5, dc in same sp" is a V; () elsewhere."""
        if self.here is None or not 0 <= self.here < self.n or not self.elements[self.here].turning:
            return ()
        space = self.elements[self.here]
        beside = self.elements[self.here - 1] if space.kind == SP else space
        return beside.into if beside.turning else ()

    def _left_of_shell(self, element: Element, kind: Kind) -> bool:
        """True for what is left of a shell of which the middle space was worked into."""
        return (
            elsewhere(element.special) == kind.name != element.kind
            and not closed(element)
            and self.here is not None
            and self.elements[self.here].kind == SP
        )

    def _part_of_the_first(self, i: int) -> bool:
        """True for what slip stitches went over on their way into a group: the rest of it was worked into first."""
        element = self.elements[i]
        return element.slipped and any(e.group == element.group and not e.slipped for e in self.elements)

    def _slipped_over(self, element: Element, kind: Kind) -> bool:
        """True for what slip stitches went over on their way to the middle of a shell: that is not another shell."""
        return (
            element.slipped
            and element.group > 0
            and elsewhere(element.special) == kind.name != element.kind
            and element.group == self.elements[0].group
            and not closed(element)
        )

    def _is_turning_space(self, i: int, kind: Kind) -> bool:
        """True for the space beside a turning chain that is called by all its chains: "in ch-5 sp" of dc and ch-2."""
        space = self.elements[i]
        beside = next((e for e in self.elements[max(0, i - 1) : i + 2] if e.turning and e.is_stitch), None)
        return (
            space.turning
            and beside is not None
            and kind.chains == space.chains + beside.chains
            and not any(self.matches(e, kind) for e in self.elements)
        )

    def turning_space(self, kind: Kind) -> int | None:
        """Index of the space beside the turning chain that is called by all its chains; None where there is none."""
        return next(
            (
                k
                for k in range(self.at, self.n)
                if self.elements[k].kind == SP and self._is_turning_space(k, kind)
            ),
            None,
        )

    def after_group(self, i: int) -> int:
        """Index behind the last of those made in one place with an element."""
        group = self.elements[i].group
        while i < self.n and self.elements[i].group == group:
            i += 1
        return i

    def _settle(self, i: int, kind: Kind) -> int:
        """Moves past an element; past the whole of it when it is a special of several stitches named as one."""
        element = self.elements[i]
        if (
            element.special == kind.name
            and element.kind != kind.name
            and element.group
            and not closed(element)
        ):
            j = self.after_group(i)
            self.at, self.sub, self.here = j, 0, (i + j - 1) // 2
            return (i + j - 1) // 2
        self.at, self.sub, self.here = i + 1, 0, i
        return i

    def _take_single(self, limit: int) -> int:
        """Takes the next single chain: of a foundation, of a space, or a turning chain."""
        i = self.at
        while i < min(self.n, limit):
            element = self.elements[i]
            if element.kind == CH:
                self.at, self.sub, self.here = i + 1, 0, i
                return i
            if element.kind == SP:
                self._take_chain(i)
                self.here = i
                return i
            if element.kind == HIDDEN:
                i += 1
                continue
            break
        for j in range(self.at, min(self.n, limit)):
            element = self.elements[j]
            if element.kind == CH:
                self.at, self.sub, self.here = j + 1, 0, j
                return j
            if element.kind == SP:
                self.at, self.sub = j, 0
                self._take_chain(j)
                self.here = j
                return j
        # a turning chain that counts is a chain too
        if i < min(self.n, limit) and self.elements[i].turning:
            self.at, self.sub, self.here = i + 1, 0, i
            return i
        raise Missing("C203", "there is no chain left to work into")

    def in_group(self, kind: Kind, group: Kind, limit: int = UNLIMITED) -> int:
        """Takes the stitch (or space) of a group or special that `group.inside` tells; of the next one, save "own"."""
        if kind.name == SP and group.name not in _ANY_GROUP:
            return self._space_of(kind, group, limit)
        if group.name == SP:
            # "center ch of next ch-5 sp": a chain of a space is as good as the space
            return self.take(Kind(SP, group.chains), limit)[0]
        if group.name == "whole group" and (run := self.run(kind, group.chains, self.at, limit)):
            self.at, self.sub, self.here = run[-1] + 1, 0, run[int(group.inside) - 1]
            return self.here
        own = self.elements[self.here].group if self.here is not None and self.here < self.n else 0
        which = group.inside.removeprefix("own ")
        if own and (which != group.inside or group.name == "corner"):
            first = self._group_begins(self.here or 0)
            ahead = self._one_inside(first, kind, which)
            if ahead is not None and ahead >= self.at and (group.name != "corner" or self._has_corner(first)):
                return self._stop_inside(ahead, first, group)
        i = self._next_group(group, own, limit)
        if own and i is not None and self.elements[i].group == own:
            # "next fan" from the middle of one is the one after it
            behind = self.after_group(i)
            ahead = next(
                (k for k in range(behind, min(self.n, limit)) if self.elements[k].special == group.name), None
            )
            # none behind: the one the hook is in, unless its middle has been worked into
            i = i if ahead is None and not self._past_middle(behind) else ahead
        if i is None:
            raise Missing("C205", f"there is no {named(group)} left to work into")
        # "sk 2 dc, sc in center dc of next shell": the two are of that shell, whose middle is counted from its start
        begins = self._group_begins(i) if self.elements[i].group not in (0, own) else i
        pick = self._one_inside(begins, kind, which)
        if pick is None or pick < self.at:
            pick = self._one_inside(i, kind, which)
        if pick is None:
            raise Missing("C205", f"that {named(group)} has no {named(kind)}")
        return self._stop_inside(pick, i, group)

    def _next_group(self, group: Kind, own: int, limit: int) -> int | None:
        """Index of the first of the next group of a name, or of one as large; of any where none has the name."""
        ahead = range(self.at, min(self.n, limit))
        if group.name in _ANY_GROUP:
            return next(
                (
                    k
                    for k in ahead
                    if self.elements[k].group not in (0, own)
                    and not self.gone_over(k)
                    and (group.name != "corner" or self._has_corner(k))
                ),
                None,
            )
        i = next((k for k in ahead if self.elements[k].special == group.name), None)
        if i is not None:
            return i
        # "(3 dc) in last sc" at the edge is half a shell of five, and no shell
        size = next((self._stitches_of(k) for k, e in enumerate(self.elements) if e.special == group.name), 0)
        ahead = range(self.at, min(split_shell(self.elements) if self.closed else self.n, limit))
        return next((k for k in ahead if self.elements[k].group and self._stitches_of(k) >= size), None)

    def _stitches_of(self, i: int) -> int:
        """How many stitches the group of an element has, with the turning chain that stands beside it."""
        first, behind = self._group_begins(i), self.after_group(i)
        beside = self.elements[max(0, first - 1) : behind + 1]
        return sum(
            e.is_stitch and (e.turning or first <= k < behind)
            for k, e in enumerate(beside, max(0, first - 1))
        )

    def _one_inside(self, i: int, kind: Kind, which: str) -> int | None:
        """Index of the middle one, the last or the one of a number in the group that stands from an index on."""
        inside = [
            k
            for k in range(i, self.after_group(i))
            if (kind.name == EITHER or (self.elements[k].kind == SP) == (kind.name == SP))
            and self.elements[k].kind != HIDDEN
        ]
        if which.isdecimal():
            alike = [k for k in inside if self.matches(self.elements[k], kind)] or inside
            return alike[int(which) - 1] if int(which) <= len(alike) else None
        if not inside:
            return None
        return inside[-1] if which == "last" else inside[(len(inside) - 1) // 2]

    def _stop_inside(self, pick: int, i: int, group: Kind) -> int:
        # "2nd of next 3 dc" deals with all three, "centre dc of next shell" leaves the rest to what follows
        self.at = self.after_group(i) if group.name == "whole group" else pick + 1
        self.sub, self.here = 0, pick
        return pick

    def _group_begins(self, i: int) -> int:
        """Index of the first of those made in one place with an element."""
        while i and self.elements[i - 1].group == self.elements[i].group:
            i -= 1
        return i

    def _past_middle(self, behind: int) -> bool:
        """True when the hook is at or past the middle of the group that ends before an index."""
        first = self._group_begins(behind - 1)
        return self.here is not None and self.here >= (first + behind - 1) // 2

    def _space_of(self, kind: Kind, group: Kind, limit: int) -> int:
        """Takes the next space inside a stitch of the pattern's own, or inside one like it that was told at length."""
        found = None
        for i in range(self.at, min(self.n, limit)):
            element = self.elements[i]
            own = elsewhere(element.special)
            if self.matches(element, kind) and (
                own == group.name or not own and (element.group or element.turning)
            ):
                found = i
                break
        if found is None and not any(e.special == group.name for e in self.elements):
            found = self.find(kind, self.at, limit)
        if found is None:
            raise Missing("C205", f"there is no {named(group)} left to work into")
        self.at, self.sub, self.here = found + 1, 0, found
        return found

    def space_passed(self, kind: Kind) -> int:
        """Index of the last space that the hook has passed."""
        found = next((k for k in range(self.at - 1, -1, -1) if self.elements[k].kind == SP), None)
        if found is None:
            raise Missing("C205", f"no {named(kind)} lies between them")
        return found

    def _has_corner(self, k: int) -> bool:
        """True when the group of an element holds a corner."""
        number = self.elements[k].group
        return any(e.corner for e in self.elements[max(0, k - 6) : k + 7] if e.group == number)
