"""Ten seconds of the room: what is heard, what is passed over and why, and what to do about microphone and noise."""

import time
from pathlib import Path

import numpy as np

from tracker.ears.hearing.endpoint import room_advice
from tracker.ears.port import RATE, Ear, Heard, PassedOver
from tracker.hands_free.ear import made_ear
from tracker.hands_free.hearing.sounds import room
from tracker.hands_free.settings import Settings


def check(settings: Settings, seconds: float, hear: Path | None) -> int:
    """Listen, and tell. Raises EarMissing."""
    from tracker.hands_free.hearing.commands import say

    ear, _ = made_ear("embedded" if settings.ear == "off" else settings.ear, settings)
    say(f"I listen for {seconds:.0f} seconds. Say a few commands: carry on, where am I, row seven …")
    heard = 0
    samples = bytearray()
    with room(hear, settings.microphone) as blocks:
        ear.begin()
        until = time.monotonic() + seconds
        for block in blocks:
            samples += block
            heard += _told(ear, block)
            if hear is None and time.monotonic() > until or len(samples) > seconds * RATE * 2:
                break
        heard += sum(_one(report) for report in ear.finish())
    advice = room_advice(np.frombuffer(bytes(samples), "<i2").astype(np.float32) / np.float32(32768))
    for sentence in advice:
        say(sentence)
    if not advice:
        say(
            "The microphone and the room are fine."
            + ("" if heard else " No command was among what was said.")
        )
    return 0


def _told(ear: Ear, block: bytes) -> int:
    return sum(_one(report) for report in ear.feed(block))


def _one(report: object) -> bool:
    """Write one report; true for a command."""
    from tracker.hands_free.hearing.commands import say

    match report:
        case Heard():
            say(f"{_at(report.start_ms)} heard: {report.words} ({report.sureness:.0%} sure)")
            return True
        case PassedOver():
            say(f"{_at(report.start_ms)} passed over: {report.why}")
        case _:
            pass
    return False


def _at(ms: int) -> str:
    return f"{ms / 1000:5.1f} s"
