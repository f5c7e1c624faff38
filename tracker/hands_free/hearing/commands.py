"""The command `ear`: which one hears, what it is taught, how the room is, what the words are.

Words of the command line come in; lines go out. Status 0 when it was done, 2 when it could not be, with one sentence.
"""

import argparse
import sys
from pathlib import Path
from typing import Any

from tracker.ears.port import EarMissing
from tracker.hands_free.hearing.fetch import MODEL, NotFetched, fetch, offer
from tracker.hands_free.hearing.kept import forget, phrases_kept, voice_folder
from tracker.hands_free.settings import EARS, Settings, changed, settings_file, settled
from tracker.output import say, tell

OFF = "off"


def add_parser(subparsers: Any) -> None:
    """Add `ear`."""
    ear = subparsers.add_parser(
        "ear",
        help="teaches the ear your voice, looks at the room",
        description="Which ear hears you, and how well.",
    )
    doings = ear.add_subparsers(dest="doing", metavar="WHAT")
    teaching = doings.add_parser(
        "teach",
        help="say each command three times: it hears you best then",
        description="Learns your voice: each command three times. The recordings stay on this machine; `ear forget` "
        "removes them.",
    )
    teaching.add_argument(
        "phrases", nargs="*", metavar="PHRASE", help="only these; every command when none is named"
    )
    teaching.add_argument("--numbers", action="store_true", help="the words of numbers as well, once each")
    _with_recording(teaching)
    checking = doings.add_parser(
        "check",
        help="ten seconds of your room: too quiet, too loud, what is heard",
        description="Listens for ten seconds: say a few commands, and see what is heard, passed over and why.",
    )
    checking.add_argument(
        "--seconds", type=float, default=10.0, metavar="N", help="how long; ten when not said"
    )
    _with_recording(checking)
    doings.add_parser("forget", help="removes your recordings and all that was learned from your voice")
    words = doings.add_parser(
        "rename",
        help="another word for a command",
        description="Gives a command another word. One that is too like another is refused, with the reason.",
    )
    words.add_argument("command", metavar="COMMAND", help='what it is called now: "next", "undo" …')
    words.add_argument(
        "phrase", nargs="?", metavar="PHRASE", help="the new word; the usual ones when none is named"
    )
    naming = doings.add_parser(
        "name",
        help="a name to be said before each command, or off",
        description="With a name, a command counts only after it: for a room in which much is said, or two machines.",
    )
    naming.add_argument("name", metavar="NAME")
    headphones = doings.add_parser(
        "headphones",
        help="on: you hear it through headphones, so it hears you while it speaks",
        description="With headphones the ear stays open while the voice speaks.",
    )
    headphones.add_argument("state", choices=("on", "off"))
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
    ear.set_defaults(run=run)


