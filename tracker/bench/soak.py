"""An hour of a room through the ear's own queue, faster than real time: `python -m tracker.bench.soak
[--minutes N]`.

A minute of talk, counting, noise, silence and spoken commands is made with espeak-ng and fed over and over, block
by block as the sound card gives them, to the same Listener that a sitting has. Goes out: one line a figure:
blocks put and listened to, whether the last minute's commands were heard at the same places as the first's (no
drift), how memory stood after the first minutes and at the end (no leak), and the share of a core.
"""

import argparse
import os
import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tracker.ears.feeds.files import make_ear
from tracker.ears.feeds.microphone import BLOCK, Listener
from tracker.ears.port import RATE, Heard, Report
from tracker.hands_free.ear import sayings
from tracker.output import say

MINUTES = 60
SETTLED_MINUTES = 5
"""What memory is compared with: by then everything that is made once has been made."""
MOST_WAITING = 200
"""Blocks ahead of the ear, 3 s: as fast as it can, not faster."""
PIECES = (
    "carry on", "", "In this lesson we work into the back loop only, all the way round.", "",
    "where am i", "", "one. two. three. four. five. six. seven. eight.", "", "how many left", "",
    "Chain three, turn, double crochet in the next two stitches.", "", "step back", "", "say again",
)  # fmt: skip
"""What is said in each minute; "" is a silence."""


def main() -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tracker.bench.soak", description=__doc__)
    parser.add_argument("--minutes", type=int, default=MINUTES)
    soak(say, parser.parse_args().minutes)
    return 0


@dataclass(frozen=True, slots=True)
class Soaked:
    """What came of it."""

    minutes: int
    core_share: float
    """Of one core, were it fed as it comes."""
    lost_blocks: int
    drift_ms: int
    grown_mb: float


def soak(say: Callable[[str], None], minutes: int = MINUTES) -> Soaked:
    """Measure, say what came of it, and give it."""
    blocks = _blocks(minute())
    reports: list[Report] = []
    listener = Listener(make_ear("embedded", sayings()), reports.append)
    began, cpu = time.perf_counter(), time.process_time()
    listener.begin()
    early_mb = 0.0
    for number in range(minutes):
        for block in blocks:
            while listener.waiting > MOST_WAITING:
                time.sleep(0.002)
            listener.put(block)
        if number + 1 == min(SETTLED_MINUTES, minutes):
            early_mb = memory_mb()
    while listener.waiting:
        time.sleep(0.01)
    late_mb, took = memory_mb(), time.perf_counter() - began
    share = (time.process_time() - cpu) / (minutes * 60)
    listener.stop()
    put_ms = len(blocks) * minutes * BLOCK * 1000 // RATE
    say(f"soak: {minutes} min of mixed sound in {took:.0f} s, {100 * share:.1f} % of a core at real time")
    lost_ms = put_ms - listener.fed_ms
    lost = lost_ms * RATE // 1000 // BLOCK
    say(f"blocks: {len(blocks) * minutes} put, {lost} not listened to")
    each_ms = len(blocks) * BLOCK * 1000 // RATE
    minutes_heard = Counter(r.start_ms // each_ms for r in reports if isinstance(r, Heard))
    places = [_places(reports, n * each_ms, each_ms) for n in range(minutes)]
    off = max((_apart(places[1 % minutes], there) for there in places[1:]), default=0)
    say(
        f"commands in a minute: {min(minutes_heard.values(), default=0)} to {max(minutes_heard.values(), default=0)}"
        f", of {sum(words in _COMMANDS for words in PIECES)} said; "
        f"furthest from where the second minute had them: {off} ms"
    )
    say(f"memory: {early_mb:.1f} MB after {min(SETTLED_MINUTES, minutes)} min, {late_mb:.1f} MB at the end")
    return Soaked(minutes, share, lost, off, late_mb - early_mb)


_COMMANDS = {phrase for saying in sayings() for phrase in saying.phrases}


def _places(reports: list[Report], from_ms: int, long_ms: int) -> list[tuple[str, int]]:
    """What was heard in a minute, and where in it."""
    return [
        (r.deed, r.start_ms - from_ms)
        for r in reports
        if isinstance(r, Heard) and from_ms <= r.start_ms < from_ms + long_ms
    ]


def _apart(one: list[tuple[str, int]], two: list[tuple[str, int]]) -> int:
    """Milliseconds between the same commands of two minutes, the furthest pair; only those that both heard."""
    nearest = [
        min(abs(at - other) for same, other in two if same == deed)
        for deed, at in one
        if any(same == deed for same, _ in two)
    ]
    return max(nearest, default=0)


def minute() -> NDArray[np.float32]:
    """A minute of a room: the pieces, with noise that comes and goes, the same on every run."""
    from tracker.ears.train.voices import Setting, speak

    rng = np.random.default_rng(17)
    parts: list[NDArray[np.float32]] = []
    for words in PIECES:
        said = speak(words, Setting("espeak", "en-us", 0.9, 50)) if words else None
        parts += [np.zeros(RATE, np.float32)] if said is None else [said * 0.4, np.zeros(RATE, np.float32)]
    sound = np.concatenate(parts)[: RATE * 60]
    sound = np.concatenate([sound, np.zeros(RATE * 60 - len(sound), np.float32)])
    kettle = np.clip(np.sin(np.arange(len(sound)) / len(sound) * 2 * np.pi), 0, 1)
    noise = rng.normal(0, 1, len(sound)) * (3e-4 + 0.004 * kettle)
    return (sound + noise).astype(np.float32)


def _blocks(sound: NDArray[np.float32]) -> list[bytes]:
    data = (np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes()
    return [data[i : i + 2 * BLOCK] for i in range(0, len(data) - 2 * BLOCK + 1, 2 * BLOCK)]


def memory_mb() -> float:
    """What this process holds now, where the system tells; else nought."""
    try:
        with open("/proc/self/statm") as file:
            return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6
    except (OSError, ValueError):
        return 0.0


if __name__ == "__main__":
    sys.exit(main())
