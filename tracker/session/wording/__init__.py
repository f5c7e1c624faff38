"""The sentences: a program and a place come in, what is said there goes out. Short, in the trade's words."""

from tracker.session.wording.groups import brief, coming
from tracker.session.wording.places import said_at, whole_row
from tracker.session.wording.rows import count_due, part_name, row_name
from tracker.session.wording.where import beside_said, counts, done_said, left_said, place_line, where_said

__all__ = [
    "beside_said",
    "brief",
    "coming",
    "count_due",
    "counts",
    "done_said",
    "left_said",
    "part_name",
    "place_line",
    "row_name",
    "said_at",
    "where_said",
    "whole_row",
]
