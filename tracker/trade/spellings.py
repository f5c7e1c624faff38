"""Spellings of stitches in US and UK terms: the one owner of what a written name stands for.

Any text comes in; a name inside comes out, or None. Blanks, dots, hyphens and capitals do not matter.
"""

import re
from functools import lru_cache

from tracker.expressions import expression
from tracker.records import dataclass
from tracker.trade.stitches import TABLE

_US = {spelling: row.name for row in TABLE for spelling in (row.name, *row.aliases)}
_UK = {
    spelling: row.name
    for row in TABLE
    if row.name not in ("ddc", "ltr")
    for spelling in (row.uk, *row.aliases_uk)
}
_UK |= {"sc": "", "hdc": ""}

_SHAPED = expression(
    r"(?P<post>fp|bp|rf|rb)?(?P<rev>rev)?(?P<bare>.+?)(?:(?P<n>\d+)(?:tog|together)|(?P<raised>rf|rb))?(?P<loop>blo?|flo?)?$"
)


@dataclass(frozen=True, slots=True)
class Named:
    """What a spelling of a stitch stands for."""

    name: str
    """US name inside: "dc", "fpdc", "dc3tog"."""
    loop: str | None = None
    """"back" or "front" when the spelling names a loop."""


@lru_cache(maxsize=4096)
def stitch_named(spelling: str, uk: bool = False) -> Named | None:
    """The stitch a spelling names in US or UK terms, or None.

    >>> stitch_named("FPDC"), stitch_named("tr3tog", uk=True).name, stitch_named("dcs").name, stitch_named("bananas")
    (Named(name='fpdc', loop=None), 'dc3tog', 'dc', None)
    """
    text = re.sub(r"[\s.\-']", "", spelling.lower())
    if not text or len(text) > 32:
        return None
    table = _UK if uk else _US
    for form in (text, text.removesuffix("s"), text.removesuffix("es")):
        if form in ("", "b", "f"):
            continue
        if name := table.get(form):
            return Named(name)
    raised = re.match(r"r(\w+)([fb])s?$", text)  # "rtrf": raised treble, front
    if raised and (base := table.get(raised[1])) and base not in ("slst", "picot", "tile"):
        return Named({"f": "fp", "b": "bp"}[raised[2]] + base)
    for form in (text, text.removesuffix("s")):
        found = _SHAPED.match(form)
        if found is None:
            continue
        base = table.get(found["bare"])
        if found["rev"] and base == "sc":
            # "rev single crochet"
            base = "revsc"
        post = {"fp": "fp", "bp": "bp", "rf": "fp", "rb": "bp"}.get(
            found["post"] or found["raised"] or "", ""
        )
        loop = {"b": "back", "f": "front"}.get((found["loop"] or "")[:1])
        if base is None and (form.startswith(("blo", "flo", "bl", "fl")) and len(form) > 3):
            rest = form[3:] if form.startswith(("blo", "flo")) and table.get(form[3:]) else form[2:]
            if inner := table.get(rest):
                return Named(inner, "back" if form[0] == "b" else "front")
            continue
        if not base:
            continue
        count = found["n"]
        if count is not None and not 2 <= int(count[:4]) <= 40:
            continue
        name = post + base + (f"{int(count)}tog" if count else "")
        if name == base and not loop:
            return Named(base)
        if base in ("picot", "tile", "slst") and (post or count):
            continue
        return Named(name, loop)
    return None
