"""From the end of a spoken word to the step on the screen, through a sound server, PortAudio and the ear.

Needs a checkout (the virtual sound card is the tests' own) and PulseAudio. The word's end is taken from
what the virtual microphone gives to another program at that moment, the step from what the screen sends to
its terminal.
"""

import importlib.util
import json
import os
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from array import array
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tracker.bench.terminal import Timed, program
from tracker.samples import samples

_RATE = 16_000
_LOUD = 300
"""Peak of a sample that belongs to a word; the demo's room noise stays under 60."""
_GAP_S = 0.35


def word_to_step(say: Callable[[str], None]) -> float | None:
    """Measure, say what came of it, and give the median in milliseconds; None where it cannot be measured."""
    source = Path(__file__).resolve().parents[2] / "tests" / "hands_free" / "virtual_sound.py"
    spec = importlib.util.spec_from_file_location("virtual_sound", source)
    if not source.exists() or spec is None or spec.loader is None:
        say("word end to step: not measured, for the virtual sound card is in the tests of a checkout")
        return None
    virtual: Any = importlib.util.module_from_spec(spec)
    sys.modules["virtual_sound"] = virtual
    spec.loader.exec_module(virtual)
    try:
        with virtual.virtual_sound() as card:
            waits = _measured(card)
    except RuntimeError as missing:
        say(f"word end to step: not measured ({missing})")
        return None
    listed = ", ".join(f"{wait:.0f}" for wait in waits)
    if not waits:
        say("word end to step: not measured, for no step followed the words on this machine")
        return None
    median = statistics.median(waits)
    say(f"word end to step, live on a virtual sound card: median {median:.0f} ms ({listed})")
    return median


def _measured(card: Any) -> list[float]:
    demo = Path(__file__).resolve().parents[1] / "ears" / "demo.wav"
    with tempfile.TemporaryDirectory() as home:
        (Path(home) / "settings.json").write_text(json.dumps({"ear": "embedded"}))
        env = card.env | {
            "ROWTELLER_HOME": home,
            "TERM": "xterm-256color",
            "COLORTERM": "truecolor",
            "HOME": os.environ.get("HOME", home),
        }
        pattern = samples()["harbour-windows"]
        with Timed(program("tracker", "work", str(pattern), "--quiet"), env) as screen:
            screen.until(b"listening")
            screen.quiet()
            ends = _Ends(card)
            steps: list[float] = []
            playing = subprocess.Popen(["paplay", "-d", "mic", str(demo)], env=card.env)
            while playing.poll() is None or steps and time.perf_counter() - steps[-1] < 1.0:
                if screen.read(0.02):
                    now = time.perf_counter()
                    if not steps or now - steps[-1] > _GAP_S:
                        steps.append(now)
            return [(step - max(end for end in ends.stop() if end < step)) * 1000 for step in steps]


class _Ends:
    """When words ended, as the virtual microphone's samples arrive."""

    def __init__(self, card: Any) -> None:
        words = [
            "parec",
            "-d",
            "mic.monitor",
            "--latency-msec=10",
            f"--rate={_RATE}",
            "--channels=1",
            "--format=s16le",
        ]
        self._recorder = subprocess.Popen(
            words, env=card.env, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        self._loud: list[float] = []
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def stop(self) -> list[float]:
        """When each word ended, on time.perf_counter's clock."""
        self._recorder.terminate()
        self._thread.join(timeout=5)
        loud = self._loud
        return [at for at, later in zip(loud, [*loud[1:], float("inf")], strict=True) if later - at > 0.15]

    def _listen(self) -> None:
        assert self._recorder.stdout is not None
        while block := self._recorder.stdout.read(320):
            if max(map(abs, array("h", block)), default=0) > _LOUD:
                self._loud.append(time.perf_counter())
