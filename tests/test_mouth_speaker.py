"""The mouth's order of speaking, with a voice and a speaker that do exactly what the test lets them do."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator

import pytest

from tracker.mouth import speaker as speaker_module
from tracker.mouth.port import Listeners, Manner, NoSpeaker, NoVoice, Utterance
from tracker.mouth.silent import Said, Silent
from tracker.mouth.sound import Sound, Tone
from tracker.mouth.speaker import Speaker

SOON_S = 10
"""How long a test waits for a thread before it calls it stuck; a run that works waits for next to nothing."""


class Deck:
    """A speaker that takes samples only while the test lets it."""

    def __init__(self, asked_for: str = "") -> None:
        self.asked_for = asked_for
        self.note = ""
        self.rate = 22_050
        self.held_ms = 1.0
        self.dropped = 0
        self.closed = False
        self.fails = False
        self.heard = bytearray()
        self.runs = threading.Event()
        self.runs.set()

    def write(self, pcm: bytes) -> None:
        assert self.runs.wait(SOON_S), "the deck was never let run"
        if self.fails:
            raise NoSpeaker("The speaker went away.")
        self.heard += pcm

    def drop(self) -> None:
        self.dropped += 1

    def close(self) -> None:
        self.closed = True


class Reader:
    """A voice that makes a tenth of a second for each sentence, and keeps the order in which it was asked."""

    def __init__(self, manner: Manner) -> None:
        self.manner = manner
        self.asked: list[str] = []
        self.may = threading.Event()
        self.may.set()

    def make(self, sentence: str) -> Sound:
        assert self.may.wait(SOON_S), "the voice was never let speak"
        self.asked.append(sentence)
        return Sound(b"\1\0" * 2_205, 22_050)


class Bench:
    """A mouth on a deck, with what its listeners heard."""

    def __init__(
        self,
        voice: Callable[[Manner], Reader] | None = None,
        device: Callable[[str], Deck] | None = None,
    ) -> None:
        self.deck = Deck()
        self.reader = Reader(Manner())
        self.told: list[str] = []
        self.events: list[tuple[str, str]] = []
        self._changed = threading.Condition()
        self.mouth = Speaker(
            Manner(),
            Listeners(self._note("start"), self._note("end"), self.told.append),
            make_voice=voice or (lambda manner: self.reader),
            open_device=device or (lambda name: self.deck),  # type: ignore[arg-type,return-value]
        )

    def _note(self, what: str) -> Callable[[Utterance], None]:
        def noted(utterance: Utterance) -> None:
            with self._changed:
                self.events.append((what, utterance.text))
                self._changed.notify_all()

        return noted

    def until(self, *event: str) -> None:
        """Wait until this has been heard."""
        with self._changed:
            assert self._changed.wait_for(lambda: event in self.events, SOON_S), (
                f"no {event} in {self.events}"
            )

    def until_quiet(self) -> None:
        for _ in range(SOON_S * 100):
            if not self.mouth.busy:
                return
            threading.Event().wait(0.01)
        raise AssertionError("the mouth never came to an end")

    def until_ready(self, text: str) -> None:
        for _ in range(SOON_S * 100):
            if self.mouth.made_ahead(text):
                return
            threading.Event().wait(0.01)
        raise AssertionError(f"{text} was never made")


@pytest.fixture
def bench() -> Iterator[Bench]:
    bench = Bench()
    yield bench
    bench.deck.runs.set()
    bench.reader.may.set()
    bench.mouth.close()


def test_a_text_is_heard_sentence_by_sentence(bench: Bench) -> None:
    """An ear can open between the sentences of one text."""
    bench.mouth.say("Last one. Then eight to the end.")
    bench.until("end", "Then eight to the end.")
    assert bench.events == [
        ("start", "Last one."),
        ("end", "Last one."),
        ("start", "Then eight to the end."),
        ("end", "Then eight to the end."),
    ]


def test_the_next_sentence_cuts_the_one_before(bench: Bench) -> None:
    """The maker is faster than the mouth: what is no longer true isn't finished."""
    bench.deck.runs.clear()
    bench.mouth.say("Window: chain one, skip one. Four of these.")
    bench.until("start", "Window: chain one, skip one.")
    bench.mouth.say("Second.")
    bench.deck.runs.set()
    bench.until("end", "Second.")
    assert ("start", "Four of these.") not in bench.events
    assert bench.events.index(("end", "Window: chain one, skip one.")) < bench.events.index(
        ("start", "Second.")
    )
    assert bench.deck.dropped == 1


