"""The sums of a whole piece: size, edgings, yarn, time, what may be said of its hook. Words of the command line come
in; an answer for other programs, sentences and an exit status go out.
"""

import argparse
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from tracker.files import text_of

if TYPE_CHECKING:
    from tracker.load import Loaded
    from tracker.planning.yarn import Need, Swatch, Use

MOST_ROWS = 1000
"""A longer piece is not gone through row by row for its colours and edgings."""


def piece(said: argparse.Namespace) -> tuple[Mapping[str, Any], list[str], int]:
    """A pattern: its size, yarn, time and what may be said of its hook."""
    from tracker.commands_check import sized
    from tracker.own_pace import own_log
    from tracker.planning import edging as edgings
    from tracker.planning import gauge as gauges
    from tracker.planning import hooks, time, yarn
    from tracker.problems import Severity

    name, text = text_of(said.words[0])
    loaded = sized(name, text, said.size)
    fabric, pattern = loaded.fabric, loaded.pattern
    if not fabric.length:
        return (
            {"rows": 0},
            ["No row was found in this text, so there is nothing to plan; check says what it lacks."],
            1,
        )
    use = yarn.use_of(fabric, _letters(loaded), dict(pattern.parts))
    copies = said.copies or pattern.copies or 1
    stated_for = hooks.of_materials(pattern.notes)
    weight = next((found for note in stated_for if (found := hooks.weight_named(note))), None)
    hook = next((size for note in stated_for if (size := hooks.hook_mm(note))), None)
    number = said.weight if said.weight is not None else weight.number if weight else 4
    ball = yarn.ball_of(said.ball)
    swatch = _swatch(said, use, ball)
    ends = _ends(loaded, copies)
    needs = _needs(said, use, swatch, number, copies, ball, ends)
    lines = [
        f"{pattern.title}: {fabric.length} rows"
        + (", and on as long as you like" if fabric.open_ended else "")
        + "."
    ]
    stitches = [placed.worked.stitches for stretch in fabric.stretches for placed in stretch.rows]
    answer: dict[str, Any] = {
        "title": pattern.title,
        "size": pattern.size,
        "rows": fabric.length,
        "copies": copies,
    }
    flat = (
        all(placed.kind == "row" for stretch in fabric.stretches for placed in stretch.rows)
        and not pattern.parts
    )
    if (stated := gauges.stated(pattern.notes)) is not None and flat:
        across = _across(loaded, stated.of, max(stitches))
        wide, high = gauges.size(stated, across, fabric.length)
        answer["size_cm"] = [round(wide, 1), round(high, 1)]
        tall = f" by {high:.0f} cm ({high / 2.54:.1f} in)" if stated.rows else ""
        lines.append(
            f"At the stated gauge about {wide:.0f} cm ({wide / 2.54:.1f} in){tall}, counted over the widest row."
        )
    lines += _square(loaded)
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
            *edgings.told(edge, pattern.uk),
        ]
    if edges:
        lines.append("Stitches of the corners are not in these numbers.")
    answer["edgings"] = [
        {"index": index, "takes": list(edge.takes), "usual": edge.usual} for index, edge, _ in edges
    ]
    lines += [yarn.told(one, f"Yarn {letter}" if letter else "Yarn") for letter, one in needs.items()]
    if said.weight is None and weight is None and swatch is None:
        lines.append("The pattern names no weight of yarn; medium (4) was taken. Say another with --weight.")
    lines.append(
        f"Leave {yarn.TAIL_CM:.0f} cm before you cut: {ends} ends to weave in, and they are counted in."
    )
    lines += _enough(said, use, swatch, number, ball, fabric.length)
    whole = use.whole * copies
    pace = time.pace_of(own_log())
    lines.append(time.told(whole, pace))
    lines += [line for line in (hooks.beside(weight, hook), hooks.doubt(weight, hook)) if line]
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
            for letter, one in needs.items()
        ],
        "single_crochets": round(whole, 1),
        "stitches": {kind: round(many) for kind, many in use.by_kind.items()},
        "seconds": round(whole * pace.middle),
        "guess": not pace.rows,
        "told": lines,
    }
    wrong = any(problem.severity is Severity.ERROR for problem in loaded.problems)
    if wrong:
        lines.append("The pattern has errors, so these sums may be off; see check.")
    return answer, lines, 1 if wrong else 0


