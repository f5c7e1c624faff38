"""What can stand between a journal and its disk, each as one sentence of what is so and one of what to do.

JournalTrouble
├── PieceHeld      another rowteller has the piece open
├── NewerJournal   a later rowteller wrote it
├── FolderRefused  the folder or file cannot be made, read or written
├── NoRoom         the disk, or the room this user may take, is full
└── NotWritten     the system refused a write for another reason

A damaged journal is none of these: it is set aside and the work goes on, with a Notice.
"""


class JournalTrouble(Exception):
    """A journal could not be opened or written; whatever was shown before is still on the disk."""

    def __init__(self, headline: str, help: str = "") -> None:
        super().__init__(f"{headline} {help}".strip())
        self.headline = headline
        """What is so."""
        self.help = help
        """What to do about it."""


class PieceHeld(JournalTrouble):
    """Another rowteller has the piece open."""

    def __init__(self, headline: str, help: str, pid: int | None, since_ms: int | None) -> None:
        super().__init__(headline, help)
        self.pid = pid
        """The process that has it, where it said so."""
        self.since_ms = since_ms
        """Since when, in milliseconds since 1970 in UTC."""


class NewerJournal(JournalTrouble):
    """A later rowteller wrote the journal."""


class FolderRefused(JournalTrouble):
    """The folder or the file cannot be made, read or written."""


class NoRoom(JournalTrouble):
    """There is no room left to write in."""


class NotWritten(JournalTrouble):
    """The system refused a write."""
