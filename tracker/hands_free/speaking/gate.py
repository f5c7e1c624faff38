"""The gate between our own voice and the ear: when the ear is open while we speak, and what it hears then.

Comes in: what the mouth says, from its thread; blocks of the microphone, from the ear's. Goes out: the same blocks with
our own voice taken out, and whether the ear is to listen. With headphones the ear is always open. On loudspeakers it is
open between sentences, and within one after the first words, once our own voice is well taken out of what is heard;
until then it stays closed, as a room whose answer nobody knows asks for. What is heard all the same and is mostly ours
is never obeyed.
"""

import threading
from collections import deque

import numpy as np

from tracker.ears.port import RATE
from tracker.hands_free.speaking.echo import BLOCK, Echo, Samples
from tracker.mouth.port import Utterance
from tracker.records import dataclass

FIRST_WORDS_S = 0.5
"""The ear is closed for so long at the beginning of a sentence."""
TAIL_S = 0.3
"""The room goes on sounding for so long, the way through the devices included."""
OPEN_DB = 9.0
"""Our own voice must have been made so much softer before the ear opens beside it."""
KNOWN_DB = 15.0
"""From so much on the room is known well enough that the ear is open from the first word."""
FORGOTTEN_DB_S = 0.6
"""How fast that is forgotten again, in dB a second of speech: a maker who talks over it is not a room that changed."""
OVER_DB, HUSHED = 9.0, 0.1
"""What is left of a block that is softer than our own voice in it by so much is hushed: it is our own as well."""
OURS_DB = -7.0
"""What is left of a stretch, beside our own voice in it, that is still only our own: words said over it are louder."""
UNHEARD, HEARD = 4.0, 16.0
"""A room that is no louder than so many times its quietest moments while we speak does not hear us: no echo at all.
Once that is known, it takes so many times to believe otherwise."""
USUAL_SHARE = 35
"""Percent of the time we speak that is taken for its usual loudness: the maker may talk for most of the rest."""
_LEAST_SPOKEN = 60
"""Blocks of our speech after which that can be told: a second."""
ALONE_DB, SHORTEST_MS = 10.0, 220
"""Beside our own voice nothing so short is a word of the maker's; so far above it, it is not in question."""
_KEPT_BLOCKS = 800
"""How far back a stretch may lie: thirteen seconds."""
_CREEP_S = 1e-5
"""How much later a block may come than the one before it would have it: two clocks are never the same."""


@dataclass(slots=True)
class _Played:
    """A sentence as it went to the speaker."""

    began_s: float
    samples: Samples
    ends_s: float
    """When it ends, or was cut; monotonic seconds."""


