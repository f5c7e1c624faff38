"""The guided start: do we hear each other, which key is the pedal's, which hand holds the hook. All can be skipped.

Comes in: keys, what the devices posted, the time. Goes out: a page, and settings that are kept at once. Which step
it is, and what it says, stands in one table.
"""

import time

from tracker.ears.port import Heard, PassedOver
from tracker.hands_free.arrivals import EarOpen, Told
from tracker.hands_free.settings import Settings, changed
from tracker.pedal import learn
from tracker.pedal.port import Route
from tracker.records import dataclass
from tracker.screen.before.trial import Trial
from tracker.screen.drawing.letters import SIZES, big
from tracker.screen.drawing.words import Line, Run, filled, lines_of, shown, width_of

_AGREED = ("next", "yes")
"""Commands that answer the first question."""
_ON = ("space", "enter")
_REFUSED = {"ctrl+z": "suspends the program", "tab": "moves between windows' parts"}
_SOUND = "Can you hear me? Say carry on."


@dataclass(frozen=True, slots=True)
class Step:
    """One question."""

    name: str
    asked: str
    """In few words, drawn large."""
    told: str
    keys: tuple[tuple[str, str], ...]


STEPS = (
    Step(
        "hear",
        "Can you hear me?",
        "If not: is the sound up, and does it come from where you listen?",
        (("space", "yes, go on"), ("r", "say it again"), ("s", "stay silent"), ("escape", "skip all")),
    ),
    Step(
        "pedal",
        "Press your pedal",
        "Once. Whatever key it sends is “next” from now on; twice quickly goes back, held says it again. "
        "Without a pedal press space: that is “next”, too.",
        (("space", "no pedal"), ("escape", "skip all")),
    ),
    Step(
        "hand",
        "Which hand?",
        "Which hand holds your hook? Drawings, and every left and right, follow it.",
        (("r", "the right"), ("l", "the left"), ("space", "as it is"), ("escape", "skip all")),
    ),
)
CARE = "Rest your hands and look up now and then; where it hurts or tingles, stop."


