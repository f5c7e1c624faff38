"""Teaching the ear the maker's voice, at a terminal or from a recording: asked for, heard, checked, kept, and its gain.

Each phrase is kept as soon as it is done, so that a lesson that ends early has lost nothing. Raises EarMissing.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

from tracker.ears.embedded import EmbeddedEar
from tracker.ears.hearing.words import ONES, TENS
from tracker.ears.port import RATE
from tracker.hands_free.ear import sayings
from tracker.hands_free.hearing.kept import keep_takes, taught_folder, voice_folder
from tracker.hands_free.hearing.lesson import TAKES, gain, odd_take
from tracker.hands_free.hearing.sounds import Utterance, room, utterances
from tracker.hands_free.settings import Settings
from tracker.session.commands import COMMANDS

SILENCE_S = 20.0
"""Nobody speaks for so long: the lesson is over."""
TRIES = 3
"""So often a phrase whose recordings disagree is asked for again."""
NUMBERS = (*ONES, *TENS)


def phrases_to_teach(
    settings: Settings, asked: tuple[str, ...] = (), numbers: bool = False
) -> tuple[str, ...]:
    """One phrase for each command without a number, the one that is shown for it; or those asked for."""
    if asked:
        return tuple(" ".join(phrase.lower().split()) for phrase in asked)
    renamed = dict(settings.renamed)
    shown = tuple(
        renamed.get(command.name) or command.phrases[0]
        for command in COMMANDS
        if (command.spoken or command.name in renamed) and "{n}" not in command.phrases[0]
    )
    return (*shown, *(NUMBERS if numbers else ()))


def teach(settings: Settings, asked: tuple[str, ...], numbers: bool, hear: Path | None) -> int:
    """Hold a lesson; 2 when nothing was learned."""
    from tracker.output import say, tell

    ear = EmbeddedEar(sayings(settings))
    phrases = phrases_to_teach(settings, asked, numbers)
    strange = [phrase for phrase in phrases if ear.meaning(phrase) is None]
    if strange:
        tell(f'“{strange[0]}” is in no command. First: rowteller ear rename COMMAND "{strange[0]}"')
        return 2
    folder = voice_folder()
    say(
        "Say each one as at your work, with a breath between. It stays on this machine; ear forget removes it."
    )
    learned: dict[str, list[bytes]] = {}
    with _voice(settings, hear) as (speak, speaking), room(hear, settings.microphone) as blocks:
        heard = utterances(blocks, SILENCE_S, speaking)
        for number, phrase in enumerate(phrases, 1):
            times = 1 if phrase in NUMBERS else TAKES
            often = "" if times == 1 else ", three times"
            say(f"{number} of {len(phrases)}: “{phrase}”{often}")
            speak(f"{phrase}{often}.")
            takes = _takes(ear, heard, times, say)
            if not takes:
                say("I hear nothing more. What was learned is kept.")
                break
            learned[phrase] = takes
            try:
                keep_takes(folder, phrase, takes)
            except OSError as error:
                tell(f"The recordings cannot be kept in {folder} ({error.strerror or error}).")
                return 2
    if not learned:
        return 2
    _tell_gain(settings, learned, say)
    return 0


def _takes(
    ear: EmbeddedEar, heard: Iterator[Utterance | None], times: int, say: Callable[[str], object]
) -> list[bytes]:
    """So many recordings that agree; none when nobody speaks any more."""
    takes: list[bytes] = []
    tries = 0
    for utterance in heard:
        if utterance is None:
            return []
        if utterance.fault:
            say(f"   {utterance.fault}")
            continue
        takes.append(utterance.samples)
        say(f"   {len(takes)}")
        if len(takes) < times:
            continue
        odd = odd_take(ear, takes) if times > 1 else None
        if odd is None or tries >= TRIES:
            return takes
        tries += 1
        say(f"   The {('first', 'second', 'third')[odd]} is unlike the others. Once more, please.")
        del takes[odd]
    return []


def _tell_gain(settings: Settings, learned: dict[str, list[bytes]], say: Callable[[str], object]) -> None:
    """What the lesson was worth, on the maker's own recordings."""
    found = gain(sayings(settings), learned)
    if not found.recordings:
        say(f"Kept: {len(learned)} words.")
        return
    say(f"Of your {found.recordings} recordings, each tried on an ear that had not heard it:")
    say(f"   as it came    {found.came} heard right, {found.came_in_noise} beside a kettle")
    say(f"   knowing you   {found.taught} heard right, {found.taught_in_noise} beside a kettle")


class _voice:  # noqa: N801 - used as a context
    """The mouth, for a maker who does not look: what is to be said is said aloud, and is not taken for the maker."""

    def __init__(self, settings: Settings, hear: Path | None) -> None:
        self._settings = settings if settings.mouth and hear is None else None

    def __enter__(self) -> tuple[Callable[[str], None], Callable[[], bool]]:
        if self._settings is None:
            return (lambda words: None), (lambda: False)
        import time

        from tracker.mouth.speaker import Speaker

        self._mouth = Speaker(self._settings.manner)
        until = [0.0]

        def passing() -> bool:
            if self._mouth.busy:
                until[0] = time.monotonic() + 0.4
            return time.monotonic() < until[0]

        return self._mouth.say, passing

    def __exit__(self, *_: object) -> None:
        if self._settings is not None:
            self._mouth.close()


__all__ = ["RATE", "phrases_to_teach", "taught_folder", "teach"]
