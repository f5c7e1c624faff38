"""How a stitch is worked: the pattern's own definition first, then the trade's movements, then where it goes.

Comes in: a program and a place, or a stitch by any of its names. Goes out: sentences, or the movements one by one for a
maker who takes them at their own pace.
"""

import re

from tracker.fabric.model import CH, HIDDEN, SP, Step, WorkedRow
from tracker.notation.pattern import Row, Special
from tracker.notation.tree import LAYERS, Chain, Group, Item, Join, Where, Which, Work
from tracker.program.places import Place, Program
from tracker.session.wording.made.chains import chain_landing
from tracker.session.wording.made.into import rows_below
from tracker.session.wording.made.own_words.reading import read_out
from tracker.session.wording.made.telling import capital
from tracker.session.wording.spelled import told
from tracker.trade.numbers import spoken_ordinal
from tracker.trade.said import movements
from tracker.trade.spellings import stitch_named
from tracker.trade.stitches import said

MOST = 2
"""Stitches of one group that are told at a time; nobody keeps more in mind."""
CHAIN = "Chain: yarn over, through the loop on the hook; once for each."
_LOOPS = {
    "back": "Into the back loop alone: of the two at the top, the one away from you.",
    "front": "Into the front loop alone: of the two at the top, the one nearest you.",
    "third": "Into the third loop: the bar that lies behind the two at the top.",
    "free front": "Into the front loop that was left free.",
    "free back": "Into the back loop that was left free.",
    LAYERS: "Through a stitch of the front and the one behind it, both at once.",
}


def how_worked(program: Program, place: Place, asked: str = "") -> str:
    """How the stitches of the group at a place are made, or the one that was asked for by name."""
    if program.is_count(place) and program.breaths(place[2]):
        place = (*place[:4], place[4] - 1, 0, 0)  # the row is done: how its last group was made
    names = _asked(program, asked) if asked else _names_at(program, place)
    names = tuple(sorted(names, key=lambda name: _special(program, name) is None))
    if asked and not names:
        return f"I know no stitch called {asked}, and the pattern defines none."
    sentences = [words for name in names[:MOST] if (words := _one(program, name))]
    beat = program.beat(place)
    if not sentences and beat is not None and any(isinstance(step.item, Chain) for step in beat.steps):
        sentences = [_in_terms(program, CHAIN)]
    if not sentences:
        return "The pattern does not say more than its words."
    if not asked and beat is not None:
        sentences += _where(program, program.fabric.row(place[2]).worked, beat.steps)
    return " ".join(sentences)


def movements_at(program: Program, place: Place) -> tuple[str, ...]:
    """The movements of the first stitch at a place that has any, one by one."""
    for name in _names_at(program, place):
        special = _special(program, name)
        if special is not None and not special.items:
            return tuple(
                capital(step.strip()) + "."
                for step in told(program, special.text).replace(";", ",").split(",")
                if step.strip()
            )
        if steps := movements.steps_of(_known(program, name), program.told_uk):
            return tuple(f"{capital(step)}." for step in steps)
    return ()


def _one(program: Program, name: str) -> str:
    """The pattern's own definition of a stitch, and the trade's movements."""
    special = _special(program, name)
    own = ""
    if special is not None:
        text = read_out(program, " ".join(_NEXT_ENTRY.split(special.text)[0].split()))
        own = f"The pattern says: {text.rstrip('.')}."
        known = _known(program, name)
        if not special.items and (special.base in ("", name) or movements.is_left_open(known)):
            return own
        if text == said(known, program.told_uk):
            own = ""  # "X = single crochet" is no more than its name
    trade = movements.told(_known(program, name), program.told_uk)
    return " ".join(words for words in (own, trade) if words)


_NEXT_ENTRY = re.compile(r"\n(?=[^\n=:]{1,24}[=:])")
"""Where the next of a list of abbreviations begins."""


def _known(program: Program, name: str) -> str:
    """The stitch of the trade that a name stands for: what a stitch of the pattern's own is made of."""
    special = _special(program, name)
    if special is None:
        return name
    made_of = [item.stitch for item in special.items if isinstance(item, Work)]
    return special.base if special.base and special.base != name else made_of[0] if made_of else name


