"""The mouth's order of speaking, with a voice and a speaker that do exactly what the test lets them do."""

from __future__ import annotations

import threading
from collections.abc import Iterator

import pytest
from pretend_speaker import SOON_S, Bench, Deck, Reader

from tracker.mouth import speaker as speaker_module
from tracker.mouth.port import Listeners, Manner, Utterance
from tracker.mouth.silent import Said, Silent
from tracker.mouth.sound import Tone
from tracker.mouth.speaker import Speaker


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