def _swatch(said: argparse.Namespace, use: "Use", ball: tuple[float, float] | None) -> "Swatch | None":
    """What was measured or weighed: a swatch, some rows of the piece itself, or copies that are done."""
    from tracker.planning import yarn

    if said.finished is not None:
        how = "--finished takes copies and what they took, such as 3,72g"
        many, took = yarn.pair_of(said.finished, how)
        if not many.isdigit() or not int(many):
            raise yarn.NoYarn(f"{how}; {said.finished!r} is not that.")
        return yarn.Swatch(use.whole * int(many), yarn.length_of(took, ball) * 100, yarn.FINISHED)
    if said.swatch is None:
        return None
    what, took = yarn.pair_of(
        said.swatch, "--swatch takes what was worked and its yarn, such as 400,18m or 1-10,12g"
    )
    first, mark, last = what.partition("-")
    if mark and first.strip().isdigit() and last.strip().isdigit():
        rows = range(int(first), int(last) + 1)
        amount = sum(sc for index, sc in use.by_row if index in rows)
        if not amount:
            raise yarn.NoYarn(
                f"The pattern has no rows {what} listed one by one; name rows of its beginning."
            )
    else:
        amount = yarn.figure_of(what)
    return yarn.Swatch(amount, yarn.length_of(took, ball) * 100)


def _needs(
    said: argparse.Namespace,
    use: "Use",
    swatch: "Swatch | None",
    weight: int,
    copies: int,
    ball: tuple[float, float] | None,
    ends: int,
) -> "dict[str, Need]":
    """Yarn by colour; the ends shared out among the colours."""
    from tracker.planning import yarn

    grams = ball[1] / ball[0] if ball and ball[1] else None
    colours = _by_colour(use)
    each = max(2, round(ends / copies / len(colours)))
    return {
        letter: yarn.need(amount, swatch, weight, copies, grams, ball[0] if ball else None, each)
        for letter, amount in colours
    }


def _ends(loaded: "Loaded", copies: int) -> int:
    """Ends of all the copies."""
    from tracker.paper.finishing import ends_of
    from tracker.program.places import Program

    program = Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems)
    named = sum(ends_of(program, at) * part.copies for at, part in enumerate(program.parts))
    return round(named / max(1, loaded.pattern.copies) * copies)


def _enough(
    said: argparse.Namespace,
    use: "Use",
    swatch: "Swatch | None",
    weight: int,
    ball: tuple[float, float] | None,
    rows: int,
) -> list[str]:
    """Whether what is left of the ball does for a row."""
    from tracker.planning import yarn

    if said.left is None and said.row is None:
        return []
    if said.left is None or said.row is None:
        raise yarn.NoYarn("Whether there is enough for a row takes both: --left 12m --row 7.")
    takes = dict(use.by_row).get(said.row)
    if takes is None:
        raise yarn.NoYarn(f"There is no row {said.row} listed; the pattern has {rows} rows.")
    each = swatch.cm_per_sc if swatch else yarn.ROUGH_CM[weight]
    rough = "" if swatch else " That is rough: weigh or measure a swatch to know better."
    return [f"Row {said.row}: {yarn.enough(yarn.length_of(said.left, ball), takes, each)}{rough}"]


def _square(loaded: "Loaded") -> list[str]:
    """The edges of a piece with corners, compared, and whether many of them meet stitch for stitch."""
    from tracker.planning.edging import compared
    from tracker.program.joining import last_edges, layout_of, map_of, uneven

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
        out += [
            "How they lie:",
            *map_of(layout),
            f"{len(layout.seams)} seams; sheet and work tell them one by one.",
        ]
    return out


def _by_colour(use: "Use") -> list[tuple[str, float]]:
    return list(use.by_colour.items()) if len(use.by_colour) > 1 else [("", use.whole)]


def _letters(loaded: "Loaded") -> dict[int, tuple[str, ...]]:
    """The colour of each element, for pieces short enough to be listed."""
    from tracker.charts.layout.colours import colours_of

    if loaded.fabric.length > MOST_ROWS:
        return {}
    return dict(colours_of(loaded.source, loaded.pattern, tuple(loaded.fabric.rows())).rows)


def _across(loaded: "Loaded", of: str, stitches: int) -> float:
    """The widest row in what the gauge counts: filet in squares."""
    from tracker.program.squares import mesh_of, squares_of

    if of in ("squares", "windows", "meshes") and (mesh := mesh_of(loaded.fabric)):
        rows = [
            squares_of(placed.worked, mesh) for stretch in loaded.fabric.stretches for placed in stretch.rows
        ]
        return max((len(row) for row in rows if row), default=stitches)
    return stitches
