"""Charts as plain letters: for a terminal, a screen reader, and to be turned back into a pattern."""

from tracker.charts.drawing import Sheet


def letters(sheets: tuple[Sheet, ...]) -> bytes:
    """The sheets' letters, an empty line between two; a filet chart alone is its bare grid."""
    return "\n".join(sheet.letters for sheet in sheets).encode()
