"""The sentences: a program and a place come in, what is said there goes out. Short, in the trade's words."""

from tracker.session.wording.places import brief, place_line, said_at, whole_row
from tracker.session.wording.rows import count_due, opening, row_name

__all__ = ["brief", "count_due", "opening", "place_line", "row_name", "said_at", "whole_row"]
