"""A piece led in plain lines with the devices around it: typed lines, the ear and the pedal, one after
another in one queue.

Comes in: a piece as it was opened, lines from standard input, a recording if one stands for the microphone.
Goes out: lines. Ends at "stop", at the end of the input, or with the recording. What a device has to say of
itself goes to standard error.
"""

import queue
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from tracker.ears.port import EarMissing, Heard
from tracker.hands_free.arrivals import Answer, Arrival, Ended, Told, Touched
from tracker.hands_free.ear import heard_in, made_ear, samples_of, sayings_now
from tracker.hands_free.lines.inbox import Inbox
from tracker.hands_free.reader import speaks_already
from tracker.hands_free.settings import Settings, in_usual_words
from tracker.hands_free.sitting import Sitting
from tracker.run import Opened
from tracker.session.apply import Effect
from tracker.session.deeds import Deed
from tracker.session.understand import understood

if TYPE_CHECKING:
    from tracker.tablet.server import Tablet

_WAKE_AFTER_S = 0.5
"""Input that is no terminal and comes to its end sooner than this needs no ear: it was written before."""

Rendered = Callable[[Effect, Deed | None], Iterable[str]]
"""An effect as lines; what shows the place may look at the desk."""


def lead_hands_free(
    opened: Opened, settings: Settings, lines: TextIO, say: Callable[[str], object], *,
    quiet: bool, hear: Path | None, greeting: Iterable[str], rendered: Rendered, tablet: "Tablet | None" = None,
    inbox: Inbox | None = None, rest: bytes | None = None,
) -> int:  # fmt: skip
    """Follow a piece to its end, to the end of the lines, or of the recording; 2 when the recording cannot be heard.

    `rest` is what is still to be heard of a recording of which something was heard already.
    """
    arrivals = inbox or Inbox(lines)
    # A screen reader reads every line aloud: saying it as well would be two voices at once. Tones stay.
    read_aloud = sys.stdout.isatty() and speaks_already(settings.screen_reader)
    sitting = Sitting(opened.desk, settings, arrivals.post, quiet=quiet, hear=hear, tones_only=read_aloud)
    greeted = list(greeting)
    for line in greeted:
        say(line)
    telling = _Telling(sitting, say, rendered, tablet, settings)
    telling.show("")
    if tablet is not None:
        tablet.begin(lambda name, number: arrivals.post(Touched(name, number)))
    try:
        if hear is not None and (quiet or not sys.stdout.isatty()):
            return _recorded(sitting, settings, hear, telling, rest)
        if hear is None:
            arrivals.read()
        awake = hear is not None or lines.isatty()
        if awake:
            sitting.begin(opened.aloud)
        for arrival in _until_end(arrivals, sitting, awake):
            if not telling.take(arrival):
                break
        if awake:
            sitting.voice.until_said(8)
        return 0
    finally:
        sitting.close()


class _Telling:
    """Turns arrivals into lines."""

    def __init__(
        self, sitting: Sitting, say: Callable[[str], object], rendered: Rendered, tablet: "Tablet | None",
        settings: Settings,
    ) -> None:  # fmt: skip
        self._sitting, self._say, self._rendered = sitting, say, rendered
        self._tablet, self._settings, self._said = tablet, settings, ""
        self._rests = False

    def show(self, said: str) -> None:
        """Let the page on a tablet follow; what was said last stays until something else is said."""
        if self._tablet is None:
            return
        from tracker.tablet.told import Seen

        self._said = said or self._said
        view = self._sitting.desk.view(self._sitting.devices)
        looks = self._settings.left_handed, self._settings.rounds_as_rows
        self._tablet.put(Seen(view, self._said, self._rests, *looks))

    def take(self, arrival: Arrival | str) -> bool:
        """Do what is asked and write what comes of it; false when the maker puts the work down."""
        if isinstance(arrival, str):
            deed = understood(in_usual_words(self._settings, arrival), self._sitting.desk.session)
            if deed is None:
                self._say(f"I don't know {arrival.strip()[:60]!r}. Say help for what I know.")
                return True
            return self._write(self._sitting.do(deed, now_ms()))
        if isinstance(arrival, Heard):
            self._say(f"heard: {arrival.words}")
        answer = self._sitting.take(arrival, now_ms())
        if isinstance(arrival, Told):
            for line in answer.lines:
                sys.stderr.write(f"{line}\n")
            return True
        return self._write(answer)

    def _write(self, answer: Answer) -> bool:
        for effect in answer.effects:
            for line in self._rendered(effect, answer.deed):
                self._say(line)
        self._rests = self._sitting.desk.session.resting and (self._rests or answer.rests)
        self.show(answer.said)
        if answer.effects:
            self._sitting.prepare()
        return not answer.rests


def _recorded(sitting: Sitting, settings: Settings, hear: Path, telling: _Telling, rest: bytes | None) -> int:
    """A recording as fast as the machine goes; each deed is done before the next block is heard."""
    sitting.begin_mouth()
    try:
        samples = samples_of(hear) if rest is None else rest
        ear, _ = made_ear("embedded" if settings.ear == "off" else settings.ear, settings)
    except EarMissing as missing:
        sys.stderr.write(f"{missing}\n")
        return 2
    for report in heard_in(ear, samples, lambda: sitting.awaiting, lambda: sayings_now(sitting.desk.session)):
        if not telling.take(report):
            break
    sitting.voice.until_said(8)
    return 0


def _until_end(arrivals: Inbox, sitting: Sitting, awake: bool) -> Iterator[Arrival | str]:
    """What arrives, until the lines or the recording end. Where nothing does for a while, the devices are woken."""
    while True:
        try:
            arrival = arrivals.get(timeout=None if awake else _WAKE_AFTER_S)
        except queue.Empty:
            awake = True
            sitting.begin()
            continue
        if arrival is None or isinstance(arrival, Ended):
            return
        yield arrival


def now_ms() -> int:
    """The time now, in milliseconds since 1970 in UTC."""
    return time.time_ns() // 1_000_000