def _with_recording(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--hear", type=Path, metavar="WAV", help="a recording in the microphone's place")


def run(said: argparse.Namespace) -> int:
    """Carry out `ear`."""
    settings, trouble = settled(settings_file())
    if trouble:
        tell(trouble)
    try:
        match said.doing:
            case "teach":
                from tracker.hands_free.hearing.teach import teach

                return teach(settings, tuple(said.phrases), said.numbers, said.hear)
            case "check":
                from tracker.hands_free.hearing.check import check

                return check(settings, said.seconds, said.hear)
            case "forget":
                return _forget()
            case "rename":
                return _rename(settings, said.command, said.phrase)
            case "name":
                return _name(settings, said.name.lower())
            case "headphones":
                on = said.state == "on"
                return kept(settings, f"Headphones: {said.state}.", headphones=on)
            case "use":
                return kept(settings, f"The ear is {said.engine}.", ear=said.engine)
            case "fetch":
                return _fetch(said)
            case _:
                return _tell_all(settings)
    except EarMissing as missing:
        tell(str(missing))
        return 2
    except KeyboardInterrupt:
        say("")
        return 0


def _tell_all(settings: Settings) -> int:
    """What there is to the ear at this moment."""
    taught = phrases_kept(voice_folder())
    say(f"The ear is {settings.ear}. Others: rowteller ear use {'|'.join(EARS)}")
    if taught:
        say(f"It knows your voice from {sum(taught.values())} recordings; ear forget removes them.")
    else:
        say("It does not know your voice yet: rowteller ear teach is the best that can be done for it.")
    for command, phrase in settings.renamed:
        say(f"For {command} you say “{phrase}”.")
    if settings.ear_name:
        say(f"A command counts only after “{settings.ear_name}”.")
    say("Your room: rowteller ear check · a word of your own: ear rename · a model for vosk: ear fetch")
    return 0


def _forget() -> int:
    try:
        many = forget(voice_folder())
    except OSError as error:
        tell(f"The recordings in {voice_folder()} cannot be removed ({error.strerror or error}).")
        return 2
    say(
        f"Forgotten: {many} recordings and what was learned from them."
        if many
        else "Nothing of your voice is kept here."
    )
    return 0


def _rename(settings: Settings, command: str, phrase: str | None) -> int:
    from tracker.hands_free.ear import sayings
    from tracker.hands_free.hearing.likeness import known_to_the_ear, refusal, syllables

    known = {saying.deed for saying in sayings()}
    named = next(
        (saying.deed for saying in sayings(settings) if command in (saying.deed, *saying.phrases)), command
    )
    if named not in known:
        tell(f"No spoken command is called {command}; there are {', '.join(sorted(known))}.")
        return 2
    others = tuple(pair for pair in settings.renamed if pair[0] != named)
    if phrase is None or phrase == "off":
        return kept(settings, f"For {named} the usual words count again.", renamed=others)
    phrase = " ".join(phrase.lower().split())
    if why := refusal(phrase, named, sayings(settings)):
        tell(why)
        return 2
    status = kept(
        settings, f"For {named} you say “{phrase}” from now on.", renamed=(*others, (named, phrase))
    )
    if status == 0 and syllables(phrase) < 2:
        say(
            "It has one syllable, and those drown in a kettle's noise; a longer word, or two words, keep better."
        )
    if status == 0 and not known_to_the_ear(phrase) and phrase not in phrases_kept(voice_folder()):
        say(f'The ear does not know these words yet. Say them three times: rowteller ear teach "{phrase}"')
    return status


def _name(settings: Settings, name: str) -> int:
    from tracker.ears.hearing.words import NAMES

    if name == OFF:
        return kept(settings, "Commands count without a name.", ear_name="")
    if name not in NAMES:
        tell(f"The ear can be called {', '.join(NAMES)}, but not {name}.")
        return 2
    return kept(
        settings, f"From now on a command counts only after “{name}”: “{name}, carry on”.", ear_name=name
    )


def _fetch(said: argparse.Namespace) -> int:
    folder = models_folder()
    try:
        found = offer(said.address, said.checksum)
        size = f"{found.size / 1e6:.0f} MB" if found.size else "of a size that its server does not tell"
        checked = (
            "checked against its published checksum"
            if found.checksum
            else "with no published checksum, so only its archive is checked"
        )
        say(f"{found.name} is {size}, {checked}. It goes to {folder}.")
        if not said.yes and not _agreed():
            tell("Nothing was fetched.")
            return 2
        place = fetch(found, folder, _progress)
    except NotFetched as fault:
        tell(str(fault))
        return 2
    say(
        f"\nFetched: {place}. The ear takes it from now on; rowteller ear use embedded goes back to the built-in one."
    )
    return 0


def models_folder() -> Path:
    """Where the vosk engine looks first."""
    return Path.home() / ".cache" / "vosk"


def _agreed() -> bool:
    if not sys.stdin.isatty():
        tell("Run it at a terminal, or with --yes, so that you are asked before anything is fetched.")
        return False
    sys.stdout.write("Fetch it? [y/N] ")
    sys.stdout.flush()
    return sys.stdin.readline().strip().lower() in ("y", "yes")


def _progress(done: int, size: int) -> None:
    if sys.stderr.isatty():
        share = f" of {size // 1_000_000}" if size else ""
        sys.stderr.write(f"\r{done // 1_000_000}{share} MB")


def kept(settings: Settings, sentence: str, **to: Any) -> int:
    """Settle something, and say so."""
    _, trouble = changed(settings, **to)
    if trouble:
        tell(trouble)
        return 2
    say(sentence)
    return 0
