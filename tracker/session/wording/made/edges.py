"""Stitches along an edge in words: how many along the row ends, each of them, and its corners.

A place, or a group of a row, comes in; sentences go out.
"""

from tracker.fabric.model import WorkedRow
from tracker.notation.tree import Work
from tracker.planning.edging import effect, end_told
from tracker.program.places import Place, Program
from tracker.program.row.groups import Breath
from tracker.session.wording.made.telling import capital
from tracker.trade.numbers import spoken_number


def along(program: Program, place: Place) -> str:
    """ "Twenty-four along fifteen row ends; I call each." and what so few or so many do to the edge."""
    edge = program.edge(place)
    assert edge is not None
    usual = f"Common practice is about {spoken_number(round(edge.usual))};"
    does = {
        "draws in": f" {usual} so few draw the edge in. Follow the pattern.",
        "ruffles": f" {usual} so many may ruffle. Follow the pattern.",
    }.get(effect(edge), "")
    earlier = (program.edge((*place[:4], group, 0, 0)) for group in range(place[4]))
    if any(one is not None and effect(one) == effect(edge) for one in earlier):
        return f"{capital(spoken_number(edge.stitches))} along {spoken_number(len(edge.ends))} row ends."
    return (
        f"{capital(spoken_number(edge.stitches))} along {spoken_number(len(edge.ends))} row ends, "
        f"corners not among them; I call each.{does}"
    )


def row_end(program: Program, place: Place) -> str:
    """ "Row end six, a turning chain: two, around the chain." """
    edge = program.edge(place)
    assert edge is not None
    return f"Row end {spoken_number(place[5] + 1)}, {end_told(edge, place[5], program.told_uk)}"


def is_first_corner(worked: WorkedRow, breath: Breath) -> bool:
    """True for the first corner of a row where an odd number of stitches stands in one: its middle is the corner."""
    made = breath.first.made_to - breath.first.made_from
    corners = (
        step.made_from
        for step in worked.steps
        if isinstance(step.item, Work) and step.item.where.kinds and step.item.where.kinds[0].name == "corner"
    )
    return made > 1 and made % 2 == 1 and next(corners, -1) == breath.first.made_from
