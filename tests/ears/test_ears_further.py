"""What a head learns further from is dealt alike whenever it is dealt."""

from __future__ import annotations

from itertools import product

import numpy as np
from ears_spoken import spoken

from tracker.ears.phrases_en import TAUGHT
from tracker.ears.train import further
from tracker.mouth.espeak import Espeak
from tracker.mouth.port import Manner

SILENCE = np.zeros(16, np.float32)


def clips() -> list[further.Clip]:
    """The taught phrases and talk of ten voices."""
    phrases = [(phrase, phrase) for phrase in TAUGHT.values()]
    talk = [(word, "other") for word in ("hook", "table", "chain three and turn at the end of the row")]
    return [(SILENCE, *said, f"voice{v}") for v, said in product(range(10), phrases + talk)]


def test_every_taught_phrase_is_learnt_further_and_only_some_talk() -> None:
    """Short talk oftener than long: that is what is taken for a command."""
    texts = [text for _, text, *_ in further.picked(clips())]
    assert all(texts.count(phrase) == 10 for phrase in TAUGHT.values())
    short, long = texts.count("hook") + texts.count("table"), sum(len(t.split()) > 4 for t in texts)
    assert 20 > short > 2 * long > 0


def test_a_family_is_dealt_alike_each_time_and_each_clip_to_one_part() -> None:
    """Every copy of a part's clips has that part's noises and no others."""
    dealt = [(clip[1:], noisy, seed) for clip, noisy, seed in further.dealt("espeak", clips())]
    assert dealt == [(clip[1:], noisy, seed) for clip, noisy, seed in further.dealt("espeak", clips())]
    copies: dict[object, list[tuple[bool, int]]] = {}
    for said, noisy, seed in dealt:
        copies.setdefault(said, []).append((noisy, seed))
    assert {tuple(c) for c in copies.values()} == set(further.PARTS["espeak"])


def test_a_recording_is_as_loud_whatever_the_mouth_said_before_it() -> None:
    """Both are one library in one process: a mouth turned down made later recordings softer by 14 dB."""

    def loudest() -> int:
        return int(np.abs(np.frombuffer(spoken("i have six stitches"), "<i2")).max())

    before = loudest()
    Espeak(Manner(volume=20, speed_wpm=300)).make("Row two.")
    assert loudest() > 0.9 * before
