"""What there is to pick from: the pieces in hand, patterns in this folder, and those that came with rowteller.

Comes in: a folder, the folder of the pieces, the time. Goes out: offers in that order. A file that cannot be
read is not offered; a folder full of other things costs little.
"""

import re
from datetime import datetime
from pathlib import Path

from tracker.journal import pieces
from tracker.records import dataclass, replace
from tracker.samples import samples
from tracker.shelf.taking_up import in_hand

IN_HAND, HERE, OURS = "in hand", "in this folder", "patterns of ours"
_MOST_FILES = 200
"""Files of a folder that are looked at."""
_LOOKED_AT = 20_000
"""Characters of a file that are looked at."""
_KINDS = (".txt", ".md", ".html", ".htm", ".pdf", ".docx")
_READ = (".txt", ".md")
_A_ROW = re.compile(r"(?im)^\W{0,4}(?:row|rnd|round)s?\s*\d")


@dataclass(frozen=True, slots=True)
class Offer:
    """Something to pick."""

    kind: str
    """IN_HAND, HERE or OURS; of sizes, their pattern's name."""
    name: str
    source: str
    """The pattern's file; "" for a piece that has none."""
    journal: Path | None = None
    told: str = ""
    """Where its maker stands and when that was."""
    size: str | None = None
    """The size it is offered in, where that is what there is to pick."""

    @property
    def called(self) -> str:
        """What it is called among the others."""
        return self.name if self.size is None else self.size


def offered_sizes(name: str, source: str, sizes: tuple[str, ...]) -> tuple[Offer, ...]:
    """One pattern in each of its sizes."""
    return tuple(Offer(name, name, source, size=size) for size in sizes)


def shelf(folder: Path, pieces_folder: Path, now: datetime) -> tuple[Offer, ...]:
    """All there is to pick from."""
    found, _ = pieces(pieces_folder)
    out = [
        Offer(
            IN_HAND,
            named(piece.name),
            piece.source,
            piece.file,
            " · ".join(part for part in (piece.label or "not begun", _when(piece.latest_ms, now)) if part),
        )
        for piece in found
    ]
    known = {offer.source for offer in out}
    ours = {str(file.resolve()): name for name, file in samples().items()}
    for file in _patterns_in(folder):
        source = str(file.resolve())
        if source not in known and source not in ours:
            out.append(Offer(HERE, named(file.stem), source))
    out += [Offer(OURS, named(name), source) for source, name in ours.items() if source not in known]
    return tuple(out)


@dataclass(frozen=True, slots=True)
class Places:
    """Where the makers of the pieces in hand stand, by journal."""

    told: dict[Path, str]


def places(pieces_folder: Path, now: datetime) -> Places:
    """Where each piece stands, in full; works every one of them, which takes a while."""
    return Places(
        {
            each.piece.file: " · ".join(
                part
                for part in (
                    each.place,
                    f"{each.percent} %" if each.percent is not None else "",
                    _when(each.piece.latest_ms, now),
                )
                if part
            )
            for each in in_hand(pieces_folder)[0]
        }
    )


def placed(offers: tuple[Offer, ...], found: Places) -> tuple[Offer, ...]:
    """The offers with what is known of them by now."""
    return tuple(
        replace(offer, told=found.told[offer.journal]) if offer.journal in found.told else offer
        for offer in offers
    )


def named(stem: str) -> str:
    """A file's name as a piece's: "harbour-windows" is "harbour windows"."""
    return re.sub(r"[-_]+", " ", stem).strip() or stem


def _patterns_in(folder: Path) -> list[Path]:
    try:
        files = sorted(file for file in folder.iterdir() if file.suffix.lower() in _KINDS)[:_MOST_FILES]
    except OSError:
        return []
    return [file for file in files if _seems_a_pattern(file)]


def _seems_a_pattern(file: Path) -> bool:
    """A text with rows or rounds in it, not just the one of an example; other kinds are taken at their word."""
    try:
        if not file.is_file():
            return False
        if file.suffix.lower() not in _READ:
            return True
        with file.open(encoding="utf-8", errors="replace") as text:
            return len(_A_ROW.findall(text.read(_LOOKED_AT))) > 1
    except OSError:
        return False


def _when(at_ms: int | None, now: datetime) -> str:
    if at_ms is None:
        return ""
    days = (now.date() - datetime.fromtimestamp(at_ms / 1000).date()).days
    return "today" if days <= 0 else "yesterday" if days == 1 else f"{days} days ago"
