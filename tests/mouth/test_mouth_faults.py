"""A mouth without a voice, without a speaker, or with one that goes away: told once, and the work goes on."""

from __future__ import annotations

import pytest
from pretend_speaker import Bench, Deck, Reader

from tracker.mouth import speaker as speaker_module
from tracker.mouth.port import Manner, NoSpeaker, NoVoice
from tracker.mouth.sound import Sound, Tone


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
