"""Phrases that are no stitch in a place: chains, skips, turns, joins, edges, colours, markers, fastening off.

The cursor stands on the first word; items come out, or None with the cursor where it was. One table says which word
begins which deed.
"""

from collections.abc import Callable

from tracker.notation.phrase.cursor import Cursor
from tracker.notation.phrase.deeds.chains import (
    chain_here,
    commence_here,
    completed_here,
    skip_here,
    starting_here,
)
from tracker.notation.phrase.deeds.edges import (
    continue_here,
    edge_here,
    loops_here,
    pick_up_here,
    working_here,
)
from tracker.notation.phrase.deeds.held import fold_here, hold_here, petals_here, toy_here
from tracker.notation.phrase.deeds.joins import (
    attach_here,
    begun_anew,
    close_here,
    do_not_here,
    join_here,
    loop_drawn,
    new_yarn_here,
    turn_here,
)
from tracker.notation.phrase.deeds.rings import ring_here
from tracker.notation.phrase.deeds.said import (
    colour_here,
    fasten_here,
    leave_here,
    left_here,
    marker_here,
)
from tracker.notation.phrase.places.loops import LEFT_FREE
from tracker.notation.phrase.places.nouns import CHAINING
from tracker.notation.phrase.works.spread import doubled
from tracker.notation.scan import T
from tracker.notation.tree import Item

_Reader = Callable[[Cursor], list[Item] | None]

_TABLE: tuple[tuple[str, tuple[_Reader, ...]], ...] = (
    ("sk skip miss skipping missing ski skp", (skip_here,)),
    ("do don't dont without", (do_not_here,)),
    ("join joining", (join_here,)),
    ("attach", (toy_here, attach_here, colour_here)),
    ("rejoin", (attach_here, colour_here)),
    ("leave leaving", (leave_here,)),
    ("rem remaining last rest the", (left_here,)),
    ("fasten", (begun_anew, fasten_here)),
    ("fo finish end cut break finishing", (fasten_here,)),
    ("with using change changing switch drop carry carrying color colour yarn shade", (colour_here,)),
    ("pick picking", (pick_up_here, colour_here)),
    ("pm sm mark marking move moving slip remove use", (marker_here,)),
    ("place placing put", (marker_here, toy_here, working_here)),
    ("insert", (loop_drawn, toy_here)),
    ("draw drawing pull pulling", (loop_drawn,)),
    ("add", (begun_anew, toy_here)),
    ("tie introduce", (begun_anew,)),
    ("position sew glue embroider stuff", (toy_here,)),
    ("fold folding flatten pinch", (petals_here, fold_here)),
    ("push pushing bend bending keep keeping bring bringing tip lift press", (petals_here,)),
    ("hold holding", (petals_here, hold_here)),
    ("working work", (working_here,)),
    (
        "rotate rotating along on now down across going go pivot flip keep crocheting return returning",
        (edge_here,),
    ),
    ("cont continue continuing", (continue_here, edge_here)),
    ("begin start", (begun_anew, toy_here, commence_here, ring_here, starting_here)),
    ("magic adjustable mr mc sliding", (ring_here,)),
    ("into in", (ring_here, loops_here)),
    ("make", (ring_here, working_here)),
    ("commence", (commence_here,)),
    ("starting beginning beg from", (starting_here,)),
    ("close", (close_here,)),
    ("complete completing", (completed_here,)),
    ("new fresh color colour yarn shade", (new_yarn_here,)),
    ("double", (doubled,)),
    ("crochet", (doubled, edge_here)),
)
"""Words that begin a deed, with what reads it; the first that can read it wins."""

_READERS = {word: readers for words, readers in _TABLE for word in words.split()}


def _to_the_chain(c: Cursor) -> bool:
    """True for "turn the piece and work into the free loops of the chain"."""
    n = 0
    while c.kind(n) is T.WORD:
        n += 1
    low = {c.text(k) for k in range(n)}
    return bool(LEFT_FREE & low and {"loops", "lps"} & low and {"ch", "chain", "foundation"} & low)


def deed_here(c: Cursor) -> list[Item] | None:
    """The deed that stands here."""
    word = c.text()
    if (
        c.kind() is T.NUMBER
        or word in CHAINING
        or word in ("beg", "beginning", "starting", "make", "create", "a")
    ):
        found = chain_here(c)
        if found is not None:
            return found
    if word == "with" and c.text(1 if c.value(1) is None else 2) in CHAINING:
        # "Turn with 3 ch": what the row rises on
        c.i += 1
        if (found := chain_here(c)) is not None:
            return found
        c.i -= 1
    if word in ("turn", "turning"):
        about = {c.text(n) for n in range(1, 16)}
        if (
            c.text(1) == "to"
            or {"other", "opposite", "upside"} & about
            and {"side", "edge"} & about
            or LEFT_FREE & about
            and _to_the_chain(c)
        ):
            # "turn the piece upside down and go on along the other side of the ch"
            found = edge_here(c)
            if found is not None or c.text(1) == "to":
                return found
        return turn_here(c)
    for reader in _READERS.get(word, ()):
        found = reader(c)
        if found is not None:
            return found
    return None
