"""The commands `pedal` and `ear`: learning a pedal by "press it now"; what there is to the ear is in `hearing`.

Words of the command line come in; lines go out. Status 0 when it was done, 2 when it could not be.
"""

import argparse
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tracker.hands_free.hearing import commands as hearing
from tracker.hands_free.settings import Settings, keep, settings_file, settled
from tracker.output import say, tell
from tracker.pedal import evdev_keys, learn, pynput_keys, terminal
from tracker.pedal.board import now_ms
from tracker.pedal.port import SWITCHES, LearnedKey, PedalFault, Route, background_route
from tracker.records import replace

_REFUSED = {
    "ctrl+c": "ends the program",
    "ctrl+z": "suspends the program",
    "escape": "closes what is open",
    "q": "puts the work down",
}
_LIMITS = {Route.TERMINAL: terminal.LIMIT, Route.PYNPUT: pynput_keys.LIMIT, Route.EVDEV: evdev_keys.LIMIT}


def add_parsers(subparsers: Any) -> None:
    """Add `pedal` and `ear`."""
    pedal = subparsers.add_parser(
        "pedal", help="learns your pedal: press it once", description="Learns the key that your pedal sends."
    )
    pedal.add_argument(
        "--switch",
        type=int,
        choices=SWITCHES,
        default=1,
        help="which switch of the pedal; the first when not said",
    )
    pedal.add_argument(
        "--everywhere",
        action="store_true",
        help="hear it in every window; this means being shown every key, of which only the learned one is looked at",
    )
    pedal.add_argument("--forget", action="store_true", help="forget what was learned")
    pedal.set_defaults(run=run_pedal)
    hearing.add_parser(subparsers)


# -- pedal


def run_pedal(said: argparse.Namespace) -> int:
    """Carry out `pedal`."""
    file = settings_file()
    settings, trouble = settled(file)
    if trouble:
        tell(trouble)
    if said.forget:
        return _kept(file, replace(settings, pedal=(), pedal_everywhere=False), "The pedal is forgotten.")
    here = [Route.TERMINAL]
    background = background_route(sys.platform, os.environ)
    if said.everywhere and background is not None:
        here.append(background)
    for route in here:
        say(_LIMITS[route])
    if not said.everywhere and background is not None:
        say("With --everywhere it is heard while another window has focus, too.")
    if not sys.stdin.isatty():
        tell("A pedal is learned at a terminal, because that is where its press arrives; run this in one.")
        return 2
    found = _learned(said.switch, settings.pedal, said.everywhere)
    if isinstance(found, learn.NotLearned):
        tell(found.sentence)
        return 2
    known = replace(
        settings,
        pedal=learn.with_key(settings.pedal, found),
        pedal_everywhere=settings.pedal_everywhere or said.everywhere,
    )
    return _kept(file, known, learn.told(found))


def _learned(switch: int, others: tuple[LearnedKey, ...], everywhere: bool) -> LearnedKey | learn.NotLearned:
    """Listen on every route there is until one press has been heard; asked for once all of them listen."""
    lesson = [learn.Lesson(switch, now_ms(), _REFUSED, others)]

    def heard(route: Route, name: str) -> None:
        lesson[0] = learn.hear(lesson[0], route, name, now_ms())

    end: Callable[[], None] = lambda: None  # noqa: E731 - what ends the other route, once there is one
    if everywhere:
        try:
            route = background_route(sys.platform, os.environ)
            if route is Route.PYNPUT:
                end = pynput_keys.hear_one(lambda name: heard(Route.PYNPUT, name), tell)
            elif route is Route.EVDEV:
                end = evdev_keys.hear_one(lambda name: heard(Route.EVDEV, name), tell)
        except PedalFault as fault:
            tell(str(fault))
    try:
        with terminal.RawKeys() as keys:
            # A press that came before this would be dropped by the terminal, and waited for in vain.
            say(f"\n{learn.ASK}")
            lesson[0] = replace(lesson[0], began_ms=now_ms())
            while (found := learn.outcome(lesson[0], now_ms())) is None:
                for name in keys.read(0.05):
                    heard(Route.TERMINAL, name)
        return found
    finally:
        end()


def _kept(file: Path, settings: Settings, sentence: str) -> int:
    try:
        keep(file, settings)
    except OSError as error:
        tell(f"The settings in {file} cannot be written ({error.strerror or error}).")
        return 2
    say(sentence)
    return 0
