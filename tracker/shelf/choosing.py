"""A piece by what the maker calls it: its name, the start of it, its number in the list, or its pattern's file.

Words and the pieces in hand come in; one piece goes out, or a NoPiece with one sentence.
"""

from collections.abc import Sequence
from pathlib import Path

from tracker.journal import Piece


class NoPiece(Exception):
    """No piece, or several, are called so."""


def chosen(words: str, found: Sequence[Piece]) -> Piece:
    """The one piece that is meant; the list's own order counts for numbers."""
    if not found:
        raise NoPiece("No piece is in hand yet. Begin one with: rowteller work FILE")
    if words.isdecimal() and 1 <= int(words) <= len(found) and not any(p.name == words for p in found):
        return found[int(words) - 1]
    plain = words.casefold().strip()
    path = str(Path(words).resolve()) if words else ""
    for fits in (
        [piece for piece in found if piece.name == words],
        [piece for piece in found if piece.name.casefold() == plain],
        [piece for piece in found if piece.source == path],
        [piece for piece in found if plain and piece.name.casefold().startswith(plain)],
        [piece for piece in found if plain and plain in piece.name.casefold()],
    ):
        if len(fits) == 1:
            return fits[0]
        if len(fits) > 1:
            names = ", ".join(f"{found.index(piece) + 1} {piece.name}" for piece in fits[:5])
            raise NoPiece(f"Several pieces are called {words!r}; say its number: {names}.")
    raise NoPiece(f"No piece is called {words!r}; rowteller pieces lists them.")
