"""The row below, in working order: what stands there and what a noun of the pattern names among it.

What is not there raises Missing, which never leaves the fabric: the runner turns it into a problem.
"""

from tracker.fabric.model import CH, HIDDEN, SP, Element
from tracker.notation.tree import ANY, Kind
from tracker.trade.begun import elsewhere
from tracker.trade.nouns import amount
from tracker.trade.stitches import STITCHES, parts_of

UNLIMITED = 10**9
"""An index that no row reaches."""


class Missing(Exception):
    """A target that is not there: the code of the problem it makes, and what is so."""

    def __init__(self, code: str, says: str) -> None:
        super().__init__(says)
        self.code = code
        self.says = says


def named(kind: Kind) -> str:
    """What a kind is called in a report."""
    if kind.name == SP:
        return f"ch-{kind.chains} sp" if kind.chains else "chain space"
    return {"st": "stitch", "ch": "chain", "tch": "turning chain"}.get(kind.name, kind.name)


def closed(element: Element) -> bool:
    """True for a stitch that closes into one top, a popcorn or a cluster: it is one by itself, in a group too."""
    return parts_of(element.kind)[2] > 1 or element.kind in STITCHES and STITCHES[element.kind].closes


class Surface:
    """Elements in working order, and what a noun means among them."""

    __slots__ = (
        "chains_too",
        "closed",
        "corner_chains",
        "elements",
        "free",
        "n",
        "ring",
        "spaces",
        "spaces_of",
        "unmarked",
        "widest",
    )

    def __init__(self, elements: tuple[Element, ...], closed: bool, ring: bool = False) -> None:
        self.elements = elements
        self.n = len(elements)
        self.chains_too = False
        """True when a "stitch" may be a single chain of a space."""
        self.closed = closed
        """True for a round, whose end meets its beginning."""
        self.ring = ring
        """True for a ring, which takes as many stitches as are told."""
        self.free = False
        """True on loops left free, where every stitch is a "loop"."""
        self.corner_chains: int | None = None
        """Chains of the widest space made in one place, 0 when there is none; None until asked for."""
        self.unmarked: bool | None = None
        """True for a round with no corner made as such; None until asked for."""
        self.widest: tuple[bool, int] | None = None
        """Whether corner spaces are marked, and chains of the widest; None until asked for."""
        self.spaces_of: tuple[Element, ...] | None = None
        """The elements that `spaces` was found for; None until asked for."""
        self.spaces = False

    def matches(self, element: Element, kind: Kind) -> bool:
        """True when an element is what a kind names."""
        name = kind.name
        is_space = element.kind == SP
        if kind.inside and not kind.inside.startswith("between "):
            return not is_space and element.kind != HIDDEN
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
        if name.startswith("single "):
            return element.kind == name[7:] and not element.group
        if element.kind == name or element.special == name or elsewhere(element.special) == name:
            return True
        if element.kind.startswith("f") and element.kind[1:] == name and name in STITCHES:
            # one of a foundation without a chain is called by its plain name in the row above
            return True
        if name == "dec":
            return parts_of(element.kind)[2] > 1
        if name == "cl":
            return parts_of(element.kind)[2] > 1 or element.kind == "cl"
        return False

    def has_spaces(self) -> bool:
        """True when a space stands among the elements; looked for once, because it is asked at every stitch."""
        if self.spaces_of is not self.elements:
            self.spaces_of = self.elements
            self.spaces = any(e.kind == SP for e in self.elements)
        return self.spaces

    def has_corners(self) -> bool:
        """True when any element was made as a corner."""
        return any(e.corner for e in self.elements)

    def _is_corner(self, element: Element) -> bool:
        """A corner's space is the widest of those made in one place; without such spaces it is the middle of three."""
        if self.unmarked is None:
            self.unmarked = self.closed and not self.has_corners()
        if self.unmarked:
            # "(3 dc in ring, ch 2) 4 times": the corners are the widest spaces
            return element.kind == SP and self._is_corner_space(element)
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
            base == want
            and (together > 1 or bool(post) != bool(want_post))
            or bool(element.special)
            and (element.kind not in STITCHES or closed(element))
        )

    def find(self, kind: Kind, start: int, limit: int = UNLIMITED) -> int | None:
        """Index of the first element from `start` that a kind names, or None."""
        for i in range(start, min(self.n, limit)):
            if self.matches(self.elements[i], kind):
                return i
        return None

    def gone_over(self, k: int) -> bool:
        """True for what a round begun within a group, or led into one by slip stitches, went over of it."""
        return self.slipped_in_part(k) or self.left_of_first(k)

    def slipped_in_part(self, k: int) -> bool:
        """True for what slip stitches went over of a group whose rest they did not: its other half, or one stitch."""
        element = self.elements[k]
        if not element.slipped:
            return False
        group = [e for e in self.elements if e.group == element.group and e.kind != HIDDEN]
        return not all(e.slipped for e in group) or sum(e.is_stitch for e in group) < 2

    def left_of_first(self, k: int) -> bool:
        """True for what ends a round that was begun within a group: the rest of that group."""
        first = self.elements[0].group if self.closed else 0
        if not first or self.elements[k].group != first:
            return False
        return any(e.group != first for e in self.elements[1:k] if e.kind != HIDDEN)

    def run(self, kind: Kind, many: int | None, start: int, limit: int) -> list[int]:
        """The next so many of a kind that stand side by side, "3 dc"; none where they are a group of one place."""
        ahead = [i for i in range(start, min(self.n, limit)) if self.elements[i].kind != HIDDEN]
        first = next((k for k, i in enumerate(ahead) if self.matches(self.elements[i], kind)), 0)
        found = ahead[first : first + (many or 0)]
        stand = len(found) == many and all(self.matches(self.elements[i], kind) for i in found)
        return found if stand and len({self.elements[i].into for i in found}) > 1 else []

    def find_between(self, kind: Kind, start: int, limit: int) -> int | None:
        """Index of the first space from `start` with the stitches at either side of it that its kind names, or None."""
        beside = Kind(kind.inside.removeprefix("between "))
        shown = [i for i in range(self.n) if self.elements[i].kind != HIDDEN]
        for k, i in enumerate(shown):
            here = max(1, start) <= i < limit and self.matches(self.elements[i], kind)
            if here and all(
                self.matches(self.elements[side], beside)
                for side in (shown[k - 1], shown[(k + 1) % len(shown)])
            ):
                return i
        return None

    def unsaid(self, start: int, end: int, most: int = UNLIMITED) -> int:
        """How many stitches lie between two indices that no word has dealt with; no more than `most` are counted."""
        found = 0
        for i in range(max(0, start), min(end, len(self.elements))):
            if self.elements[i].is_stitch and not self.elements[i].slipped:
                found += 1
                if found >= most:
                    break
        return found

    def unsaid_spaces(self, start: int, end: int) -> int:
        """How many spaces lie between two indices that no word has dealt with."""
        return sum(1 for e in self.elements[max(0, start) : max(0, end)] if e.kind == SP and not e.slipped)

    def meant(self, kind: Kind) -> Kind:
        """The kind as it is meant here: "in next 9 lps" of a foundation chain are its chains."""
        on_chain = kind.name == SP and kind.chains is None and self.n and self.elements[0].kind == CH
        return Kind(CH) if on_chain else kind

    def from_end(self, many: int, kinds: tuple[Kind, ...]) -> int:
        """Index where the last `many` of a kind begin; slipped ones lie beyond the end."""
        kind = self.meant(kinds[0] if kinds else Kind(ANY))
        end = self.n
        while end > 0 and (
            self.elements[end - 1].slipped or self.elements[end - 1].kind == HIDDEN and kind.name != "tch"
        ):
            end -= 1
        if self._unknown(kind) and (begun := self._last_groups(many, kind)) is not None:
            return begun
        left = many
        i = end
        while i > 0 and left > 0:
            i -= 1
            element = self.elements[i]
            if kind.name == ANY or self._unknown(kind):
                if element.is_stitch:
                    left -= 1
                elif element.kind == SP and self.chains_too:
                    left -= element.chains
            elif kind.name == CH and element.kind == SP:
                left -= element.chains
            elif self.matches(element, kind) or (
                kind.name not in (SP, "corner", "corner sp", "group", CH) and self.related(element, kind)
            ):
                left -= 1
                whole = element.special == kind.name and element.kind != kind.name and not closed(element)
                if (whole or kind.name == "group") and element.group:
                    while i > 0 and self.elements[i - 1].group == element.group:
                        i -= 1
        if left > 0:
            fewer = f"are fewer than {amount(many, named(kind))}" if many > 1 else f"is no {named(kind)}"
            raise Missing("C203", f"there {fewer} in the row below")
        return i

    def _last_groups(self, many: int, kind: Kind) -> int | None:
        """Index where the last whole groups begin, for "to last shell" where rows call what they make so.

        None for the name of a stitch, which no group is, and where there are not so many; halves at the edges are none.
        """
        if parts_of(kind.name)[1] in STITCHES or kind.name in ("dec", "inc", "cl"):
            return None
        groups: dict[int, list[int]] = {}
        for i, element in enumerate(self.elements):
            if element.group and element.is_stitch:
                groups.setdefault(element.group, []).append(i)
        widest = max(map(len, groups.values()), default=0)
        whole = [at[0] for at in groups.values() if len(at) == widest]
        return whole[-many] if widest > 1 and len(whole) >= many else None

    def _unknown(self, kind: Kind) -> bool:
        """True when no element at all is of that name, so that it can only mean "stitch"."""
        if kind.name in (SP, CH, "tch", "corner", "corner sp", "group"):
            return False
        return not any(self.matches(e, kind) for e in self.elements)

    def turning_index(self) -> int | None:
        """Index of the turning chain that ends the row below, counted or not."""
        for i in range(self.n - 1, max(-1, self.n - 4), -1):
            if (self.elements[i].turning and self.elements[i].kind != SP) or self.elements[i].kind == HIDDEN:
                return i
        for i, element in enumerate(self.elements):
            if element.turning and element.kind != SP:
                return i
        return None