def _special(program: Program, name: str) -> Special | None:
    """What the pattern defines a stitch to be; None where it only works it, as tiles are told in their row."""
    found = next((one for one in program.pattern.specials if one.name == name), None)
    rows = (block.span for block in program.pattern.blocks if isinstance(block, Row))
    if found is None or any(row.start <= found.span.start < row.end for row in rows):
        return None
    if found.base in ("tile", "beg tile") and not _CHAINED.search(found.text):
        return None  # only its name stands there
    return found


_CHAINED = re.compile(r"\bch(?:ain)?\b", re.IGNORECASE)


def _asked(program: Program, asked: str) -> tuple[str, ...]:
    """The names inside of what a maker calls a stitch: the pattern's own first, then the trade's in its terms."""
    words = asked.strip().lower()
    for one in program.pattern.specials:
        if words in (one.name, one.name.removesuffix("s")) or one.name == words.removesuffix("s"):
            return (one.name,)
    found = stitch_named(words, program.told_uk)
    return (found.name,) if found is not None else ()


def _names_at(program: Program, place: Place) -> tuple[str, ...]:
    beat = program.beat(place)
    if beat is None:
        return ()
    items = tuple(step.item for step in beat.steps)
    return tuple(dict.fromkeys(_names(items) or _said(program, items)))


def _said(program: Program, items: tuple[Item, ...]) -> list[str]:
    """The stitch that words which are only read out begin with: "sl st in last ch-3 sp"."""
    for item in items:
        words = program.source.words(item.span).split()
        for many in (2, 1):
            if found := stitch_named(" ".join(words[:many]).lower(), program.pattern.uk):
                return [found.name]
    return []


def _names(items: tuple[Item, ...]) -> list[str]:
    out: list[str] = []
    for item in items:
        if isinstance(item, Work) and item.stitch == "tile" and item.where.which is Which.MADE:
            out.append("dc")  # the tile a row begins with stands on chains of its own
        elif isinstance(item, Work | Join):
            out.append(item.stitch)
        elif isinstance(item, Group):
            out.extend([item.name, *_names(item.items)] if item.name else _names(item.items))
    return out


def _where(program: Program, worked: WorkedRow, steps: tuple[Step, ...]) -> list[str]:
    """Where the first stitch of a group goes, when that is not under both loops of a stitch."""
    for step in steps:
        if isinstance(step.item, Work) and _tells_where(program, step.item.stitch):
            return []
        if isinstance(step.item, Work | Group):
            if isinstance(step.item, Work) and step.item.stitch in ("tile", "beg tile"):
                return []  # its movements tell where
            words = _into(step.item.where, worked, step)
            return [words] if words else []
    return []


def _tells_where(program: Program, name: str) -> bool:
    """True for a stitch of the pattern's own whose definition says where it goes: around a post, rows below."""
    special = _special(program, name)
    made_of = [item for item in special.items if isinstance(item, Work)] if special is not None else []
    return any(
        item.where.around or item.where.down > 1 or item.where.loop or item.stitch.startswith(("fp", "bp"))
        for item in made_of
    )


def _into(where: Where, worked: WorkedRow, step: Step) -> str:
    made = [e for e in worked.elements[step.made_from : step.made_to] if e.into and e.kind != HIDDEN]
    below = [worked.below[e.into[-1]] for e in made if e.into[-1] < len(worked.below)]
    if where.which is Which.FROM_HOOK:
        return f"Into the {spoken_ordinal(where.nth)} chain from the hook; the loop on the hook is none."
    if where.which is Which.RING:
        return "Into the ring, over the starting tail."
    if where.which is Which.ROW_END:
        return "Into the side of the row: around its edge stitch, not into the gap beside it."
    if where.which is Which.BETWEEN:
        return "Between two stitches, under neither of their tops."
    if where.around:
        return ""
    if where.loop in _LOOPS:
        return _LOOPS[where.loop]
    if where.down > 1:
        return f"Into the stitch {rows_below(where)}."
    if below and all(element.kind == SP for element in below):
        return "Into the space under the chain, not into the chain itself."
    if where.which is Which.TOP or below and below[-1].kind == CH and worked.landing:
        lands = chain_landing(worked, below[-1]) if below else ""
        if lands and not lands.startswith("the top"):
            return f"Into {lands}, counted from the base, under two of its loops."
        return "Into the topmost chain of the turning chain, under two of its loops."
    return "Under both loops at the top of the stitch." if made else ""


def _in_terms(program: Program, words: str) -> str:
    return words.replace("yarn over", "yarn round hook") if program.told_uk else words
