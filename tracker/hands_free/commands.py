"""The commands `pedal` and `ear`: learning a pedal by "press it now", and fetching a model for the other ear.

Words of the command line come in; lines go out. Status 0 when it was done, 2 when it could not be.
"""

import argparse
import os
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from tracker.hands_free.fetch import MODEL, NotFetched, fetch, offer
from tracker.hands_free.settings import EARS, Settings, keep, settings_file, settled
from tracker.pedal import evdev_keys, learn, pynput_keys, terminal
from tracker.pedal.board import now_ms
from tracker.pedal.port import SWITCHES, LearnedKey, PedalFault, Route, background_route

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
    ear = subparsers.add_parser(
        "ear", help="which ear hears you, and a model for the other one", description="Which ear hears you."
    )
    doings = ear.add_subparsers(dest="doing", metavar="WHAT")
    fetching = doings.add_parser(
        "fetch",
        help="fetch a model for vosk, another ear",
        description="Fetches a model for the vosk ear. The built-in ear needs none.",
    )
    fetching.add_argument(
        "address", nargs="?", default=MODEL, metavar="URL", help=f"the model's zip (usually {MODEL})"
    )
    fetching.add_argument(
        "--checksum", default="", metavar="HEX", help="its SHA-256 or MD5; else the one its publishers list"
    )
    fetching.add_argument("--yes", action="store_true", help="do not ask before fetching")
    using = doings.add_parser(
        "use",
        help="choose the ear",
        description="Chooses the ear: auto takes vosk where an English model is found.",
    )
    using.add_argument("engine", choices=EARS)
    ear.set_defaults(run=run_ear)


# -- pedal


def run_pedal(said: argparse.Namespace) -> int:
    """Carry out `pedal`."""
    file = settings_file()
    settings, trouble = settled(file)
    if trouble:
        _tell(trouble)
    if said.forget:
        return _kept(file, replace(settings, pedal=(), pedal_everywhere=False), "The pedal is forgotten.")
    here = [Route.TERMINAL]
    background = background_route(sys.platform, os.environ)
    if said.everywhere and background is not None:
        here.append(background)
    for route in here:
        _say(_LIMITS[route])
    if not said.everywhere and background is not None:
        _say("With --everywhere it is heard while another window has focus, too.")
    if not sys.stdin.isatty():
        _tell("A pedal is learned at a terminal, because that is where its press arrives; run this in one.")
        return 2
    _say("")
    _say(learn.ASK)
    found = _learned(said.switch, settings.pedal, said.everywhere)
    if isinstance(found, learn.NotLearned):
        _tell(found.sentence)
        return 2
    known = replace(
        settings,
        pedal=learn.with_key(settings.pedal, found),
        pedal_everywhere=settings.pedal_everywhere or said.everywhere,
    )
    return _kept(file, known, learn.told(found))


def _learned(switch: int, others: tuple[LearnedKey, ...], everywhere: bool) -> LearnedKey | learn.NotLearned:
    """Listen on every route there is until one press has been heard."""
    lesson = [learn.Lesson(switch, now_ms(), _REFUSED, others)]

    def heard(route: Route, name: str) -> None:
        lesson[0] = learn.hear(lesson[0], route, name, now_ms())

    end: Callable[[], None] = lambda: None  # noqa: E731 - what ends the other route, once there is one
    if everywhere:
        try:
            route = background_route(sys.platform, os.environ)
            if route is Route.PYNPUT:
                end = pynput_keys.hear_one(lambda name: heard(Route.PYNPUT, name), _tell)
            elif route is Route.EVDEV:
                end = evdev_keys.hear_one(lambda name: heard(Route.EVDEV, name), _tell)
        except PedalFault as fault:
            _tell(str(fault))
    try:
        with terminal.RawKeys() as keys:
            while (found := learn.outcome(lesson[0], now_ms())) is None:
                for name in keys.read(0.05):
                    heard(Route.TERMINAL, name)
        return found
    finally:
        end()


# -- ear


def run_ear(said: argparse.Namespace) -> int:
    """Carry out `ear`."""
    file = settings_file()
    settings, trouble = settled(file)
    if trouble:
        _tell(trouble)
    if said.doing == "use":
        return _kept(file, replace(settings, ear=said.engine), f"The ear is {said.engine}.")
    if said.doing != "fetch":
        _say(
            f"The ear is {settings.ear}. Others: rowteller ear use {'|'.join(EARS)}. "
            "A model for vosk: rowteller ear fetch"
        )
        return 0
    folder = models_folder()
    try:
        found = offer(said.address, said.checksum)
        size = f"{found.size / 1e6:.0f} MB" if found.size else "of a size that its server does not tell"
        checked = (
            "checked against its published checksum"
            if found.checksum
            else "with no published checksum, so only its archive is checked"
        )
        _say(f"{found.name} is {size}, {checked}. It goes to {folder}.")
        if not said.yes and not _agreed():
            _tell("Nothing was fetched.")
            return 2
        place = fetch(found, folder, _progress)
    except NotFetched as fault:
        _tell(str(fault))
        return 2
    _say(
        f"\nFetched: {place}. The ear takes it from now on; rowteller ear use embedded goes back to the built-in one."
    )
    return 0


def models_folder() -> Path:
    """Where the vosk engine looks first."""
    return Path.home() / ".cache" / "vosk"


def _agreed() -> bool:
    if not sys.stdin.isatty():
        _tell("Run it at a terminal, or with --yes, so that you are asked before anything is fetched.")
        return False
    sys.stdout.write("Fetch it? [y/N] ")
    sys.stdout.flush()
    return sys.stdin.readline().strip().lower() in ("y", "yes")


def _progress(done: int, size: int) -> None:
    if sys.stderr.isatty():
        share = f" of {size // 1_000_000}" if size else ""
        sys.stderr.write(f"\r{done // 1_000_000}{share} MB")


def _kept(file: Path, settings: Settings, sentence: str) -> int:
    try:
        keep(file, settings)
    except OSError as error:
        _tell(f"The settings in {file} cannot be written ({error.strerror or error}).")
        return 2
    _say(sentence)
    return 0


def _say(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def _tell(line: str) -> None:
    sys.stderr.write(f"{line}\n")
