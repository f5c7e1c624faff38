"""A sitting: one piece and the devices around it. Every front end has one, and calls it on its own thread only.

What a device heard, felt or has to say of itself comes in as a value that was posted; what is to be shown goes out, and
what is to be said has gone to the mouth. A device that is missing is one sentence, once. The ear is made deaf on the
mouth's own thread, before the first sample is heard.
"""

import threading
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.ears.port import Awaiting, Ear, EarMissing, Heard, Learning, PassedOver, Settled
from tracker.hands_free.arrivals import Answer, Arrival, EarOpen, Ended, Told, Touched
from tracker.hands_free.ear import Listening, Recording, listen, made_ear, samples_of, sayings_now
from tracker.hands_free.foot import Foot, asked_by
from tracker.hands_free.hearing.kept import keep_learnt, learnt_before, taught_folder
from tracker.hands_free.settings import Settings, changed, spoken_so
from tracker.hands_free.speaking.mouth import made_mouth, tone_for
from tracker.hands_free.speaking.readback import (
    agreed,
    deed_of,
    doubted,
    guessed,
    out_of_place,
    question,
    refused,
)
from tracker.hands_free.speaking.voice import Voice
from tracker.mouth.port import Mouth
from tracker.mouth.sound import Tone
from tracker.pedal.port import PedalPress, Press
from tracker.records import replace
from tracker.run import Desk
from tracker.session.amiss.doing import awaits_number, phrases_now
from tracker.session.apply import Say, Settle, Show
from tracker.session.commands import ANSWER, BY_NAME
from tracker.session.deeds import Ask, Count, Deed, GoToRow, Listen, No, Number, Onward, Undo, Yes
from tracker.session.fading.length import Length
from tracker.session.piece.copies import more_asked
from tracker.session.seen.view import Devices

OFFER = "It hears you best once taught: rowteller ear teach."
if TYPE_CHECKING:
    from tracker.hands_free.speaking.gate import Gate

_NEARLY = "not sure enough"
"""How the ear begins its reason when words stood alone that were nearly a command."""

_ANSWERS: dict[Press, Deed] = {Press.TAP: Yes(), Press.HOLD: No()}
"""What a foot answers to a question."""
_OPENING_S = 5.0
"""How long a device that is being opened is waited for at the end."""


