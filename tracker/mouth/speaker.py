"""The real mouth: sentences are made on one thread, played on another, and nobody waits for either.

Comes in: what to say, from any thread. Goes out: sound from the speaker, and the listeners called on the
playing thread. Promises that `say` only takes a lock for microseconds, that a sentence already made starts
at once, that the next one cuts it, and that a missing voice or speaker is told once and then costs nothing.

Sound goes to the device by blocking writes of `_STEP_MS`: an idle stream then costs no processor time, and
a busy interpreter is less heard than it would be with a callback for each block.
"""

from __future__ import annotations

import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from tracker.mouth.device import RATE, Device
from tracker.mouth.port import Listeners, Manner, MouthFault, NoSpeaker, NoVoice, Output, Utterance, Voice
from tracker.mouth.sentences import in_sentences
from tracker.mouth.sound import Sound, Tone, made, resampled, silence

_STEP_MS = 10
_GAP_MS = 200
"""Between two sentences of one text, beside what the device adds: a gap an ear can hear through."""
_TRY_AGAIN_S = 30.0
"""How long a speaker that failed is left alone."""
_KEPT_BYTES = 24_000_000
"""How much speech is kept made: nine minutes of it, some three hundred sentences."""


@dataclass(frozen=True, slots=True)
class _Job:
    """One call of `say`."""

    pieces: tuple[Tone | str, ...]
    urgent: bool


def voice_for(manner: Manner) -> Voice:
    """The engine the manner asks for. Raises NoVoice."""
    if manner.engine == "natural":
        from tracker.mouth.natural import Natural

        return Natural(manner)
    from tracker.mouth.espeak import Espeak

    return Espeak(manner)


