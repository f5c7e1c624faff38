"""The pieces in hand: where they live, which file each has, and the list of them, latest worked first.

Comes in: a folder, or the environment. Goes out: paths and Piece values. A journal that cannot be read
costs its own line in the list, never the list.
"""

import os
import re
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import platformdirs

from tracker.journal.entries import Notice
from tracker.journal.sqlite.store import glance

SUFFIX = ".journal"


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece in hand."""

    name: str
    """What the maker calls it; the pattern's file name until they call it something."""
    file: Path
    """Its journal."""
    source: str
    """Where its pattern's text came from when it was last worked; empty before that."""
    latest_ms: int | None
    """When it was last worked, in milliseconds since 1970 in UTC; None when it was only opened."""
    entries: int
    """The number of the last deed."""
    label: str
    """The row the maker stands in, as printed; empty before the first."""


def home(environ: Mapping[str, str] = os.environ) -> Path:
    """The folder for all that is rowteller's and must outlive it.

    ROWTELLER_HOME comes first, then XDG_DATA_HOME, then the platform's own place.
    """
    if given := environ.get("ROWTELLER_HOME"):
        return Path(given).expanduser()
    xdg = Path(environ.get("XDG_DATA_HOME", ""))
    if xdg.is_absolute():  # the standard says to pass over a relative one
        return xdg / "rowteller"
    if sys.platform in ("win32", "darwin"):
        return platformdirs.user_data_path("rowteller", appauthor=False)
    return Path(environ.get("HOME") or Path.home()) / ".local" / "share" / "rowteller"


def pieces_folder(environ: Mapping[str, str] = os.environ) -> Path:
    """The folder that holds one journal a piece."""
    return home(environ) / "pieces"


def piece_file(folder: Path, source: str, name: str = "") -> Path:
    """The journal of the piece worked from this source; another name makes a second piece of one pattern.

    `source` is the pattern's absolute path, or whatever else tells it from all others. The same words give
    the same file on every run.
    """
    stem = Path(source.replace("\\", "/")).stem
    plain = re.sub(r"[^a-z0-9]+", "-", f"{stem} {name}".lower()).strip("-")[:60] or "piece"
    told_apart = sha256(f"{source}\n{name}".encode("utf-8", "surrogatepass")).hexdigest()[:8]
    return folder / f"{plain}-{told_apart}{SUFFIX}"


def kept_text(file: Path) -> str | None:
    """The pattern's text as it was kept with a piece; None when there is none, or it cannot be read."""
    try:
        _, text, _ = glance(file)
    except ValueError:
        return None
    return text.text if text is not None else None


def pieces(folder: Path) -> tuple[tuple[Piece, ...], tuple[Notice, ...]]:
    """The pieces in this folder, latest worked first, and what is to be said of those that do not open."""
    found, notices = [], []
    for file in sorted(folder.glob(f"*{SUFFIX}")):
        if ".damaged-" in file.name or ".mending" in file.name:
            continue
        try:
            last, text, name = glance(file)
        except ValueError as unreadable:
            notices.append(
                Notice(
                    f"The journal {file} cannot be read ({unreadable}).",
                    "Open the piece, and what can be saved of it is saved.",
                )
            )
            continue
        source = text.source if text else ""
        label = last.anchor.label if last and last.anchor else ""
        called = name or Path(source).stem or file.stem
        found.append(
            Piece(called, file, source, last.at_ms if last else None, last.number if last else 0, label)
        )
    found.sort(key=lambda piece: (-(piece.latest_ms or 0), piece.name))
    return tuple(found), tuple(notices)
