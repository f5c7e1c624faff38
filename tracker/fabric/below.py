"""The row below, in working order, with the place the hook has reached.

Finds the targets that a Where names and moves past them. What is not there raises Missing, which never leaves this
folder: the worker turns it into a problem.
"""

from tracker.fabric.model import CH, HIDDEN, SP, Element
from tracker.notation.tree import ANY, Kind, Stop
from tracker.trade.stitches import STITCHES, parts_of

UNLIMITED = 10**9


class Missing(Exception):
    """A target that is not there."""

    def __init__(self, code: str, says: str) -> None:
        super().__init__(says)
        self.code = code
        self.says = says


def named(kind: Kind) -> str:
    """What a kind is called in a report."""
    if kind.name == SP:
        return f"ch-{kind.chains} sp" if kind.chains else "chain space"
    return {"st": "stitch", "ch": "chain", "tch": "turning chain"}.get(kind.name, kind.name)


class Below:
    """Elements in working order and a cursor."""

    __slots__ = (
        "at",
        "chains_too",
        "closed",
        "corner_chains",
        "corner_chains",
        "elements",
        "free",
        "free",
        "gap",
        "here",
        "loose",
        "n",
        "ring",
        "sub",
        "widest",
        "widest",
    )

    def __init__(self, elements: tuple[Element, ...], closed: bool, ring: bool = False) -> None:
        self.elements = elements
        self.n = len(elements)
        self.at = 0
        """Index of the next element, from 0."""
        self.sub = 0
        """Chains of the space at `at` that are already worked one by one."""
        self.here: int | None = None
        """Index of the element last worked into; None before the first, or when it is none of these."""
        self.chains_too = False
        """True when a "stitch" may be a single chain of a space."""
        self.closed = closed
        self.ring = ring
        self.loose = False
        """True when a stitch's name in the text stands for any stitch."""
        self.free = False
        """True on loops left free, where every stitch is a "loop"."""
        self.corner_chains: int | None = None
        self.widest: tuple[bool, int] | None = None
        self.gap = -1
        """Index of the element after the gap last worked into."""

    def matches(self, element: Element, kind: Kind) -> bool:
        """True when an element is what a kind names."""
        name = kind.name
        is_space = element.kind == SP
        if name == "corner":
            return self._is_corner(element)
        if name == "corner sp":
            return (
                is_space
                and self._is_corner_space(element)
                and (kind.chains is None or element.chains == kind.chains)
            )
        if name == SP and self.free:
            return element.is_stitch
        if name == SP:
            return is_space and (kind.chains is None or element.chains == kind.chains)
        if is_space:
            return bool(element.special) and element.special == name
        if element.kind == HIDDEN:
            return name == "tch"
        if name == ANY:
            return element.kind != "picot"
        if name == CH:
            return element.kind == CH
        if name == "tch":
            return element.turning
        if name == "group":
            return element.group > 0
        if element.kind == name or element.special == name or element.special.removeprefix("beg ") == name:
            return True
        if name.startswith("middle of:"):
            return True
        if self.loose and element.kind != "picot":
            return True
        if name == "dec":
            return parts_of(element.kind)[2] > 1
        if name == "cl":
            return parts_of(element.kind)[2] > 1 or element.kind == "cl"
        return False

    def has_corners(self) -> bool:
        return any(e.corner for e in self.elements)

    def _is_corner(self, element: Element) -> bool:
        """A corner's space is the widest of those made in one place; without such spaces it is the middle of three."""
        if not element.corner:
            return False
        if self.corner_chains is None:
            self.corner_chains = max(
                (e.chains for e in self.elements if e.corner and e.kind == SP), default=0
            )
        return element.chains == self.corner_chains if element.kind == SP else self.corner_chains == 0

    def _is_corner_space(self, element: Element) -> bool:
        """A corner's space: those made in one place, the widest; without such, the widest of all."""
        if self.widest is None:
            flagged = [e.chains for e in self.elements if e.corner and e.kind == SP]
            self.widest = (
                bool(flagged),
                max(flagged or [e.chains for e in self.elements if e.kind == SP], default=0),
            )
        return element.chains == self.widest[1] and (element.corner or not self.widest[0])

    def related(self, element: Element, kind: Kind) -> bool:
        """True when a careful writer might still call the element by that name: a decrease, a turning chain."""
        if element.kind in (SP, HIDDEN, CH, "picot"):
            return False
        post, base, together = parts_of(element.kind)
        want_post, want, _ = parts_of(kind.name)
        plain = want in STITCHES and not STITCHES[want].closes
        if element.turning:
            return plain and base == want
        return plain and (
            base == want and (together > 1 or bool(post) != bool(want_post)) or bool(element.special)
        )

    def _generic(self, element: Element) -> bool:
        return element.kind not in (SP, HIDDEN, "picot")

    def next_stitch(self, limit: int) -> tuple[int, bool]:
        """Index of the next stitch (or single chain, when chains are stitches), and whether it is a single chain."""
        i = self.at
        while i < min(self.n, limit):
            element = self.elements[i]
            if element.kind == SP and self.chains_too:
                return i, True
            if self._generic(element):
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
        if i != self.at:
            self.at, self.sub = i, 0
        self.sub += 1
        if self.sub >= max(1, self.elements[i].chains):
            self.at, self.sub = i + 1, 0

    def find(self, kind: Kind, start: int, limit: int = UNLIMITED) -> int | None:
        """Index of the first element from `start` that a kind names, or None."""
        for i in range(start, min(self.n, limit)):
            if self.matches(self.elements[i], kind):
                return i
        return None

    def take(self, kind: Kind, limit: int = UNLIMITED) -> tuple[int, int]:
        """Takes the next element a kind names: its index, and how many stitches were passed over unsaid."""
        if kind.name == ANY:
            return self.take_stitch(limit), 0
        if kind.name == CH:
            return self._take_single(limit), 0
        if kind.name == SP:
            start = self.at if self.sub == 0 else self.at + 1
            i = self.find(kind, start, limit)
            if i is None:
                other = self.find(Kind(SP), start, limit)
                if other is None:
                    raise Missing(
                        "C205" if self.at < self.n else "C203", f"there is no {named(kind)} left to work into"
                    )
                raise Missing(
                    "C205", f"there is no {named(kind)} left, the one there is a {self.elements[other].name}"
                )
            self.at, self.sub, self.here = i + 1, 0, i
            return i, 0
        if kind.name in ("corner", "corner sp"):
            i = self.find(kind, self.at if self.sub == 0 else self.at + 1, limit)
            if i is None:
                raise Missing("C205", "there is no corner left to work into")
            passed = sum(1 for e in self.elements[self.at : i] if self._generic(e))
            self.at, self.sub, self.here = i + 1, 0, i
            return i, passed
        if kind.name == "group":
            i = self.find(kind, self.at, limit)
            if i is None:
                raise Missing("C205", "there is no group left to work into")
            group = self.elements[i].group
            j = i
            while j < self.n and self.elements[j].group == group:
                j += 1
            self.at, self.sub, self.here = j, 0, i
            return i, 0
        i, _ = self.next_stitch(limit)
        element = self.elements[i]
        if self.matches(element, kind) or self.related(element, kind):
            return self._settle(i, kind), 0
        j = self.find(kind, i, limit)
        if j is None:
            raise Missing(
                "C205",
                f"there is no {named(kind)} left to work into, the next stitch is a {self._say(element)}",
            )
        passed = sum(1 for e in self.elements[i:j] if self._generic(e))
        return self._settle(j, kind), passed

    def _say(self, element: Element) -> str:
        return "chain" if element.kind == CH else element.kind

    def _settle(self, i: int, kind: Kind) -> int:
        """Moves past an element; past the whole of it when it is a special of several stitches named as one."""
        element = self.elements[i]
        if element.special == kind.name and element.kind != kind.name and element.group:
            j = i
            while j < self.n and self.elements[j].group == element.group:
                j += 1
            self.at, self.sub, self.here = j, 0, (i + j - 1) // 2
            return (i + j - 1) // 2
        self.at, self.sub, self.here = i + 1, 0, i
        return i

    def _take_single(self, limit: int) -> int:
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

    def middle_of(self, kind: Kind, group: Kind, limit: int = UNLIMITED) -> int:
        """Takes the middle stitch (or space) of the next group or special."""
        i = None
        if group.name in ("group", "corner"):
            i = next(
                (
                    k
                    for k in range(self.at, min(self.n, limit))
                    if self.elements[k].group and (group.name != "corner" or self._has_corner(k))
                ),
                None,
            )
        else:
            i = next(
                (k for k in range(self.at, min(self.n, limit)) if self.elements[k].special == group.name),
                None,
            )
            if i is None:
                i = next((k for k in range(self.at, min(self.n, limit)) if self.elements[k].group), None)
        if i is None:
            raise Missing("C205", f"there is no {named(group)} left to work into")
        number = self.elements[i].group
        j = i
        while j < self.n and self.elements[j].group == number:
            j += 1
        inside = [
            k
            for k in range(i, j)
            if (self.elements[k].kind == SP) == (kind.name == SP) and self.elements[k].kind != HIDDEN
        ]
        if not inside:
            raise Missing("C205", f"that {named(group)} has no {named(kind)}")
        pick = inside[(len(inside) - 1) // 2]
        self.at, self.sub, self.here = pick + 1, 0, pick
        return pick

    def _has_corner(self, k: int) -> bool:
        number = self.elements[k].group
        return any(e.corner for e in self.elements[max(0, k - 6) : k + 7] if e.group == number)

    def unsaid(self, start: int, end: int) -> int:
        """How many stitches lie between two indices that no word has dealt with."""
        return sum(
            1 for e in self.elements[max(0, start) : max(0, end)] if self._generic(e) and not e.slipped
        )

    def unsaid_spaces(self, start: int, end: int) -> int:
        return sum(1 for e in self.elements[max(0, start) : max(0, end)] if e.kind == SP and not e.slipped)

    def from_end(self, many: int, kinds: tuple[Kind, ...]) -> int:
        """Index where the last `many` of a kind begin; slipped ones lie beyond the end."""
        kind = kinds[0] if kinds else Kind(ANY)
        end = self.n
        while end > 0 and (
            self.elements[end - 1].slipped or self.elements[end - 1].kind == HIDDEN and kind.name != "tch"
        ):
            end -= 1
        left = many
        i = end
        while i > 0 and left > 0:
            i -= 1
            element = self.elements[i]
            if kind.name == ANY or self._unknown(kind):
                if self._generic(element):
                    left -= 1
                elif element.kind == SP and self.chains_too:
                    left -= element.chains
            elif kind.name == CH and element.kind == SP:
                left -= element.chains
            elif self.matches(element, kind) or (
                kind.name not in (SP, "corner", "corner sp", "group", CH) and self.related(element, kind)
            ):
                left -= 1
                if element.special == kind.name and element.group and element.kind != kind.name:
                    while i > 0 and self.elements[i - 1].group == element.group:
                        i -= 1
        if left > 0:
            raise Missing("C203", f"there are not {many} {named(kind)}s in the row below")
        return i

    def _unknown(self, kind: Kind) -> bool:
        """True when no element at all is of that name, so that it can only mean "stitch"."""
        if kind.name in (SP, CH, "tch", "corner", "corner sp", "group"):
            return False
        return not any(self.matches(e, kind) for e in self.elements)

    def limit_of(self, stop: Stop) -> int:
        """Index at which an "each" or a repeat with that stop ends."""
        if stop.at == "corner":
            i = self.find(Kind("corner"), self.at)
            if i is None and any(e.kind == SP for e in self.elements):
                i = self.find(Kind(SP), self.at)
            if i is None:
                return self.n
            left = stop.left
            while left and i > self.at:
                i -= 1
                left -= 1 if self._generic(self.elements[i]) else 0
            return i
        if stop.at == "space":
            i = self.find(stop.kinds[0], self.at)
            return self.n if i is None else i
        if stop.at == "center":
            return self.center() - stop.left
        if stop.at == "marker":
            i = self.find(Kind("corner"), self.at)
            if self.closed:
                return self.n
            if i is None:
                raise Missing("T101", "the marker's place is not known")
            return i
        if stop.left:
            if len(stop.kinds) > 1:
                return min(
                    self.from_end(stop.left if k == 0 else 1, (kind,)) for k, kind in enumerate(stop.kinds)
                )
            return self.from_end(stop.left, stop.kinds)
        return self.n

    def center(self) -> int:
        """Index of the middle stitch: the one made as a corner or decrease, or the one in the middle of an odd number."""
        corners = [i for i, e in enumerate(self.elements) if e.corner and e.kind != SP]
        if len(corners) == 1:
            return corners[0]
        joined = [i for i, e in enumerate(self.elements) if parts_of(e.kind)[2] > 2]
        if len(joined) == 1:
            return joined[0]
        stitches = [i for i, e in enumerate(self.elements) if self._generic(e)]
        if len(stitches) % 2 and stitches[len(stitches) // 2] >= self.at:
            return stitches[len(stitches) // 2]
        raise Missing("T101", "the centre stitch is not known")

    def turning_index(self) -> int | None:
        """Index of the turning chain that ends the row below, counted or not."""
        for i in range(self.n - 1, max(-1, self.n - 4), -1):
            if (self.elements[i].turning and self.elements[i].kind != SP) or self.elements[i].kind == HIDDEN:
                return i
        for i, element in enumerate(self.elements):
            if element.turning and element.kind != SP:
                return i
        return None
