"""How a stitch is made, told from THE TABLE of stitches or from the pattern's own definition.

Comes in: a program and a place. Goes out: a sentence or two. The movements are common practice, no source.
"""

from tracker.notation.tree import Chain, Group, Item, Work
from tracker.program.places import Place, Program
from tracker.trade.numbers import spoken_number
from tracker.trade.stitches import STITCHES, parts_of, said


def how_worked(program: Program, place: Place) -> str:
    """How the first stitch of the group at a place is made."""
    beat = program.beat(place)
    names = _names(tuple(step.item for step in beat.steps)) if beat is not None else ()
    for name in names:
        special = next((one for one in program.pattern.specials if one.name == name), None)
        if special is not None:
            return f"The pattern says: {' '.join(special.text.split()).rstrip('.')}."
        if told := movements(name, program.told_uk):
            return told
    if beat is not None and any(isinstance(step.item, Chain) for step in beat.steps):
        return "Yarn over and pull through the loop on the hook, once for each chain."
    return "The pattern does not say more than its words."


def movements(name: str, uk: bool = False) -> str:
    """The movements of a stitch of the trade; "" for one that is not told by yarn-overs alone.

    >>> movements("dc")
    'Double crochet: yarn over, hook in, pull up a loop; yarn over and pull through two, twice.'
    """
    post, base, together = parts_of(name)
    row = STITCHES.get(base)
    if row is None or row.closes or base not in ("slst", "sc", "hdc", "dc", "tr", "dtr", "trtr", "quadtr"):
        return ""
    title = said(name, uk)
    title = title[:1].upper() + title[1:]
    over = {0: "", 1: "yarn over, "}.get(row.yarn_overs, f"yarn over {spoken_number(row.yarn_overs)} times, ")
    into = "hook in" if not post else f"hook around the post from the {'front' if post == 'fp' else 'back'}"
    if base == "slst":
        return f"{title}: {into}, yarn over, pull through everything."
    last = {"sc": "yarn over and pull through both", "hdc": "yarn over and pull through all three"}.get(base)
    if last is None:
        times = {2: "twice"}.get(row.yarn_overs + 1, f"{spoken_number(row.yarn_overs + 1)} times")
        last = f"yarn over and pull through two, {times}"
    if together > 1:
        each = f"work each of the {spoken_number(together)} up to its last pull"
        return f"{title}: {each}, then yarn over and pull through all loops."
    return f"{title}: {over}{into}, pull up a loop; {last}."


def _names(items: tuple[Item, ...]) -> tuple[str, ...]:
    out: list[str] = []
    for item in items:
        if isinstance(item, Work):
            out.append(item.stitch)
        elif isinstance(item, Group):
            out.extend([item.name, *_names(item.items)] if item.name else _names(item.items))
    return tuple(out)
