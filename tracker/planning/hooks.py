"""Yarn weights and hooks as the standard's tables give them. A hook and a weight come in; at most one warning goes out.

Weights and hook sizes as *Crochet World*, October 2018, p. 64, reproduces the Standard Yarn Weight System, widened
to older printings where those differ (from memory), so that a warning comes only where all of them agree. US hook
letters differ between makers above L: millimetres are trusted. Guidelines only: the pattern's gauge goes first.
"""

import re

from tracker.records import dataclass
from tracker.trade.stitches import said


@dataclass(frozen=True, slots=True)
class Weight:
    """One row of the standard's table."""

    number: int
    name: str
    words: tuple[str, ...]
    """What labels and patterns call it, lower case."""
    sc_in_4in: tuple[int, int] | None
    """Single crochets to 4 inches; None where the sources count other stitches."""
    hook_mm: tuple[float, float] | None
    """Smallest and largest hook of any printing; None where the sources contradict each other."""


WEIGHTS = (
    Weight(0, "Lace", ("lace", "cobweb", "thread", "crochet cotton"), None, None),
    Weight(1, "Super Fine", ("super fine", "fingering", "sock", "4-ply", "4 ply"), (21, 32), (2.25, 3.5)),
    Weight(2, "Fine", ("sport", "baby"), (16, 20), (3.5, 4.5)),
    Weight(3, "Light", ("dk", "light worsted", "double knitting", "8-ply"), (12, 17), (4.5, 5.5)),
    Weight(4, "Medium", ("worsted", "aran", "afghan", "10-ply"), (11, 14), (5.5, 6.5)),
    Weight(5, "Bulky", ("bulky", "chunky", "craft", "rug"), (8, 11), (6.5, 9.0)),
    Weight(6, "Super Bulky", ("super bulky", "super chunky", "roving"), (6, 9), (9.0, 16.0)),
    Weight(7, "Jumbo", ("jumbo",), (1, 6), (15.0, 50.0)),
)
HOOKS = {
    "B-1": 2.25,
    "C-2": 2.75,
    "D-3": 3.25,
    "E-4": 3.5,
    "F-5": 3.75,
    "G-6": 4.0,
    "7": 4.5,
    "H-8": 5.0,
    "I-9": 5.5,
    "J-10": 6.0,
    "K-10½": 6.5,
    "L-11": 8.0,
    "M/N-13": 9.0,
    "N/P-15": 10.0,
}
"""US sizes by millimetres, up to where makers stop agreeing."""
_FAR = 1.0
"""Millimetres outside a weight's hooks from which it is said: makers go a size or two up or down on purpose."""


def weight_named(words: str) -> Weight | None:
    """The weight that a line of materials names: its first name, and of two there the longer ("super bulky")."""
    text = words.lower()
    found = [
        ((hit.start(), -len(name)), row)
        for row in WEIGHTS
        for name in row.words
        if (hit := re.search(rf"\b{re.escape(name)}\b", text))
    ]
    return min(found, key=lambda pair: pair[0])[1] if found else None


def of_materials(notes: tuple[str, ...]) -> tuple[str, ...]:
    """What a pattern's notes say of its materials; all of the notes where none is headed so."""
    headed = re.compile(r"\b(?:materials?|supplies|yarn|you will need)\s*:\s*(.*)", re.IGNORECASE)
    found = tuple(hit[1] for note in notes if (hit := headed.search(note)))
    return found or notes


def hook_mm(words: str) -> float | None:
    """The hook that a line names, in millimetres: "5.0 mm", "H-8 hook".

    >>> hook_mm("5.0 mm hook"), hook_mm("H-8 (5 mm) hook"), hook_mm("size J-10 hook"), hook_mm("no tool")
    (5.0, 5.0, 6.0, None)
    """
    hit = re.search(r"(\d+(?:\.\d+)?)\s*mm\b", words)
    if hit:
        return float(hit[1])
    for name, size in HOOKS.items():
        letter = name.split("-")[0]
        if letter.isalpha() and re.search(
            rf"\b{letter}(?:-{re.escape(name.split('-')[1])})?\s*(?:/\d+\S*\s*)?hook\b|\b{re.escape(name)}\b",
            words,
        ):
            return size
    return None


def beside(weight: Weight | None, hook: float | None, uk: bool = False) -> str:
    """The hook beside what the standard's table gives for the yarn; empty where either is not known."""
    if weight is None or hook is None:
        return ""
    name = f"{weight.name} ({weight.number})"
    if weight.hook_mm is None or weight.sc_in_4in is None:
        return (
            f"{hook:g} mm hook, {name} yarn: for that weight the standard's printings do not agree; "
            "your gauge decides."
        )
    low, high = weight.hook_mm
    few, many = weight.sc_in_4in
    return (
        f"{hook:g} mm hook, {name} yarn: the standard gives {low:g} to {high:g} mm and {few} to {many} "
        f"{said('sc', uk)} to 4 in, as guidelines only."
    )


def doubt(weight: Weight | None, hook: float | None) -> str:
    """A sentence when the hook lies well outside what every printing gives for the weight; empty otherwise."""
    if weight is None or hook is None or weight.hook_mm is None:
        return ""
    low, high = weight.hook_mm
    if low - _FAR <= hook <= high + _FAR:
        return ""
    size = "small" if hook < low else "large"
    return (
        f"A {hook:g} mm hook is {size} for {weight.name} ({weight.number}) yarn, for "
        f"which the standard gives {low:g} to {high:g} mm. "
        "Your gauge decides."
    )