def test_what_waits_is_dropped_with_it(bench: Bench) -> None:
    """Of three steps in a breath only the last is told."""
    bench.deck.runs.clear()
    bench.mouth.say("First.")
    bench.until("start", "First.")
    bench.mouth.say("Second.")
    bench.mouth.say("Third.")
    bench.deck.runs.set()
    bench.until("end", "Third.")
    assert ("start", "Second.") not in bench.events


def test_an_urgent_sentence_is_heard_to_its_end(bench: Bench) -> None:
    """A warning isn't lost because the maker said the word for going on."""
    bench.deck.runs.clear()
    bench.mouth.say("Thirty-one. Don't turn.", urgent=True)
    bench.until("start", "Thirty-one.")
    bench.mouth.say("Second.")
    bench.deck.runs.set()
    bench.until("end", "Second.")
    said = [text for what, text in bench.events if what == "start"]
    assert said == ["Thirty-one.", "Don't turn.", "Second."]
    assert bench.deck.dropped == 0


def test_an_urgent_sentence_cuts_another_urgent_one(bench: Bench) -> None:
    """The later fault is the one that counts."""
    bench.deck.runs.clear()
    bench.mouth.say("Thirty-one. Don't turn.", urgent=True)
    bench.until("start", "Thirty-one.")
    bench.mouth.say("Thirty.", urgent=True)
    bench.deck.runs.set()
    bench.until("end", "Thirty.")
    assert ("start", "Don't turn.") not in bench.events


def test_an_urgent_sentence_still_waiting_is_not_dropped(bench: Bench) -> None:
    """It waits behind another urgent one, and an everyday sentence goes behind both."""
    bench.deck.runs.clear()
    bench.mouth.say("Thirty-one.", urgent=True)
    bench.until("start", "Thirty-one.")
    bench.mouth.say("Feel under your hook.", urgent=True, after=True)
    bench.mouth.say("Second.")
    bench.mouth.say("Third.")
    bench.deck.runs.set()
    bench.until("end", "Third.")
    said = [text for what, text in bench.events if what == "start"]
    assert said == ["Thirty-one.", "Feel under your hook.", "Third."]


def test_a_sentence_for_afterwards_waits_its_turn(bench: Bench) -> None:
    """A cue follows the group it belongs to."""
    bench.deck.runs.clear()
    bench.mouth.say("Second.")
    bench.until("start", "Second.")
    bench.mouth.say("Then eight to the end.", after=True)
    bench.deck.runs.set()
    bench.until("end", "Then eight to the end.")
    assert bench.deck.dropped == 0


def test_hush_cuts_and_forgets(bench: Bench) -> None:
    """Silence at once, whatever waited."""
    bench.deck.runs.clear()
    bench.mouth.say("Thirty-one. Don't turn.", urgent=True)
    bench.until("start", "Thirty-one.")
    bench.mouth.say("Second.", after=True)
    bench.mouth.hush()
    bench.deck.runs.set()
    bench.until("end", "Thirty-one.")
    bench.mouth.say("Third.")
    bench.until("end", "Third.")
    assert [text for what, text in bench.events if what == "start"] == ["Thirty-one.", "Third."]


def test_saying_never_waits_for_the_voice_or_the_speaker(bench: Bench) -> None:
    """With both of them stuck, a hundred steps are taken all the same."""
    bench.deck.runs.clear()
    bench.reader.may.clear()
    for number in range(100):
        bench.mouth.say(f"Stitch {number}.")
        bench.mouth.prepare([f"Stitch {number + 1}."])
    bench.mouth.hush()
    assert bench.events == []


def test_sentences_are_made_ahead_in_order_and_once(bench: Bench) -> None:
    """What was made is kept: the same words again cost nothing."""
    bench.mouth.prepare(["Second.", "Last one. Then eight to the end.", "Second."])
    bench.until_ready("Last one. Then eight to the end.")
    bench.mouth.say("Second.")
    bench.until("end", "Second.")
    bench.mouth.prepare(["Second."])
    bench.until_ready("Second.")
    assert bench.reader.asked == ["Second.", "Last one.", "Then eight to the end."]


