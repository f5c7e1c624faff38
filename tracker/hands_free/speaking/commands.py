"""The command `voice`: how it speaks, shown and settled. What is not named stays as it is.

Words of the command line come in; lines go out. Status 0 when it was done, 2 when it could not be.
"""

import argparse
import sys
from collections.abc import Callable
from typing import Any

from tracker.hands_free.settings import (
    FASTEST,
    LENGTHS,
    LOUDEST,
    SLOWEST,
    TERMS,
    Settings,
    changed,
    settings_file,
    settled,
)

SAMPLE = "Window: chain one, skip one, one double crochet. Four of these."
_ON = ("on", "off")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words `voice` takes."""
    parser.add_argument("--speed", type=int, metavar="WORDS", help=f"words a minute, {SLOWEST} to {FASTEST}")
    parser.add_argument("--volume", type=int, metavar="PERCENT", help=f"0 to {LOUDEST}")
    parser.add_argument(
        "--engine", choices=("espeak", "natural"), help="natural comes with the extra `voice`"
    )
    parser.add_argument(
        "--accent", metavar="NAME", help="en-us, en-gb, en-gb-scotland …; +f3 behind it for another voice"
    )
    parser.add_argument(
        "--device", metavar="NAME", help="part of the speaker's name; \"\" for the system's own"
    )
    parser.add_argument("--aloud", choices=_ON, help="off: nothing is said aloud")
    parser.add_argument(
        "--tones", choices=_ON, help="tones for a row's end, a repeat's edge, ten more, a step"
    )
    parser.add_argument("--telling", choices=LENGTHS, help="how much is said: in full, shortly, only cues")
    parser.add_argument("--fading", choices=_ON, help="off: rows you know are told as if they were new")
    parser.add_argument(
        "--terms", choices=TERMS, help="stitches by their US or UK names, or as the pattern has them"
    )
    parser.add_argument(
        "--hand", choices=("left", "right"), help="left: every left and right of a pattern the other way"
    )
    parser.add_argument("--silent", action="store_true", help="do not speak a sample")


def run(said: argparse.Namespace, say: Callable[[str], object]) -> int:
    """Carry out `voice`."""
    settings, trouble = settled(settings_file())
    wish: dict[str, Any] = {
        "speed_wpm": said.speed,
        "volume": said.volume,
        "voice": said.engine,
        "accent": said.accent,
        "speaker": said.device,
        "mouth": _switch(said.aloud),
        "tones": _switch(said.tones),
        "telling": said.telling,
        "fading": _switch(said.fading),
        "terms": said.terms,
        "left_handed": None if said.hand is None else said.hand == "left",
    }
    wish = {name: value for name, value in wish.items() if value is not None}
    if said.speed is not None and not SLOWEST <= said.speed <= FASTEST:
        return _fault(f"The speed is {SLOWEST} to {FASTEST} words a minute, not {said.speed}.")
    if said.volume is not None and not 0 <= said.volume <= LOUDEST:
        return _fault(f"The volume is 0 to {LOUDEST} percent, not {said.volume}.")
    if said.accent is not None and (said.engine or settings.voice) == "espeak":
        from tracker.mouth.espeak import unknown

        if fault := unknown(said.accent):
            return _fault(fault)
    if wish:
        settings, trouble = changed(settings, **wish)
    if trouble:
        return _fault(trouble)
    for line in _told(settings):
        say(line)
    if settings.mouth and not said.silent and sys.stdout.isatty():
        _speak(settings)
    return 0


def _told(settings: Settings) -> tuple[str, ...]:
    """What is settled, in a few lines."""
    where = f" on “{settings.speaker}”" if settings.speaker else ""
    words = {"pattern": "as the pattern has them", "us": "by their US names", "uk": "by their UK names"}
    aloud = f"{settings.voice}, {settings.accent}, {settings.speed_wpm} words a minute, {settings.volume} %{where}"
    fading = "rows you know are told more shortly" if settings.fading else "every row as if it were new"
    return (
        f"The voice: {aloud}."
        if settings.mouth
        else "Nothing is said aloud; --aloud on brings the voice back.",
        f"Told: {settings.telling}; {fading}; tones {'on' if settings.tones else 'off'}.",
        f"Stitches {words[settings.terms]}; for the {'left' if settings.left_handed else 'right'} hand.",
    )


def _speak(settings: Settings) -> None:
    """A sentence in that manner."""
    import time

    from tracker.hands_free.speaking.mouth import made_mouth

    def tell(sentence: str) -> None:
        _fault(sentence)

    mouth = made_mouth(settings, lambda seconds: None, tell)
    mouth.say(SAMPLE)
    until = time.monotonic() + 15
    while mouth.busy and time.monotonic() < until:
        time.sleep(0.05)
    mouth.close()


def _switch(word: str | None) -> bool | None:
    return None if word is None else word == "on"


def _fault(sentence: str) -> int:
    sys.stderr.write(f"{sentence}\n")
    return 2
