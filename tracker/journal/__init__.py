"""The journal of a piece: what the maker did and when, on the disk before it is shown, and found again."""

from tracker.journal.entries import Anchor, Entry, Json, Notice, Text, digest_of
from tracker.journal.pieces import Piece, home, kept_text, piece_file, pieces, pieces_folder
from tracker.journal.sqlite.store import Journal, open_journal, whole_of
from tracker.journal.troubles import (
    FolderRefused,
    JournalTrouble,
    NewerJournal,
    NoRoom,
    NotWritten,
    PieceHeld,
)
from tracker.journal.whole import Whole

__all__ = [
    "Anchor",
    "Entry",
    "FolderRefused",
    "Journal",
    "JournalTrouble",
    "Json",
    "NewerJournal",
    "NoRoom",
    "NotWritten",
    "Notice",
    "Piece",
    "PieceHeld",
    "Text",
    "Whole",
    "digest_of",
    "home",
    "kept_text",
    "open_journal",
    "piece_file",
    "pieces",
    "pieces_folder",
    "whole_of",
]
