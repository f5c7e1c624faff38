"""The command `demo`: the whole of it on a pattern of ours, with or without a terminal, in under half a minute.

Nothing of the maker's own is touched: the piece it works lives in a folder that is gone afterwards.
"""

import argparse
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from tracker.commands.check import lines
from tracker.commands.pieces.lead import lead, lead_in_lines, now_ms
from tracker.ears.port import EarMissing
from tracker.hands_free.settings import Settings
from tracker.journal import piece_file
from tracker.load import load
from tracker.problems.render import underlined
from tracker.run import open_desk
from tracker.samples import samples
from tracker.session.understand import understand

PATTERN = "harbour-windows"
PRINTED, MISPRINTED = "(25 dc, 8 ch-1 sps)", "(26 dc, 8 ch-1 sps)"
"""A count in the pattern, and what a printer could make of it."""
FIRST = (
    "next",
    "next",
    "next",
    "next",
    "next",
    "next",
    "next",
    "next",
    "next",
    "next",
    "where am I",
    "how many left",
)
ACROSS = (
    "row 8",
    "yes",
    "next",
    "next",
    "back",
    "take that back",
    "row 12",
    "yes",
    "next",
    "next",
    "next",
    "stop",
)
AFTER = ("where am I", "row 3", "yes", "back", "I have 24", "count 25", "whole row", "stop")
RECORDING = Path(__file__).resolve().parents[2] / "ears" / "demo.wav"
"""Six commands of a made voice: next, next, again, how many left, next, stop."""
ROW_HEARD = ("row 5", "yes")
PAUSE_S = 0.08
"""Between two lines on a terminal, in seconds; nowhere else."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """It takes no words."""


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Show it."""
    file = samples().get(PATTERN)
    if file is None:
        sys.stderr.write("This copy of rowteller came without its samples, so there is nothing to show.\n")
        return 2
    show = _slowly(say) if sys.stdout.isatty() else say
    with tempfile.TemporaryDirectory() as folder:
        for line in scenes(file, Path(folder), show):
            show(line)
    return 0


def scenes(file: Path, folder: Path, say: Callable[[str], object]) -> Iterator[str]:
    """The demo; headings are given, the rest is said as it happens."""
    text = file.read_text(encoding="utf-8")
    yield f"1. The pattern is checked before the hook is lifted: rowteller check {file.name}"
    yield ""
    for line in lines(load(file.name, text)):
        yield f"   {line}".rstrip()
    yield ""
    yield f"   Had Row 2 been misprinted as {MISPRINTED}:"
    yield ""
    misprinted = load(file.name, text.replace(PRINTED, MISPRINTED, 1))
    for problem in misprinted.problems:
        for line in underlined(problem, misprinted.source).splitlines():
            yield f"   {line}"
    yield ""
    yield f"2. Then it is followed, group by group: rowteller work {file.name} --plain"
    yield ""
    _work(file, folder, text, FIRST, say)
    yield ""
    yield "3. It says what repeats, what breaks the run, and keeps the place when you rest"
    yield ""
    left = _work(file, folder, text, ACROSS, say)
    yield ""
    yield "4. Opened again from the disk: the same row, the same group. And a count that is off is told"
    yield ""
    found = _work(file, folder, text, AFTER, say)
    yield ""
    same = left[1] == found[0]
    yield f"   Left at {left[1]}; found at {found[0]}: {'the same place' if same else 'NOT the same place'}."
    yield ""
    yield "5. Hands-free: a recording of ours is heard by the same ear that hears you, and moves the work"
    yield ""
    yield from _heard(file, folder, text, say)


def _work(
    file: Path, folder: Path, text: str, deeds: Sequence[str], say: Callable[[str], object]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """One sitting; where it began and where it ended."""
    opened = open_desk(piece_file(folder, str(file)), file.name, str(file), text, None, now_ms())
    began = opened.desk.session.place
    try:
        lead(opened, _spoken(deeds, say), lambda line: say(f"   {line}"))
        return began, opened.desk.session.place
    finally:
        opened.desk.close()


def _heard(file: Path, folder: Path, text: str, say: Callable[[str], object]) -> Iterator[str]:
    """The recording in the microphone's place: on the screen where there is one, else in lines."""
    from tracker.hands_free.ear import made_ear
    from tracker.screen.work import can_carry, show

    try:
        made_ear("embedded")
    except EarMissing as missing:
        yield f"   {missing}"
        return
    opened = open_desk(piece_file(folder, str(file), "heard"), file.name, str(file), text, None, now_ms())
    for words in ROW_HEARD:
        deed = understand(words)
        if deed is not None:
            opened.desk.do(deed, now_ms())
    if can_carry():
        said = opened.desk.view().said
        show(
            lambda: (opened, said, "A recording speaks; you may press keys, too. It ends by itself."),
            Settings(), folder / "settings.json", quiet=False, hear=RECORDING, name=file.stem,
        )  # fmt: skip
        yield "   That was the screen; the recording said: next, next, again, how many left, next, stop."
        return
    try:
        lead_in_lines(opened, Settings(), quiet=True, hear=RECORDING, say=lambda line: say(f"   {line}"))
    finally:
        opened.desk.close()


def _spoken(deeds: Sequence[str], say: Callable[[str], object]) -> Iterator[str]:
    for deed in deeds:
        say(f"   you: {deed}")
        yield deed


def _slowly(say: Callable[[str], object]) -> Callable[[str], object]:
    def slowly(line: str) -> None:
        say(line)
        time.sleep(PAUSE_S if line.strip() else 0)

    return slowly
