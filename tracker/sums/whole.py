"""The sums of a whole piece: size, edgings, yarn, time, what may be said of its hook. Words of the command line come
in; an answer for other programs, sentences and an exit status go out.
"""

import argparse
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from tracker.files import text_of

if TYPE_CHECKING:
    from tracker.load import Loaded
    from tracker.shelf.taking_up import Weighed

MOST_ROWS = 1000
"""A longer piece is not gone through row by row for its edgings."""
WIDEST = 78
"""Letters across of a map with its seams; a wider one is told without them."""


def piece(said: argparse.Namespace) -> tuple[Mapping[str, Any], list[str], int]:
    """A pattern: its size, yarn, time and what may be said of its hook."""
    from tracker.planning import hooks, time
    from tracker.problems import Severity
    from tracker.sums.pace import own_log
    from tracker.sums.yarn import Reckoned

    loaded, own = _asked(said)
    fabric, pattern = loaded.fabric, loaded.pattern
    if not fabric.length:
        return (
            {"rows": 0},
            ["No row was found in this text, so there is nothing to plan; check says what it lacks."],
            1,
        )
    stated_for = hooks.of_materials(pattern.notes)
    weight = next((found for note in stated_for if (found := hooks.weight_named(note))), None)
    hook = next((size for note in stated_for if (size := hooks.hook_mm(note))), None)
    number = said.weight if said.weight is not None else weight.number if weight else 4
    yarn = Reckoned(said, loaded, number, own)
    answer: dict[str, Any] = {
        "title": pattern.title,
        "size": pattern.size,
        "rows": fabric.length,
        "copies": yarn.copies,
    }
    lines = [f"{pattern.title}: {fabric.told()}."]
    lines += _measures(loaded, answer)
    lines += _square(loaded)
    lines += _edges(loaded, answer)
    lines += yarn.told()
    if said.weight is None and weight is None and yarn.swatch is None:
        lines.append("The pattern names no weight of yarn; medium (4) was taken. Say another with --weight.")
    lines += yarn.enough()
    whole = yarn.use.whole * yarn.copies
    pace = time.pace_of(own_log())
    lines.append(time.told(whole, pace))
    lines += [line for line in (hooks.beside(weight, hook, pattern.uk), hooks.doubt(weight, hook)) if line]
    answer |= {
        "yarn": [
            {
                "colour": letter or None,
                "metres": round(one.metres, 1),
                "least_m": round(one.least_m, 1),
                "most_m": round(one.most_m, 1),
                "rough": one.rough,
                "grams": one.grams,
                "balls": one.balls,
            }
            for letter, one in yarn.needs.items()
        ],
        "weighed": None if yarn.rate is None else {"grams": round(yarn.rate.weighed_g, 1)},
        "single_crochets": round(whole, 1),
        "stitches": {kind: round(many) for kind, many in yarn.use.by_kind.items()},
        "seconds": round(whole * pace.middle),
        "guess": not pace.rows,
        "told": lines,
    }
    wrong = any(problem.severity is Severity.ERROR for problem in loaded.problems)
    if wrong:
        lines.append("The pattern has errors, so these sums may be off; see check.")
    return answer, lines, 1 if wrong else 0


def _asked(said: argparse.Namespace) -> "tuple[Loaded, Weighed | None]":
    """The pattern that is meant, and what a piece in hand of it tells."""
    from pathlib import Path

    from tracker.journal import pieces, pieces_folder
    from tracker.load import sized
    from tracker.shelf.choosing import chosen
    from tracker.shelf.taking_up import taken_down, weighed_of, weighed_with

    if said.piece is not None:
        if said.words:
            raise ValueError("Name a pattern or, with --piece, a piece in hand; not both.")
        meant = chosen(said.piece, pieces(pieces_folder())[0])
        return taken_down(meant.file)[1], weighed_of(meant)
    name, text = text_of(said.words[0])
    return sized(name, text, said.size), weighed_with(
        text, str(Path(said.words[0]).resolve()), pieces_folder()
    )


def _measures(loaded: "Loaded", answer: dict[str, Any]) -> list[str]:
    """Width and height of a flat piece at the gauge its pattern states."""
    from tracker.planning import gauge as gauges

    fabric, pattern = loaded.fabric, loaded.pattern
    every = [placed for stretch in fabric.stretches for placed in stretch.rows]
    stated = gauges.stated(pattern.notes)
    if stated is None or pattern.parts or any(placed.kind != "row" for placed in every):
        return []
    across = _across(loaded, stated.of, max(placed.worked.stitches for placed in every))
    wide, high = gauges.size(stated, across, fabric.length)
    answer["size_cm"] = [round(wide, 1), round(high, 1)]
    tall = f" by {high:.0f} cm ({high / 2.54:.1f} in)" if stated.rows else ""
    return [
        f"At the stated gauge about {wide:.0f} cm ({wide / 2.54:.1f} in){tall}, counted over the widest row."
    ]


def _edges(loaded: "Loaded", answer: dict[str, Any]) -> list[str]:
    """Edgings that the pattern works along its row ends."""
    from tracker.planning import edging as edgings

    fabric, lines = loaded.fabric, list[str]()
    along = edgings.along_in(fabric) if fabric.length <= MOST_ROWS else {}
    edges = [
        (index, edge, nth if len(sides) > 1 else 0)
        for index, sides in along.items()
        for nth, edge in enumerate(sides, 1)
    ]
    for index, edge, nth in edges:
        part = f" of {placed.part}" if (placed := fabric.row(index)).part else ""
        lines += [
            f"{placed.label}{part}{f', side {nth}' if nth else ''}: {edgings.summed(edge)}",
            edgings.verdict(edge),
            *edgings.told(edge, loaded.pattern.uk),
        ]
    if edges:
        lines.append("Stitches of the corners are not in these numbers.")
    answer["edgings"] = [
        {"index": index, "takes": list(edge.takes), "usual": edge.usual} for index, edge, _ in edges
    ]
    return lines


def _square(loaded: "Loaded") -> list[str]:
    """The edges of a piece with corners, compared, and whether many of them meet stitch for stitch."""
    from tracker.planning.edging import compared
    from tracker.program.joining import last_edges, layout_of, map_drawn, map_of, uneven

    edges = last_edges(loaded.fabric)
    if not edges:
        return []
    out: list[str] = []
    if len(edges) == 4 and len(set(edges)) == 2 and not uneven(edges):
        out.append(f"Opposite edges agree: {edges[0]} and {edges[1]} between the corners.")
    elif len(edges) == 4:
        named = ("first edge", "second edge", "third edge", "fourth edge")
        out += compared((edges[0], edges[1], edges[2], edges[3]), named)
    layout = layout_of(loaded.pattern, loaded.pattern.copies)
    if layout is not None:
        drawn = map_drawn(layout)
        out += [
            "How they lie, the right side up:",
            *(drawn if max(map(len, drawn)) <= WIDEST else map_of(layout)),
            f"{len(layout.seams)} seams, in that order; sheet and work tell them pair by pair, chart draws the map.",
        ]
    return out


def _across(loaded: "Loaded", of: str, stitches: int) -> float:
    """The widest row in what the gauge counts: filet in squares."""
    from tracker.program.row.squares import mesh_of, squares_of

    if of in ("squares", "windows", "meshes") and (mesh := mesh_of(loaded.fabric)):
        rows = [
            squares_of(placed.worked, mesh) for stretch in loaded.fabric.stretches for placed in stretch.rows
        ]
        return max((len(row) for row in rows if row), default=stitches)
    return stitches