def test_only_so_much_speech_is_kept(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    """A long pattern doesn't fill the machine: what was not said for longest is made anew."""
    monkeypatch.setattr(speaker_module, "_KEPT_BYTES", 3 * 4_410)
    for text in ("First.", "Second.", "Third."):
        bench.mouth.say(text, after=True)
    bench.mouth.say("First.", after=True)
    bench.mouth.say("Fourth.", after=True)
    bench.until("end", "Fourth.")
    assert bench.mouth.made_ahead("First.")
    assert not bench.mouth.made_ahead("Second.")


def test_what_is_waited_for_is_made_before_what_may_be_wanted(bench: Bench) -> None:
    """The maker went another way than was foreseen."""
    bench.reader.may.clear()
    bench.mouth.prepare([f"Ahead {number}." for number in range(9)])
    bench.mouth.say("Now.")
    bench.reader.may.set()
    bench.until("end", "Now.")
    assert bench.reader.asked.index("Now.") <= 1


def test_a_new_wish_ahead_replaces_the_last(bench: Bench) -> None:
    """Nothing is made for a row that was left."""
    bench.reader.may.clear()
    bench.mouth.prepare([f"Old {number}." for number in range(9)])
    bench.mouth.prepare(["New."])
    bench.reader.may.set()
    bench.until_ready("New.")
    assert len([each for each in bench.reader.asked if each.startswith("Old")]) <= 1


def test_the_mouth_knows_the_samples_it_plays(bench: Bench) -> None:
    """An ear can tell them from a voice in the room."""
    bench.deck.runs.clear()
    bench.mouth.say("Second.")
    bench.until("start", "Second.")
    playing = bench.mouth.playing
    assert playing is not None
    assert playing.text == "Second."
    bench.deck.runs.set()
    bench.until("end", "Second.")
    assert bytes(bench.deck.heard).startswith(playing.sound.pcm)
    assert bench.mouth.playing is None


def test_listeners_are_called_on_the_mouths_own_thread() -> None:
    """An ear is made deaf before the first sample, with no loop in between."""
    threads: list[str] = []
    done = threading.Event()
    deck = Deck()

    def started(_: Utterance) -> None:
        threads.append(threading.current_thread().name)
        assert not deck.heard

    mouth = Speaker(
        listeners=Listeners(started, lambda _: done.set()),
        make_voice=Reader,
        open_device=lambda name: deck,  # type: ignore[arg-type,return-value]
    )
    mouth.say("Second.")
    assert done.wait(SOON_S)
    mouth.close()
    assert threads == ["mouth"]


def test_a_tone_comes_before_its_words(bench: Bench) -> None:
    """The row's end is heard before what follows it."""
    bench.mouth.say("Count, then turn.", before=Tone.ROW_END)
    bench.until("end", "Count, then turn.")
    assert [text for what, text in bench.events if what == "start"] == ["", "Count, then turn."]
    bench.mouth.sound(Tone.NOT_UNDERSTOOD)
    bench.mouth.say("Again?", after=True)
    bench.until("end", "Again?")
    assert [text for what, text in bench.events if what == "start"][2:] == ["", "Again?"]


def test_another_manner_speaks_from_the_next_sentence_on() -> None:
    """What was made in the old manner isn't used again."""
    readers: list[Reader] = []

    def reader(manner: Manner) -> Reader:
        readers.append(Reader(manner))
        return readers[-1]

    bench = Bench(voice=reader)
    bench.mouth.say("Second.")
    bench.until("end", "Second.")
    bench.mouth.adjust(Manner(accent="en-gb", speed_wpm=120))
    bench.mouth.say("Second.")
    bench.mouth.say("Third.", after=True)
    bench.until("end", "Third.")
    bench.mouth.close()
    assert [each.manner.accent for each in readers] == ["en-us", "en-gb"]
    assert readers[1].asked == ["Second.", "Third."]


def test_another_device_is_opened_and_the_first_let_go() -> None:
    """Headphones are plugged in."""
    decks: list[Deck] = []

    def deck(name: str) -> Deck:
        decks.append(Deck(name))
        return decks[-1]

    bench = Bench(device=deck)
    bench.mouth.say("Second.")
    bench.until("end", "Second.")
    bench.mouth.adjust(Manner(device="head"))
    bench.mouth.say("Third.")
    bench.until("end", "Third.")
    bench.mouth.close()
    assert [each.asked_for for each in decks] == ["", "head"]
    assert all(each.closed for each in decks)


def test_a_missing_voice_is_told_once_and_tones_go_on() -> None:
    """Silent, but not mute: the tones need no voice."""

    def none(manner: Manner) -> Reader:
        raise NoVoice("No voice.")

    bench = Bench(voice=none)
    for text in ("Second.", "Third.", "Fourth."):
        bench.mouth.say(text)
    bench.mouth.say("Count.", before=Tone.COUNT, after=True)
    bench.until("end", "")
    bench.mouth.close()
    assert bench.told == ["No voice."]
    assert {text for _, text in bench.events} == {""}


def test_a_missing_natural_voice_is_told_and_the_plain_one_speaks() -> None:
    """Better a plain voice than none."""

    def only_plain(manner: Manner) -> Reader:
        if manner.engine == "natural":
            raise NoVoice("The natural voice isn't installed.")
        return Reader(manner)

    bench = Bench(voice=only_plain)
    bench.mouth.adjust(Manner(engine="natural"))
    bench.mouth.say("Second.")
    bench.until("end", "Second.")
    bench.mouth.close()
    assert bench.told == ["The natural voice isn't installed."]


def test_a_voice_that_fails_on_a_sentence_goes_on_with_the_next() -> None:
    """One bad sentence is passed over."""

    class Stumbling(Reader):
        def make(self, sentence: str) -> Sound:
            if "bad" in sentence:
                raise NoVoice("The voice failed on a sentence; it goes on with the next.")
            return super().make(sentence)

    bench = Bench(voice=Stumbling)
    bench.mouth.say("A bad one. A good one. Another bad one.")
    bench.until("end", "A good one.")
    bench.mouth.say("Second.", after=True)
    bench.until("end", "Second.")
    bench.mouth.close()
    assert len(bench.told) == 1


def test_a_missing_speaker_is_told_once_and_costs_nothing() -> None:
    """No device: every step goes on, and the listeners aren't told of speech nobody heard."""
    tries: list[str] = []

    def none(name: str) -> Deck:
        tries.append(name)
        raise NoSpeaker("No speaker was found.")

    bench = Bench(device=none)
    for number in range(50):
        bench.mouth.say(f"Stitch {number}.", after=True)
    bench.until_quiet()
    bench.mouth.close()
    assert bench.told == ["No speaker was found."]
    assert bench.events == []
    assert len(tries) == 1


def test_a_speaker_that_goes_away_is_told_and_tried_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """A plug pulled within a sentence: its end is still told to the ear, and the next device speaks."""
    monkeypatch.setattr(speaker_module, "_TRY_AGAIN_S", 0.0)
    decks: list[Deck] = []

    def deck(name: str) -> Deck:
        decks.append(Deck(name))
        decks[-1].fails = len(decks) == 1
        return decks[-1]

    bench = Bench(device=deck)
    bench.mouth.say("Second.")
    bench.until("end", "Second.")
    bench.mouth.say("Third.")
    bench.until("end", "Third.")
    bench.mouth.close()
    assert bench.told == ["The speaker went away."]
    assert decks[0].closed
    assert decks[1].heard


def test_a_closed_mouth_stays_shut(bench: Bench) -> None:
    """After the sitting nothing is said, and closing twice is no fault."""
    bench.mouth.say("Second.")
    bench.until("end", "Second.")
    bench.mouth.close()
    bench.mouth.close()
    bench.mouth.say("Third.")
    assert ("start", "Third.") not in bench.events
    assert bench.deck.closed


def test_a_mouth_closed_before_it_spoke_opens_nothing() -> None:
    """No thread and no device for a maker who never listens."""
    opened: list[str] = []
    bench = Bench(device=lambda name: opened.append(name) or Deck())  # type: ignore[func-returns-value]
    bench.mouth.close()
    bench.mouth.prepare(["Second."])
    assert opened == []


def test_the_silent_mouth_keeps_what_would_have_been_said() -> None:
    """For quiet, for the demo, for tests: the same calls, the same order, no sound."""
    events: list[tuple[str, str]] = []
    mouth = Silent(
        Listeners(
            lambda each: events.append(("start", each.text)), lambda each: events.append(("end", each.text))
        )
    )
    mouth.prepare(["Third."])
    mouth.say("Second.", before=Tone.REPEAT_EDGE)
    mouth.say("Don't turn.", urgent=True)
    mouth.sound(Tone.COUNT, after=True)
    mouth.hush()
    assert list(mouth.said) == [
        Said("Second.", Tone.REPEAT_EDGE, urgent=False, after=False),
        Said("Don't turn.", None, urgent=True, after=False),
        Said("", Tone.COUNT, urgent=False, after=True),
    ]
    assert events[:2] == [("start", "Second."), ("end", "Second.")]
    assert (mouth.prepared, mouth.hushed, mouth.playing, mouth.busy) == (("Third.",), 1, None, False)
