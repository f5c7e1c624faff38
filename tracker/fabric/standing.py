"""What a row is worked onto: the top of the work as it lies, its other edges, and which way the hook goes."""

from collections.abc import Sequence

from tracker.fabric.model import CH, HIDDEN, Element
from tracker.notation.tree import Chain, Item, Join, Which, Work
from tracker.records import dataclass, replace

FOUNDATION_STITCHES = ("fsc", "fhdc", "fdc", "ftr")
"""Stitches that make their own chain."""

_CLOSING = (Which.FIRST, Which.NEXT, Which.NTH, Which.FROM_HOOK, Which.STRAIGHT, Which.RING)
"""Where a slip stitch goes that closes a chain."""


@dataclass(frozen=True, slots=True)
class Standing:
    """The work between two rows."""

    elements: tuple[Element, ...] = ()
    """The top edge in the order made."""
    kind: str = "none"
    """"none", "chain", "ring", "row" or "round"."""
    base: tuple[Element, ...] = ()
    """The free side of the foundation, from the end where the first row ended."""
    rows: int = 0
    """Rows that have ends at each side."""
    turned: bool | None = None
    """True or False once the words have said it after the last row, None while they have not."""
    left: tuple[Element, ...] = ()
    """Stitches of an earlier row left unworked, in its working order."""
    left_by: tuple[int, ...] = ()
    """How many of them each of the rows left, the latest first."""
    left_ahead: bool = False
    """True when the next row, once turned, comes to them behind its end."""
    marks: tuple[int, ...] = ()
    """Markers in the order made: twice the index of the element before which one hangs, and one more for one that hangs
    in the element."""
    rs: bool | None = None
    """True when the last row was a right-side row; None when that is not known."""
    along: bool = False
    """True once a row was worked along the ends of others: what follows stands beside them, not upon them."""
    added: int = 0
    """Chains made at the beginning of the row in hand, to widen the work."""
    chains: int = 0
    """Chains that a ring was closed of; 0 for another ring, and for none."""
    bare: bool = False
    """True when only how many stitches stand is known, by a count, and not how: no corner, group or space of them."""

    def marks_in_order(self, turned: bool) -> tuple[int, ...]:
        """The markers as the next row meets them."""
        if self.kind != "row":
            return ()
        whole = 2 * len(self.elements)
        return tuple(sorted(whole - mark for mark in self.marks)) if turned else self.marks

    def working_order(self, turned: bool) -> tuple[Element, ...]:
        """The top edge as the next row meets it."""
        if self.kind in ("chain", "ring", "none") or not turned:
            return self.elements
        if self.kind == "round":
            first = next((i for i, e in enumerate(self.elements) if e.kind != HIDDEN), 0)
            head = self.elements[: first + 1]
            return head[-1:] + tuple(reversed(self.elements[first + 1 :])) + head[:-1]
        return tuple(reversed(self.elements))


def chain_of(count: int) -> Standing:
    """A foundation chain, first the chain nearest to the hook."""
    return Standing((Element(CH, 1),) * max(0, min(count, 100_000)), "chain")


def ring(chains: int = 0) -> Standing:
    """A ring, closed of so many chains, into which any number of stitches goes."""
    return Standing((), "ring", chains=chains)


def set_up(items: Sequence[Item]) -> Standing | None:
    """What a foundation leaves on the hook: a chain, a ring, a row of foundation stitches; None for neither.

    A chain closed into a ring is worked into as a ring when it is short, chain by chain when it is long.
    """
    found: Standing | None = None
    for item in items:
        if isinstance(item, Chain):
            found = chain_of(item.count)
        elif isinstance(item, Join):
            into_ring = item.where is not None and item.where.which is Which.RING
            if item.stitch == "magic" or found is None or len(found.elements) < (12 if into_ring else 10):
                found = ring(0 if found is None or item.stitch == "magic" else len(found.elements))
            else:
                found = replace(found, kind="round")
        elif isinstance(item, Work) and item.stitch == "slst":
            if found is not None and item.where.which in _CLOSING:
                many = len(found.elements)
                found = ring(many) if many < 12 else replace(found, kind="round")
        elif (
            isinstance(item, Work)
            and (found is None or found.kind == "ring")
            and item.where.which is Which.RING
            and item.stitch in ("sc", "hdc", "dc", "tr")
        ):
            # "6 sc in a magic ring", ahead of a Rnd 1 that goes into them
            found = Standing((Element(item.stitch),) * min(item.count, 1_000), "round")
        elif isinstance(item, Work) and item.stitch in FOUNDATION_STITCHES:
            found = Standing((Element(item.stitch),) * min(item.count, 10_000), "row")
    return found
