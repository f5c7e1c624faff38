"""Pattern text in, sentences and places out: what the tests of following a pattern share."""

from collections.abc import Iterator
from pathlib import Path

from tracker.load import load
from tracker.program.places import Place, Program, Stride
from tracker.session.apply import Effect, Keep, Say, apply
from tracker.session.state import Session, begun
from tracker.session.understand import understand
from tracker.session.wording import said_at
from tracker.trade.said.speech import Speech

PATTERNS = Path(__file__).resolve().parent.parent / "patterns"
NOW_MS = 1_700_000_000_000

SWATCH = """SWATCH

Ch 12.
Row 1 (RS): Dc in 4th ch from hook (3 skipped chs count as dc) and in each ch across. (10 dc)
Row 2: Turn, ch 3 (counts as dc throughout), dc in next 8 dc, dc in top of ch-3. (10 dc)
Row 3: Turn, ch 3, dc in next 8 dc, dc in top of ch-3. (10 dc)
"""


def program_of(text: str, left_handed: bool = False) -> Program:
    """A pattern as a walk from place to place."""
    loaded = load("the pattern", text)
    speech = Speech(left_handed=left_handed)
    return Program(loaded.source, loaded.pattern, loaded.fabric, loaded.problems, speech)


def sample(name: str) -> Program:
    """One of the patterns of ours."""
    return program_of((PATTERNS / f"{name}.txt").read_text(encoding="utf-8"))


def walked(program: Program, stride: Stride = Stride.GROUP, most: int = 100_000) -> Iterator[Place]:
    """Every place in working order, the end left out."""
    place = program.start
    while place != program.end and most:
        yield place
        place = program.next(place, stride)
        most -= 1


def told(program: Program, row: int, stride: Stride = Stride.GROUP) -> list[str]:
    """What is said in a row, place by place."""
    return [
        said_at(program, place, stride)
        for place in walked(program, stride)
        if place[2] == row and place[3] == 0
    ]


def worked(session: Session, *lines: str) -> tuple[Session, list[str]]:
    """The session after some lines, and what the last of them made it say."""
    said: list[str] = []
    for line in lines:
        deed = understand(line)
        assert deed is not None, f"{line!r} is in no row of the table"
        session, effects = apply(session, deed, NOW_MS)
        said = [effect.text for effect in effects if isinstance(effect, Say)]
    return session, said


def kept(effects: tuple[Effect, ...]) -> list[Keep]:
    """What of some effects goes into the journal."""
    return [effect for effect in effects if isinstance(effect, Keep)]


def at_hand(name: str = "harbour-windows") -> Session:
    """One of the patterns of ours, not begun."""
    return begun(sample(name))
