"""The chain or ring that a row makes for itself. Items come in; what stands then, and what is left of them, go out."""

from collections.abc import Sequence

from tracker.fabric.model import CH
from tracker.fabric.rows.own_chain.chain import from_hook
from tracker.fabric.rows.own_chain.ring import (
    all_in_one_chain,
    closes_ring,
    into_its_chains,
    uses_ring,
    whole_ring,
)
from tracker.fabric.standing import FOUNDATION_STITCHES, Standing, chain_of, ring
from tracker.notation.tree import Chain, Group, Item, Join, Mark, Say, Skip, Turn, Turning, Which, Work
from tracker.records import dataclass, replace
from tracker.trade.stitches import height_of

TYPE_CHECKING = False  # as type checkers have it; typing itself is slow to load
if TYPE_CHECKING:
    Made = tuple[Standing, list[Item]] | None
    """What stands then, and the items left to work; None where the row does not begin so."""

LONGEST_RING = 9
"""Chains of a ring; a longer chain that is closed is a round."""
LONGEST_TURN = 9
"""Chains that still stand for a stitch, and the space after it, at the start of a round."""


@dataclass(frozen=True, slots=True)
class Begun:
    """A row that begins with a chain, and what follows the chain."""

    items: list[Item]
    k: int
    """Where the chain stands among the items."""
    chain: Chain
    following: Sequence[Item]
    """What is worked behind the chain, in order: no words, marks or turns."""
    standing: Standing
    first_of_part: bool

    @property
    def first(self) -> Item | None:
        """What is done first behind the chain."""
        return self.following[0] if self.following else None

    @property
    def small(self) -> bool:
        """True for a chain that can be a ring."""
        return self.chain.count <= LONGEST_RING

    def behind(self, close: Item) -> list[Item]:
        """The items without the chain and all up to what closes it."""
        return [*self.items[: self.k], *self.items[self.items.index(close) + 1 :]]

    def without_chain(self) -> list[Item]:
        """The items without the chain."""
        return [*self.items[: self.k], *self.items[self.k + 1 :]]


def own_foundation(items: list[Item], standing: Standing, first_of_part: bool) -> tuple[Standing, list[Item]]:
    """A row that makes its own chain or ring: "Ch 34, dc in sixth ch", "6 sc in magic ring"."""
    items = _turned_behind(items)
    k = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), len(items))
    item = items[k] if k < len(items) else None
    if isinstance(item, Join) and item.where is not None and item.where.which is Which.RING:
        return ring(), [*items[:k], *items[k + 1 :]]
    if first_of_part and isinstance(item, Work) and item.stitch in FOUNDATION_STITCHES:
        # "Strap. Row 1: Fsc 150.": on nothing, whatever was worked before
        others = [i for i in items[k + 1 :] if not isinstance(i, (Say, Mark, Turning, Turn))]
        return (standing if others else Standing()), items
    if not isinstance(item, Chain):
        return standing, items
    following = [i for i in items[k + 1 :] if not isinstance(i, (Say, Mark, Turning, Turn))]
    begun = Begun(items, k, item, following, standing, first_of_part)
    for way in _WAYS:
        if (made := way(begun)) is not None:
            founded, rest = made
            return founded, _said_behind(rest)
    return standing, items


def _turned_behind(items: list[Item]) -> list[Item]:
    """ "Turn, ch 8 for the sleeve, sc in 2nd ch from hook": as the chain and then the turn."""
    worked = [k for k, item in enumerate(items) if not isinstance(item, (Say, Mark, Turning))][:3]
    if len(worked) < 3:
        return items
    turn, chain, first = worked
    if (
        not (isinstance(items[turn], Turn) and isinstance(items[chain], Chain))
        or from_hook(items[first]) is None
    ):
        return items
    return [*items[:turn], *items[turn + 1 : chain + 1], items[turn], *items[chain + 1 :]]


def _said_behind(items: list[Item]) -> list[Item]:
    """What is said of the chains skipped, "(they do not count)", "(counts as dc, ch 1)", behind what skips them."""
    k = next((k for k, item in enumerate(items) if not isinstance(item, (Say, Mark))), len(items))
    said = items[k] if k + 1 < len(items) else None
    spaced = isinstance(said, Turning) and said.as_stitch is not None and said.space > 0
    if isinstance(said, Turning) and (spaced or not said.counts) and from_hook(items[k + 1]) is not None:
        return [*items[:k], items[k + 1], said, *items[k + 2 :]]
    return items


def _slipped_to_ring(b: Begun) -> "Made":
    """ "5 ch, ss to ring; 4 ch, …"."""
    close = b.first
    if (
        isinstance(close, Work)
        and close.stitch == "slst"
        and close.where.which is Which.RING
        and b.small
        and len(b.following) > 1
    ):
        return ring(), b.behind(close)
    return None


def _closed_and_used(b: Begun) -> "Made":
    """ "Ch 4, sl st to first ch, ch 3, 2 dc into ring", "ch 4, join; ch 3, 2 dc in ring": all in the first round."""
    close = b.first
    joined = isinstance(close, Join) and close.where is None
    if (
        close is not None
        and b.small
        and (joined or closes_ring(close))
        and any(map(uses_ring, b.following[1:]))
    ):
        return ring(), b.behind(close)
    return None