class Gate:
    """One mouth and one microphone."""

    def __init__(self, *, headphones: bool) -> None:
        self._headphones = headphones
        self._lock = threading.Lock()
        self._played: deque[_Played] = deque(maxlen=8)
        self._echo = Echo()
        self._depth_db = 0.0
        self._blocks = 0
        self._zero_s = float("inf")
        self._now_s = 0.0
        self._powers: deque[tuple[float, float]] = deque(maxlen=_KEPT_BLOCKS)
        self._all: deque[float] = deque(maxlen=_KEPT_BLOCKS)
        self._while_speaking: deque[float] = deque(maxlen=_KEPT_BLOCKS)
        self._unheard = False

    # -- the mouth's thread

    def begins(self, utterance: Utterance) -> None:
        """A sentence or tone goes to the speaker now."""
        sound = utterance.sound
        samples = np.frombuffer(sound.pcm, "<i2").astype(np.float32) / np.float32(32768)
        if sound.rate != RATE and len(samples):
            at = np.arange(0, len(samples), sound.rate / RATE)
            samples = np.interp(at, np.arange(len(samples)), samples).astype(np.float32)
        with self._lock:
            self._played.append(
                _Played(utterance.began_at, samples, utterance.began_at + len(samples) / RATE)
            )

    def ends(self, now_s: float) -> None:
        """It was said, or was cut."""
        with self._lock:
            if self._played:
                last = self._played[-1]
                last.ends_s = min(last.ends_s, now_s)

    # -- the ear's thread

    def clean(self, block: bytes, came_s: float) -> bytes:
        """A block of the microphone without our voice. `came_s` is when it arrived, in monotonic seconds."""
        heard = np.frombuffer(block, "<i2").astype(np.float32) / np.float32(32768)
        length_s = len(heard) / RATE
        self._zero_s = min(self._zero_s + _CREEP_S, came_s - (self._blocks + 1) * BLOCK / RATE)
        self._now_s = self._zero_s + self._blocks * BLOCK / RATE
        self._blocks += 1
        if self._headphones or len(heard) != BLOCK:
            self._powers.append((0.0, 1.0))
            return block
        speaking = self._speaking(self._now_s) is not None
        self._look_at_the_room(float(np.mean(heard * heard)), speaking)
        if self._unheard:
            self._powers.append((0.0, 1.0))
            return block
        rest = self._echo.clean(heard, self._played_at(self._now_s))
        self._powers.append((self._echo.echo, self._echo.rest))
        if speaking:
            self._depth_db = max(self._echo.gone_db, self._depth_db - FORGOTTEN_DB_S * length_s)
        if self._echo.rest < self._echo.echo * 10 ** (-OVER_DB / 10):
            rest = rest * np.float32(HUSHED)
        return bytes((np.clip(rest, -1, 1) * 32767).astype("<i2").tobytes())

    def _look_at_the_room(self, power: float, speaking: bool) -> None:
        """Whether our own voice is heard at all."""
        self._all.append(power)
        if not speaking:
            return
        self._while_speaking.append(power)
        if self._blocks % 16 == 0 and len(self._while_speaking) >= _LEAST_SPOKEN:
            quietest = float(np.percentile(np.array(self._all), 10))
            usual = float(np.percentile(np.array(self._while_speaking), USUAL_SHARE))
            self._unheard = usual < (HEARD if self._unheard else UNHEARD) * quietest + 1e-10

    @property
    def closed(self) -> bool:
        """True while the ear is not to hear what begins now."""
        if self._headphones:
            return False
        speaking = self._speaking(self._now_s)
        if speaking is None or self._unheard:
            return False
        if self._depth_db >= KNOWN_DB:
            return False
        return self._depth_db < OPEN_DB or self._now_s - speaking.began_s < FIRST_WORDS_S

    def ours(self, start_ms: int, end_ms: int) -> bool:
        """True when a stretch of what was heard is our own voice and nobody else's.

        Milliseconds from the first block on.
        """
        if self._headphones:
            return False
        first = self._blocks - len(self._powers)
        begin = max(0, start_ms * RATE // 1000 // BLOCK - first)
        end = max(begin + 1, end_ms * RATE // 1000 // BLOCK + 1 - first)
        stretch = list(self._powers)[begin:end]
        echo = sum(power for power, _ in stretch)
        rest = sum(power for _, power in stretch)
        if echo <= 0:
            return False
        over_db = 10 * np.log10((rest + 1e-12) / echo)
        return bool(over_db < OURS_DB or over_db < ALONE_DB and end_ms - start_ms < SHORTEST_MS)

    def _speaking(self, at_s: float) -> _Played | None:
        with self._lock:
            return next(
                (one for one in reversed(self._played) if one.began_s <= at_s < one.ends_s + TAIL_S), None
            )

    def _played_at(self, at_s: float) -> Samples:
        """What went to the speaker in the block that begins then."""
        out = np.zeros(BLOCK, np.float32)
        with self._lock:
            for one in self._played:
                begin = round((at_s - one.began_s) * RATE)
                end = min(len(one.samples), round((one.ends_s - one.began_s) * RATE))
                first, last = max(0, begin), min(end, begin + BLOCK)
                if last > first:
                    out[first - begin : last - begin] += one.samples[first:last]
        return out
