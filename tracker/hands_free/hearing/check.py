"""Ten seconds of the room: what is heard, what is passed over and why, and what to do about microphone and noise."""

import time
from pathlib import Path

import numpy as np

from tracker.ears.hearing.sound.endpoint import room_advice
from tracker.ears.port import RATE, Heard, PassedOver, Report, Settled
from tracker.hands_free.ear import made_ear
from tracker.hands_free.hearing.sounds import room
from tracker.hands_free.settings import Settings

TO_THE_END_S = 1.5
"""A word begun within the time is listened to until it is over."""


def check(settings: Settings, seconds: float, hear: Path | None) -> int:
    """Listen, and tell. Raises EarMissing."""
    from tracker.output import say

    ear, _ = made_ear("embedded" if settings.ear == "off" else settings.ear, settings)
    say(f"I listen for {seconds:.0f} seconds. Say a few commands: carry on, where am I, row seven …")
    heard: set[int] = set()
    samples = bytearray()
    longest = seconds + TO_THE_END_S
    with room(hear, settings.microphone) as blocks:
        ear.begin()
        until = time.monotonic() + longest
        for block in blocks:
            samples += block
            _tell(ear.feed(block), seconds, heard)
            if hear is None and time.monotonic() > until or len(samples) > longest * RATE * 2:
                break
        _tell(ear.finish(), seconds, heard)
    advice = room_advice(np.frombuffer(bytes(samples), "<i2").astype(np.float32) / np.float32(32768))
    for sentence in advice:
        say(sentence)
    if not advice:
        say(
            "The microphone and the room are fine."
            + ("" if heard else " No command was among what was said.")
        )
    return 0


def _tell(reports: list[Report], seconds: float, heard: set[int]) -> None:
    """Write what began within the time, and keep in `heard` where each command began that stood."""
    from tracker.output import say

    for report in reports:
        if report.start_ms >= seconds * 1000:
            continue
        match report:
            case Heard():
                say(f"{_at(report.start_ms)} heard: {report.words} ({report.sureness:.0%} sure)")
                heard.add(report.start_ms)
            case PassedOver():
                say(f"{_at(report.start_ms)} passed over: {report.why}")
            case Settled(stands=False):
                say(f"{_at(report.start_ms)} not that after all: more was said after it")
                heard.discard(report.start_ms)
            case Settled():
                pass


def _at(ms: int) -> str:
    return f"{ms / 1000:5.1f} s"
