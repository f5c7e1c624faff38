"""What a row is worked onto: the top of the work as it lies, its other edges, and which way the hook goes."""

from dataclasses import dataclass, replace

from tracker.fabric.model import CH, HIDDEN, Element


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
    rs: bool | None = None
    """True when the last row was a right-side row; None when that is not known."""
    added: int = 0
    """Chains made before the row to widen it; only while a row is worked."""

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


def ring() -> Standing:
    return Standing((), "ring")


def joined(standing: Standing) -> Standing:
    """A foundation chain closed into a ring large enough to be worked chain by chain."""
    return replace(standing, kind="round")
