"""The mouth of a sitting: opened with what the maker settled, and the tone that goes with a step."""

import time
from collections.abc import Callable
from typing import TYPE_CHECKING

from tracker.hands_free.ear import AUDIO
from tracker.hands_free.settings import Settings
from tracker.mouth.port import Listeners, Mouth, Utterance
from tracker.mouth.sound import Tone
from tracker.session.fading.edges import Edge, edge_at
from tracker.session.state import Session

if TYPE_CHECKING:
    from tracker.hands_free.speaking.gate import Gate

SPOKEN_ON = 0.3
"""Seconds the ear stays deaf beyond a sentence's own length; the mouth's end opens it sooner."""
_TONES = {Edge.ROW_END: Tone.ROW_END, Edge.REPEAT: Tone.REPEAT_EDGE, Edge.TALLY: Tone.COUNT}


def tone_for(session: Session, has_words: bool) -> Tone | None:
    """The tone of the step to where a session is; a tick where nothing else is heard of it."""
    edge = edge_at(session.program, session.place, session.stride)
    return _TONES[edge] if edge is not None else None if has_words else Tone.STEP


def made_mouth(
    settings: Settings, deafen: Callable[[float], None], tell: Callable[[str], None],
    gate: "Callable[[], Gate | None]" = lambda: None,
) -> Mouth:  # fmt: skip
    """A mouth that tells the gate what it says, or where there is none makes the ear deaf, before the first sample."""
    from tracker.mouth.device import Device
    from tracker.mouth.speaker import Speaker

    def opened(name: str) -> Device:
        with AUDIO:
            return Device(name)

    def begins(utterance: Utterance) -> None:
        if (found := gate()) is not None:
            found.begins(utterance)
        else:
            deafen(utterance.sound.seconds + SPOKEN_ON)

    def ends(_: Utterance) -> None:
        if (found := gate()) is not None:
            found.ends(time.monotonic())
        else:
            deafen(0)

    return Speaker(settings.manner, Listeners(begins, ends, tell), open_device=opened)