class Speaker:
    """The mouth of a machine that can be heard."""

    def __init__(
        self,
        manner: Manner | None = None,
        listeners: Listeners | None = None,
        *,
        make_voice: Callable[[Manner], Voice] = voice_for,
        open_device: Callable[[str], Output] = Device,
    ) -> None:
        self._manner = manner or Manner()
        self._listeners = listeners or Listeners()
        self._make_voice = make_voice
        self._open_device = open_device
        self._change = threading.Condition()
        # All below is changed only with `_change` held, but for what belongs to one thread alone.
        self._waiting: deque[_Job] = deque()
        self._current: _Job | None = None
        self._ahead: deque[str] = deque()
        self._kept: OrderedDict[str, Sound] = OrderedDict()
        self._kept_bytes = 0
        self._unmade: set[str] = set()
        self._cut = False
        self._closing = False
        self._threads: list[threading.Thread] = []
        self._playing: Utterance | None = None
        self._told: set[str] = set()
        # The playing thread's own.
        self._device: Output | None = None
        self._dead_until = 0.0

    def say(
        self, text: str, *, before: Tone | None = None, urgent: bool = False, after: bool = False
    ) -> None:
        pieces: tuple[Tone | str, ...] = in_sentences(text)
        self._take(_Job(pieces if before is None else (before, *pieces), urgent), after)

    def sound(self, tone: Tone, *, after: bool = False) -> None:
        self._take(_Job((tone,), urgent=False), after)

    def hush(self) -> None:
        with self._change:
            self._waiting.clear()
            self._cut = self._current is not None
            self._change.notify_all()

    def prepare(self, texts: Iterable[str]) -> None:
        sentences = dict.fromkeys(sentence for text in texts for sentence in in_sentences(text))
        with self._change:
            self._ahead = deque(sentences)
            self._begin()
            self._change.notify_all()

    def adjust(self, manner: Manner) -> None:
        with self._change:
            self._manner = manner
            self._kept.clear()
            self._kept_bytes = 0
            self._unmade.clear()
            self._change.notify_all()

    @property
    def playing(self) -> Utterance | None:
        return self._playing

    @property
    def busy(self) -> bool:
        with self._change:
            return self._current is not None or bool(self._waiting)

    def made_ahead(self, text: str) -> bool:
        """Whether every sentence of the text lies ready."""
        with self._change:
            return all(sentence in self._kept for sentence in in_sentences(text))

    def close(self) -> None:
        with self._change:
            self._closing = self._cut = True
            self._waiting.clear()
            self._change.notify_all()
        for thread in self._threads:
            if thread is not threading.current_thread():
                thread.join(timeout=2)

    def _take(self, job: _Job, after: bool) -> None:
        with self._change:
            if self._closing or not job.pieces:
                return
            if not after:
                kept = () if job.urgent else tuple(each for each in self._waiting if each.urgent)
                self._waiting = deque(kept)
                if self._current is not None and (job.urgent or not self._current.urgent):
                    self._cut = True
            self._waiting.append(job)
            self._begin()
            self._change.notify_all()

    def _begin(self) -> None:
        """Start the two threads, once. Daemons: a device that hangs must not keep the program from ending."""
        if not self._threads and not self._closing:
            self._threads = [
                threading.Thread(target=self._play_all, name="mouth", daemon=True),
                threading.Thread(target=self._make_all, name="mouth ahead", daemon=True),
            ]
            for thread in self._threads:
                thread.start()

    def _tell(self, sentence: str) -> None:
        if sentence not in self._told:
            self._told.add(sentence)
            self._listeners.on_trouble(sentence)

    # The thread that makes.

    def _make_all(self) -> None:
        for tone in Tone:  # a tenth of a second for all, which no first row's end should wait for
            made(tone, RATE, self._manner.volume)
        voice: Voice | None = None
        manner: Manner | None = None
        while True:
            with self._change:
                self._change.wait_for(lambda: self._closing or self._next_to_make() is not None)
                sentence, wanted = self._next_to_make(), self._manner
                if self._closing or sentence is None:
                    return
            if manner != wanted:
                voice, manner = self._voice(wanted), wanted
            sound: Sound | None = None
            try:
                sound = voice.make(sentence) if voice is not None else None
            except MouthFault as fault:
                self._tell(str(fault))
            with self._change:
                if wanted == self._manner:
                    self._keep(sentence, sound)
                self._change.notify_all()

    def _voice(self, manner: Manner) -> Voice | None:
        plain = Manner(speed_wpm=manner.speed_wpm, volume=manner.volume)
        for each in dict.fromkeys((manner, plain)):
            try:
                return self._make_voice(each)
            except NoVoice as fault:
                self._tell(str(fault))
        return None

    def _next_to_make(self) -> str | None:
        """What is waited for comes before what may be wanted later."""
        jobs = (*((self._current,) if self._current else ()), *self._waiting)
        for job in jobs:
            for piece in job.pieces:
                if isinstance(piece, str) and piece not in self._kept and piece not in self._unmade:
                    return piece
        while self._ahead:
            if self._ahead[0] not in self._kept and self._ahead[0] not in self._unmade:
                return self._ahead[0]
            self._ahead.popleft()
        return None

    def _keep(self, sentence: str, sound: Sound | None) -> None:
        if sound is None:
            self._unmade.add(sentence)
            return
        self._kept[sentence] = sound
        self._kept_bytes += len(sound.pcm)
        while self._kept_bytes > _KEPT_BYTES and len(self._kept) > 1:
            _, oldest = self._kept.popitem(last=False)
            self._kept_bytes -= len(oldest.pcm)

    # The thread that plays.

    def _play_all(self) -> None:
        self._open()
        while True:
            with self._change:
                self._change.wait_for(lambda: self._closing or bool(self._waiting))
                if self._closing:
                    break
                job = self._current = self._waiting.popleft()
                self._cut = False
            try:
                self._play(job)
            except NoSpeaker as fault:
                self._lose(fault)
            with self._change:
                self._current = None
        if self._device is not None:
            self._device.close()

    def _play(self, job: _Job) -> None:
        for at, piece in enumerate(job.pieces):
            device = self._open()
            sound = self._sound(piece)
            if device is None or self._cut:
                return
            if sound is None or not sound.pcm:
                continue
            if at and not isinstance(job.pieces[at - 1], Tone):
                self._feed(device, silence(_GAP_MS, device.rate))
            if not self._cut:
                heard_from = time.monotonic() + device.ahead_s
                self._utter(device, Utterance("" if isinstance(piece, Tone) else piece, sound, heard_from))

    def _sound(self, piece: Tone | str) -> Sound | None:
        """The piece's samples, waited for while they are made; None when they can't be or are not wanted."""
        rate = self._device.rate if self._device is not None else 0
        if not rate:
            return None
        if isinstance(piece, Tone):
            return made(piece, rate, self._manner.volume)
        with self._change:
            self._change.wait_for(lambda: self._cut or piece in self._kept or piece in self._unmade)
            sound = self._kept.get(piece)
            if sound is not None:
                self._kept.move_to_end(piece)
        return sound if sound is None or sound.rate == rate else resampled(sound, rate)

    def _utter(self, device: Output, utterance: Utterance) -> None:
        self._playing = utterance
        self._listeners.on_start(utterance)
        try:
            self._feed(device, utterance.sound.pcm)
            # What the device still holds is then silence: the last sample has been heard when this returns.
            self._feed(device, silence(device.held_ms, device.rate))
            if self._cut:
                device.drop()
        finally:
            self._playing = None
            self._listeners.on_end(utterance)

    def _feed(self, device: Output, pcm: bytes) -> None:
        step = len(silence(_STEP_MS, device.rate))
        for at in range(0, len(pcm), step):
            if self._cut:
                return
            device.write(pcm[at : at + step])

    def _open(self) -> Output | None:
        wanted = self._manner.device
        if self._device is not None and self._device.asked_for != wanted:
            self._device.close()
            self._device, self._dead_until = None, 0.0
        if self._device is None and time.monotonic() >= self._dead_until:
            try:
                self._device = self._open_device(wanted)
            except NoSpeaker as fault:
                self._lose(fault)
            else:
                if self._device.note:
                    self._tell(self._device.note)
        return self._device

    def _lose(self, fault: NoSpeaker) -> None:
        if self._device is not None:
            self._device.close()
        self._device = None
        self._dead_until = time.monotonic() + _TRY_AGAIN_S
        self._tell(str(fault))