class Sitting:
    """A desk and its devices."""

    def __init__(
        self,
        desk: Desk,
        settings: Settings,
        post: Callable[[Arrival], None],
        *,
        quiet: bool,
        hear: Path | None = None,
        tones_only: bool = False,
    ) -> None:
        """`post` is called from device threads and must only pass the value on.

        `hear`: a WAV in the microphone's place. `tones_only`: somebody else reads the words aloud.
        """
        self.desk = desk
        desk.session = replace(
            desk.session, length=Length(settings.telling), fades=settings.fading,
            rest_usual=settings.rest_minutes, renamed=settings.renamed,
        )  # fmt: skip
        self.post = post
        self.foot = Foot(settings, post, lambda sentence: post(Told("pedal", sentence)))
        self._settings = settings
        self._hear = hear
        self.voice = Voice(settings, self._made_mouth, muted=quiet, tones_only=tones_only)
        self._passed = ""
        self._gate: Gate | None = None
        self._ear: Ear | None = None
        self._listening: Listening | None = None
        self._waking = settings.ear != "off" or hear is not None
        self._closed = False
        self._waker: threading.Thread | None = None
        self._heard = ""
        self._pending: Deed | None = None
        self._which: GoToRow | Count | None = None
        """What was asked for with a number that could not be told: the next number alone is it."""
        self._guess: GoToRow | Count | Number | None = None
        """What was heard with a number that could be another, while it waits for a yes."""
        self._unsettled: Heard | None = None
        self._stood = ""
        self._keeps = hear is None and settings.file is not None
        self._told: set[str] = set()
        self._presses: dict[int, list[bool]] = {}

    # -- beginning and ending

    def begin(self, greeting: str = "") -> None:
        """Start the devices; nothing is waited for. To be called once the first page is on the screen."""
        self.desk.journal.lay_out()
        self.voice.open()
        self.say(greeting)
        self._waker = threading.Thread(target=self._wake, name="devices", daemon=True)
        self._waker.start()

    def begin_mouth(self) -> None:
        """Start the mouth alone: the front end feeds the ear by itself."""
        self._waking = False
        self.voice.open()

    def _made_mouth(self, settings: Settings) -> Mouth:
        return made_mouth(
            settings, self._deafen, lambda sentence: self.post(Told("mouth", sentence)), lambda: self._gate
        )

    def _wake(self) -> None:
        """On a thread of its own:
        what the ear needs takes a while to load, and the pedal's route may ask the system.
        """
        if self._waking:
            try:
                self._open_ear()
                self.post(EarOpen())
            except EarMissing as missing:
                self.post(Told("ear", str(missing)))
                if self._hear is not None:
                    self.post(Ended())
        self.foot.begin()

    def _open_ear(self) -> None:
        ear, _ = made_ear("embedded" if self._settings.ear == "off" else self._settings.ear, self._settings)
        self._ear = ear
        ear.await_(self.awaiting)  # whether a group was begun or done may be asked before anything is heard
        if self._keeps and isinstance(ear, Learning):
            ear.recall(learnt_before())
        if self._hear is not None:
            listening: Listening = Recording(
                ear, samples_of(self._hear), self.post, lambda: self.post(Ended())
            )
        else:
            from tracker.hands_free.speaking.gate import Gate

            gate = Gate(headphones=self._settings.headphones)
            if self.voice.mouth is not None and (saying := self.voice.mouth.playing) is not None:
                gate.begins(saying)
            self._gate = gate
            listening = listen(
                ear, self.post, lambda why: self.post(Told("ear", why)), self._settings.microphone, gate
            )
        self._listening = listening
        if self._closed:
            listening.stop()

    def close(self) -> None:
        """Let every device go."""
        self._closed = True
        if self._waker is not None:
            # A device that is just being opened writes to standard error, and must not do so after the screen is gone.
            self._waker.join(timeout=_OPENING_S)
        self.foot.close()
        if self._listening is not None:
            self._listening.stop()
        if self._keeps and isinstance(self._ear, Learning):
            keep_learnt(self._ear.learnt())
        self.voice.close()

    # -- what is to be seen

    @property
    def devices(self) -> Devices:
        """What ear and pedal say of themselves."""
        if self._listening is not None:
            ear = "listening" if self.desk.session.hearing else "pausing: say listen"
        else:
            ear = "the ear wakes" if self._waking else "keys only"
        return Devices(ear, self.foot.state, self._heard, self._passed)

    @property
    def awaiting(self) -> Awaiting:
        """What the ear is to expect."""
        session = self.desk.session
        if session.asked or self._pending:
            return Awaiting.ANSWER
        if awaits_number(session) or self._which is not None:
            return Awaiting.NUMBER
        waits = session.amiss.told_where or more_asked(session)
        return Awaiting.ANSWER if waits else Awaiting.COMMAND

    # -- what comes in

    def do(self, deed: Deed, at_ms: int) -> Answer:
        """Do a deed: it is on the disk before any of it is said."""
        if isinstance(deed, Ask) and deed.about == "ear":
            return self._answered(Answer(deed, (Say(self._heard_said()),)))
        if self._pending is not None:
            pending, self._pending = self._pending, None
            guess, self._guess = self._guess, None
            if isinstance(deed, Yes):
                deed = agreed(self.desk.session, pending) if guess is not None else pending
            elif isinstance(deed, No) and guess is not None:
                return self._which_number(guess, deed)
            elif isinstance(deed, No):
                return self._answered(Answer(deed, (Say(refused(pending)),)))
        if isinstance(deed, Undo) and self._stood and self._ear is not None:
            self._ear.taken_back(self._stood)
        self._stood = ""
        return self._answered(Answer(deed, self.desk.do(deed, at_ms)))

    def take(self, arrival: Arrival, at_ms: int) -> Answer:
        """What came of something a device posted."""
        match arrival:
            case Heard(settles_ms=None):
                return self._take_heard(arrival, at_ms)
            case Heard():
                self._unsettled = arrival
                return Answer(None)
            case Settled(stands=stands):
                heard, self._unsettled = self._unsettled, None
                return self._take_heard(heard, at_ms) if heard and stands else Answer(None)
            case PassedOver(why=why):
                return self._take_passed_over(why)
            case PedalPress():
                return self._take_press(arrival, at_ms)
            case Touched(command=ANSWER.name, number=number):
                asked = awaits_number(self.desk.session)
                return self.do(ANSWER.make(number), at_ms) if asked else Answer(None)
            case Touched(command=name):
                command = BY_NAME.get(name)
                return Answer(None) if command is None else self.do(command.make(0), at_ms)
            case Told():
                return self._take_told(arrival)
            case EarOpen():
                self._waking = False
                return self._offer()
            case Ended():
                return Answer(None)

    def say(self, text: str, before: Tone | None = None) -> None:
        """Say something now, in the place of what is being said."""
        self.voice.say(text, before)

    def prepare(self) -> None:
        """Have what is likely to be said next made ahead.

        Costs a few milliseconds: to be called when the page is drawn.
        """
        self.desk.journal.remember()
        self.voice.prepare(self.desk.session)

    # -- within

    def _take_heard(self, heard: Heard, at_ms: int) -> Answer:
        self._heard, self._passed = heard.words, ""
        deed = dict(phrases_now(self.desk.session)).get(heard.deed) or deed_of(heard)
        if self._which is not None:
            if isinstance(deed, Number):
                deed = replace(self._which, number=deed.number)
            self._expect(None)
        if deed is None or not self.desk.session.hearing and not isinstance(deed, Listen):
            return Answer(None)
        if out_of_place(self.desk.session, deed, self._pending is not None):
            return Answer(None)
        if asks := question(self.desk.session, deed):
            self._pending, self._guess = deed, None
            return self._answered(Answer(None, (Say(asks),)))
        answer = self.do(deed, at_ms)
        if not isinstance(deed, Undo):
            self._stood = heard.deed
        return answer

    def _take_passed_over(self, why: str) -> Answer:
        if not self.desk.session.hearing:
            return Answer(None)
        if why.startswith("a number, but which"):
            return self._take_guess(why)
        if why.startswith(_NEARLY):
            # Someone spoke to us: a tone says that it was heard and not taken.
            self._passed = why
            if self.voice.mouth is not None and not self.voice.mouth.busy:
                self.say("", before=Tone.NOT_UNDERSTOOD)
            return Answer(None, (Show(()),))
        return Answer(None)

    def _take_guess(self, why: str) -> Answer:
        """A number that could be another one: the likeliest is read back, digits apart, for a yes."""
        self._heard = self._passed = ""
        guess = guessed(why)
        if isinstance(guess, Number) and self._which is not None:
            guess = replace(self._which, number=guess.number)
        asks = doubted(self.desk.session, guess) if guess is not None else ""
        if not asks:
            return self._which_number(guess)
        self._which = None
        self._pending = self._guess = guess
        return self._answered(Answer(None, (Say(asks),)))

    def _which_number(self, guess: GoToRow | Count | Number | None, deed: Deed | None = None) -> Answer:
        """Ask for the number alone."""
        self._expect(None if isinstance(guess, Number) else guess)
        self.say("Which number?", before=Tone.NOT_UNDERSTOOD)
        return Answer(deed, (Say("Which number?"),))

    def _expect(self, which: GoToRow | Count | None) -> None:
        """A number alone is now what was asked for with one that could not be told; or, with None, is nothing again."""
        self._which = which
        if self._ear is not None:
            self._ear.await_(self.awaiting)

    def _take_press(self, press: PedalPress, at_ms: int) -> Answer:
        before = self._presses.setdefault(press.switch, [])
        taken_back = False
        for _ in press.takes_back:
            if before and before.pop():
                self.desk.do(Undo(), at_ms)
                taken_back = True
        deed = asked_by(press)
        session = self.desk.session
        if (session.asked or self._pending or more_asked(session)) and press.press in _ANSWERS:
            deed = _ANSWERS[press.press]
        if deed is None:
            return Answer(Undo() if taken_back else None)
        self._which = None
        past = self.desk.session.past
        answer = self.do(deed, at_ms)
        before.append(self.desk.session.past is not past)
        if press.press is Press.HOLD:
            before.clear()
        del before[:-8]
        return answer

    def _take_told(self, told: Told) -> Answer:
        if told.of == "ear":
            self._ear = self._listening = None
            self._waking = False
        if told.sentence in self._told:
            return Answer(None)
        self._told.add(told.sentence)
        return Answer(None, (Show((told.sentence,)),))

    def _heard_said(self) -> str:
        """What the ear, and the pedal, have to say of themselves."""
        devices = self.devices
        heard = f"I heard “{devices.heard}” last." if devices.heard else "I have heard no command yet."
        passed = f" After it: {devices.passed}." if devices.passed else ""
        pedal = f" {_capital(devices.pedal)}." if devices.pedal else ""
        return f"{_capital(devices.ear)}. {heard}{passed}{pedal}"

    def _offer(self) -> Answer:
        """Tell once, ever, that the ear can learn the maker's voice."""
        if self._settings.offered or self._hear is not None or taught_folder() is not None:
            return Answer(None)
        self._settings, _ = changed(self._settings, offered=True)
        self.post(Told("offer", OFFER))
        return Answer(None)

    def _answered(self, answer: Answer) -> Answer:
        for effect in answer.settled:
            answer = self._settle(effect, answer)
        session = self.desk.session
        tone = tone_for(session, bool(answer.aloud)) if isinstance(answer.deed, Onward) else None
        if answer.effects:
            self.say(answer.aloud, tone)
        if self._ear is not None:
            self._ear.await_(self.awaiting, sayings_now(session))
        return answer

    def _settle(self, effect: Settle, answer: Answer) -> Answer:
        """Keep what the maker settled, and let it hold; what can't be kept or is at its limit is said."""
        if effect.what == "manner":
            wish = spoken_so(self._settings, effect.to)
            if not wish:
                return replace(answer, effects=(Say("That is as far as it goes."),))
        else:
            wish = {"telling": effect.to}
        self._settings, trouble = changed(self._settings, **wish)
        self.voice.settle(self._settings, wish)
        return replace(answer, effects=(*answer.effects, Show((trouble,)))) if trouble else answer

    def _deafen(self, seconds: float) -> None:
        """Called on the mouth's thread."""
        if self._listening is not None:
            self._listening.deaf_for(seconds)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