class Guide:
    """The steps, one after another."""

    def __init__(self, settings: Settings, trial: Trial, *, quiet: bool) -> None:
        """`trial`: the devices, which are somebody else's to begin and to close."""
        self.settings = settings
        self.over = False
        """True when all is asked, or was passed over."""
        self._at = 0
        self._note = ""
        self._troubles: dict[str, str] = {}
        """What each device that is missing said of itself, while that matters."""
        self._ear = "keys only" if settings.ear == "off" else "the ear wakes"
        self._quiet = quiet or not settings.mouth
        self._lesson: learn.Lesson | None = None
        self._trial = trial
        trial.say(_SOUND)

    # -- what comes in

    def pressed(self, key: str) -> None:
        """Do what a key asks for."""
        step = STEPS[self._at]
        if key == "escape":
            self._end()
        elif step.name == "pedal" and key not in _ON:
            self._hear_pedal(key)
        elif key in _ON:
            self._go_on("" if step.name == "hear" else self._note)
        elif step.name == "hear" and key == "r":
            self._trial.say(_SOUND)
        elif step.name == "hear" and key == "s":
            self._trial.silence()
            self._settle("Nothing is said aloud from now on.", mouth=False)
        elif step.name == "hand" and key in ("r", "l"):
            self._settle("", left_handed=key == "l")

    def arrived(self, what: object) -> None:
        """Something heard, or a device that is missing."""
        match what:
            case Heard(deed=deed, words=words):
                self._note = f"I heard “{words}”."
                if deed in _AGREED and STEPS[self._at].name == "hear":
                    self._go_on(self._note)
            case PassedOver() if STEPS[self._at].name == "hear":
                self._note = "I heard something, but no command: say “carry on” alone, between two silences."
            case EarOpen():
                self._ear = "listening"
            case Told(of=of, sentence=sentence) if STEPS[self._at].name == "hear":
                self._troubles[of] = sentence
                if of == "ear":
                    self._ear = "keys only"
            case _:
                pass

    def tick(self) -> bool:
        """A press has had its time when nothing more of it came."""
        if self._lesson is None:
            return False
        found = learn.outcome(self._lesson, _now_ms())
        if found is None:
            return False
        self._lesson = None
        if isinstance(found, learn.NotLearned):
            self._note = found.sentence
        else:
            self._settle(learn.told(found), pedal=learn.with_key(self.settings.pedal, found))
        return True

    # -- within

    def _hear_pedal(self, key: str) -> None:
        now = _now_ms()
        lesson = self._lesson or learn.Lesson(1, now, _REFUSED, self.settings.pedal)
        self._lesson = learn.hear(lesson, Route.TERMINAL, key, now)

    def _settle(self, note: str, **to: object) -> None:
        self.settings, trouble = changed(self.settings, **to)
        self._go_on(trouble or note)

    def _go_on(self, note: str) -> None:
        self._note = note
        self._lesson = None
        if STEPS[self._at].name == "hear":
            self._troubles.clear()
        if self._at + 1 == len(STEPS):
            self._end()
        else:
            self._at += 1

    def _end(self) -> None:
        self.settings, trouble = changed(self.settings, greeted=True)
        self._note = trouble or self._note
        self.over = True

    # -- what is to be seen

    def page(self, width: int, height: int) -> tuple[Line, ...]:
        """The question large, what there is to do under it, the keys at the foot."""
        step = STEPS[self._at]
        head = filled(((" A guided start", "title"),), width, "head")
        second = filled(((f" {self._at + 1} of {len(STEPS)}", "row"), (self._known(), "side")), width, "head")
        blank: Line = ((" " * width, "ground"),)
        inside = max(1, width - 4)
        room = height - 5
        told = step.told if step.name != "hear" else self._asked_to_hear()
        words = lines_of(told, inside, max(1, room - SIZES[-1].rows))
        notes = (*self._troubles.values(), self._note)
        note = tuple(line for each in notes if each for line in lines_of(shown(each), inside, 2))
        large = big(step.asked, inside, room - len(words) - len(note) - 3) or lines_of(step.asked, inside, 2)
        body: list[Line] = [
            blank,
            *(filled((("  ", "ground"), (line, "big")), width) for line in large),
            blank,
        ]
        body += [filled((("  ", "ground"), (line, "said")), width) for line in words]
        body += [blank] * max(0, height - 4 - len(body) - len(note) - 1)
        body += [filled((("  ", "ground"), (line, "hand")), width) for line in note]
        body += [blank] * max(0, height - 4 - len(body))
        state = filled(((f" {self._ear if step.name == 'hear' else ''}", "foot"),), width, "foot")
        return (head, second, *body[: height - 4], state, keys_line(step.keys, width))[:height]

    def _asked_to_hear(self) -> str:
        how = "press space" if self._ear == "keys only" else "say “carry on”, or press space"
        if self._quiet:
            return f"Nothing is said aloud, as you settled it. To go on, {how}."
        return f"I have just said so aloud. If you hear it, {how}. {STEPS[0].told}"

    def _known(self) -> str:
        """What is settled already, of what is asked."""
        name = STEPS[self._at].name
        if name == "pedal" and self.settings.pedal:
            return f" · it is {self.settings.pedal[0].terminal or 'known'} so far"
        if name == "hand":
            return f" · so far the {'left' if self.settings.left_handed else 'right'}"
        return ""


def keys_line(keys: tuple[tuple[str, str], ...], width: int) -> Line:
    """As many keys as there is room for, the last one always."""
    *others, last = keys
    runs: list[Run] = [(" ", "foot")]
    room = width - width_of(last[0]) - width_of(last[1]) - 3
    used = 1
    for key, words in others:
        wide = width_of(key) + width_of(words) + 4
        if used + wide > room:
            break
        runs += [(key, "key"), (f" {words}   ", "foot")]
        used += wide
    return filled((*runs, (last[0], "key"), (f" {last[1]}", "foot")), width, "foot")


def _now_ms() -> float:
    return time.monotonic() * 1000