def _joined_to_ring(b: Begun) -> "Made":
    """ "Ch 60, join to first ch", which is a round where it is too long for a ring."""
    close = b.first
    if not isinstance(close, Join) or close.where is None:
        return None
    to_ring = close.where.which is Which.RING
    if not to_ring and b.standing.kind != "none":
        return None
    if (to_ring or b.small) and not into_its_chains(b.following[1:]):
        return ring(), b.behind(close)
    return replace(chain_of(b.chain.count), kind="round"), b.behind(close)


def _all_in_first(b: Begun) -> "Made":
    """ "4 ch, 2 dc in the first ch made", "chain 2, 6 sc in 2nd chain": all in the chain farthest from the hook."""
    first = b.first
    if (
        not isinstance(first, (Work, Group))
        or [kind.name for kind in first.where.kinds] != [CH]
        or not b.small
    ):
        return None
    which = first.where.which
    whole = whole_ring(first, b.following)
    from_either_end = which is Which.NTH and first.where.nth in (1, b.chain.count) and whole
    if not from_either_end and (which not in (Which.FIRST, Which.MADE) or first.where.many != 1):
        return None
    if b.standing.kind != "none" and not (b.first_of_part and (b.standing.kind == "chain" or whole)):
        return None
    where = replace(first.where, which=Which.FROM_HOOK, nth=b.chain.count, kinds=())
    moved = replace(first, where=where)
    return chain_of(b.chain.count), [moved if i is first else i for i in b.without_chain()]


def _joined_long(b: Begun) -> "Made":
    """ "Ch 30, join, ch 1, sc in each ch", "ch 30, sl st in first ch to form a ring, sc in each ch"."""
    close = b.first
    long = not b.small or into_its_chains(b.following[1:])
    slipped = isinstance(close, Work) and close.where.which is Which.FIRST and closes_ring(close)
    joined = isinstance(close, Join) and close.stitch == "slst" or slipped and len(b.following) > 1
    if close is not None and joined and long and b.standing.kind == "none":
        return replace(chain_of(b.chain.count), kind="round"), b.behind(close)
    return None


def _from_hook(b: Begun) -> "Made":
    """ "Ch 34, dc in 6th ch from hook": a chain of its own, or one that widens the work."""
    hook = from_hook(b.first)
    if hook is None:
        return None
    kind, many = b.standing.kind, b.chain.count
    whole = hook >= many and whole_ring(b.first, b.following)
    if (hook <= many or hook == many + 1 and all_in_one_chain(b.first)) and (
        kind == "none" or b.first_of_part and (kind == "chain" or whole)
    ):
        return chain_of(many), b.without_chain()
    tiles = any(e.kind == "tile" for e in b.standing.elements)
    if hook <= many and not b.first_of_part and kind == "row" and not tiles and not _over_a_space(b):
        # "Ch 5, dc in 4th ch from hook" where a row begins: new chains widen the work
        return replace(b.standing, added=many), b.without_chain()
    if (
        b.first_of_part
        and many > hook + 1
        and kind in ("row", "round")
        and not b.standing.left
        and (many > LONGEST_TURN or not isinstance(b.first, Skip) or b.first.where.which is Which.FROM_HOOK)
    ):
        # not "ch 4, sk next ch, dc in next ch", which stands at the start of the ring below
        return chain_of(many), b.without_chain()
    return None


def _over_a_space(b: Begun) -> bool:
    """True for "ch 5, sk 2 ch, dc in next dc": the chains passed over are those of the row below."""
    goes = b.following[1] if len(b.following) > 1 else None
    return (
        isinstance(b.first, Skip)
        and b.first.where.which is not Which.FROM_HOOK
        and isinstance(goes, (Work, Group))
        and bool(goes.where.kinds)
        and goes.where.kinds[0].name != CH
    )


def _straight_into_ring(b: Begun) -> "Made":
    """ "Ch 3, 11 dc in ring", and nobody said how the ring is made."""
    if (
        b.standing.kind == "none"
        and from_hook(b.first) is None
        and b.first is not None
        and uses_ring(b.first)
    ):
        return (ring(), b.items) if b.chain.count >= 1 else None
    return None


def _straight_along(b: Begun) -> "Made":
    """ "Chain 31 and work 30 sc back along it": from the chain that leaves so many, where that is the usual one."""
    first = b.first
    if b.standing.kind != "none" or not isinstance(first, Work) or first.where.which is not Which.STRAIGHT:
        return None
    works = [item for item in b.following if isinstance(item, Work) and item.where.which is Which.STRAIGHT]
    nth = b.chain.count - sum(item.count for item in works) + 1
    if (
        len(works) < len(b.following)
        or nth != height_of(first.stitch) + 1
        or first.stitch not in ("sc", "hdc")
    ):
        return None
    begun = replace(first, count=1, where=replace(first.where, which=Which.FROM_HOOK, nth=nth), apart=())
    rest = [replace(first, count=first.count - 1, apart=())] if first.count > 1 else []
    out: list[Item] = []
    for item in b.without_chain():
        out.extend([begun, *rest] if item is first else [item])
    return chain_of(b.chain.count), out


_WAYS = (
    _slipped_to_ring,
    _closed_and_used,
    _joined_to_ring,
    _all_in_first,
    _joined_long,
    _from_hook,
    _straight_into_ring,
    _straight_along,
)
"""What a chain that a row begins with may be, in the order in which it is asked."""
