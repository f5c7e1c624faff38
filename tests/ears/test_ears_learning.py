"""What the ear learns: the voice of a sitting, and the maker's own recordings."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from ears_spoken import spoken

from tracker.ears.embedded import EmbeddedEar
from tracker.ears.fake import FakeEar
from tracker.ears.hearing.head import Opinion
from tracker.ears.hearing.judge import Judge
from tracker.ears.hearing.mouth import SIZES, Mouth
from tracker.ears.hearing.sitting import Sitting
from tracker.ears.hearing.sound.endpoint import Samples
from tracker.ears.hearing.templates import Likeness
from tracker.ears.hearing.words import classes, units
from tracker.ears.phrases_en import ENGLISH, TAUGHT
from tracker.ears.port import Awaiting, Heard, Learnt, PassedOver, Saying
from tracker.hands_free.hearing.kept import forget, keep_learnt, learnt_before


def recording(words: str, speed: float, voice: str = "en-us") -> tuple[str, Samples]:
    return words, (np.frombuffer(spoken(words, speed=speed, voice=voice), "<i2") / np.float32(32768)).astype(
        np.float32
    )


def test_a_hundred_times_the_same_word_teaches_the_voice_and_not_the_word() -> None:
    """Words that come just as usual shift nothing, however often they are said."""
    usual = np.random.default_rng(1).normal(size=(len(classes()), 96)).astype(np.float32)
    sitting = Sitting(usual)
    for _ in range(100):
        sitting.learn(np.repeat(usual[:1], 6, axis=0), 0)
    assert float(np.abs(sitting.shift()).max()) < 1e-6


def test_a_voice_that_lies_apart_is_met_more_than_half_way() -> None:
    """After a dozen commands most of a steady difference is taken off."""
    usual = np.ones((len(classes()), 96), np.float32)
    sitting = Sitting(usual)
    for i in range(12):
        sitting.learn(usual[i : i + 1] + 2, i)
    assert np.allclose(sitting.shift(), 1.2, atol=0.2)


def test_the_size_of_a_mouth_is_learnt_from_several_commands_that_agree() -> None:
    """One command alone hardly says anything; what is taken back says nothing; what is kept is known again."""
    mouth, smaller = Mouth(), tuple(3.0 * (size < 0.9) for size in SIZES)
    mouth.fits("next", (0.0, 0.0, 0.0, 0.0, 0.5, 0.0, 0.0))
    assert mouth.size == 1.0
    mouth.fits("back", smaller)
    assert mouth.size < 1.0
    again = Mouth()
    again.recall(mouth.learnt())
    assert again.size == mouth.size
    again.recall(((1.0, 2.0),))
    assert again.size == 1.0
    mouth.unlearn("back")
    assert mouth.size == 1.0


def test_a_voice_is_listened_to_in_its_size_from_its_second_command_on() -> None:
    """A small mouth's commands are heard, and teach its size, which is kept and forgotten with the rest."""
    ear, heard = EmbeddedEar(ENGLISH), 0
    for words in ("carry on", "step back", "say again", "undo that", "carry on", "step back"):
        said = np.frombuffer(spoken(words, speed=0.85, voice="en-us"), "<i2")
        small = np.interp(np.arange(0, len(said), 1.13), np.arange(len(said)), said).astype("<i2")
        ear.begin()
        heard += sum(isinstance(r, Heard) for r in [*ear.feed(small.tobytes()), *ear.finish()])
    ear.begin()
    assert heard >= 4
    assert len(ear.learnt().mouth) == heard
    assert ear.sitting.mouth.size > 1.0
    ear.recall(Learnt())
    assert ear.sitting.mouth.size == 1.0


def test_a_command_taken_back_is_unlearnt() -> None:
    """What the maker took back was misheard, and leaves no trace."""
    usual = np.ones((len(classes()), 96), np.float32)
    sitting = Sitting(usual)
    sitting.learn(usual[:1] + 1, 0)
    before = sitting.shift()
    sitting.learn(usual[:1] + 50, 0, "back")
    sitting.unlearn("back")
    assert np.array_equal(sitting.shift(), before)


def test_what_was_learnt_can_be_kept_and_recalled() -> None:
    """Written to settings and read again it shifts the same; nonsense in the settings shifts nothing."""
    usual = np.ones((len(classes()), 96), np.float32)
    sitting, again = Sitting(usual), Sitting(usual)
    sitting.learn(usual[:1] + 1, 0)
    again.recall(sitting.learnt())
    assert np.allclose(again.shift(), sitting.shift(), atol=1e-3)
    again.recall(Learnt(voice=((1.0, 2.0),)))
    assert again.commands == 0


def test_a_deed_taken_back_must_be_surer_until_it_stands_again() -> None:
    """Taken back twice, "back" is doubted; each time it then stands the doubt grows less, and other deeds have none."""
    sitting = Sitting(np.ones((len(classes()), 96), np.float32))
    for at_ms in (1000, 9000):
        sitting.stood("back", at_ms)
        sitting.unlearn()
    doubted = sitting.needs("back", 20_000)
    assert doubted > 0
    assert sitting.needs("next", 20_000) == 0
    for at_ms in range(30_000, 130_000, 10_000):
        sitting.stood("back", at_ms)
    assert sitting.needs("back", 500_000) < doubted
    sitting.recall(Learnt())
    assert sitting.needs("back", 500_000) == 0


def test_a_maker_in_step_is_taken_more_readily_than_one_who_asks_twice_at_once() -> None:
    """Whoever says "next" every three seconds is expected after three, and doubted a quarter of a second after it."""
    sitting = Sitting(np.ones((len(classes()), 96), np.float32))
    for at_ms in range(0, 30_000, 3000):
        sitting.stood("next", at_ms)
    assert sitting.needs("next", 27_000 + 3000) < 0
    assert sitting.needs("next", 27_000 + 250) > 0
    assert sitting.needs("next", 27_000 + 60_000) == 0


def test_own_recordings_that_agree_are_all_recognised_by_the_others() -> None:
    """Leaving one recording out each time, the other two of its phrase recognise it."""
    ear = EmbeddedEar(ENGLISH)
    phrases = ("next", "back", "where am i")
    faults = ear.teach([recording(p, s) for p in phrases for s in (0.8, 0.9, 1.0)])
    assert faults == []
    assert ear.agreement() == dict.fromkeys(phrases, (3, 3))


def test_words_of_another_language_are_learnt_from_three_recordings() -> None:
    """A table in German, which the ear was never trained on: taught, its words are heard and other words are not."""
    german = (Saying("next", ("weiter",)), Saying("back", ("zurück",)), Saying("where", ("wo bin ich",)))
    ear = EmbeddedEar(german)
    phrases = [p for s in german for p in s.phrases]
    assert ear.teach([recording(p, s, "de") for p in phrases for s in (0.8, 0.9, 1.0)]) == []
    for words, deeds in (
        ("weiter", ["next"]),
        ("wo bin ich", ["where"]),
        ("guten morgen", []),
        ("fenster", []),
    ):
        ear.begin()
        reports = ear.feed(spoken(words, speed=0.85, voice="de")) + ear.finish()
        assert [r.deed for r in reports if isinstance(r, Heard)] == deeds, words


def test_own_recordings_are_compared_in_noise_and_tell_the_voice_from_the_start() -> None:
    """Each recording is kept in a kettle's noise and in talk too; the voice is known at once, and stays known when what
    was learnt since is forgotten."""
    ear = EmbeddedEar(ENGLISH)
    assert not ear.sitting.shift().any()
    taught = [recording(p, s) for p in ("carry on", "step back", "say again") for s in (0.8, 0.9, 1.0)]
    assert ear.teach(taught) == []
    assert len(ear.agreement()) == 3
    assert sum(many for _, many in ear.agreement().values()) == len(taught)
    known = ear.sitting.shift()
    assert known.any()
    ear.recall(Learnt())
    assert (ear.sitting.shift() == known).all()
    ear.teach([])
    assert not ear.sitting.shift().any()


def test_recordings_of_other_words_leave_a_lone_top_what_it_is() -> None:
    """Of "stop" there is none among them, so that the hiss it begins with still tells it from "top"."""
    ear = EmbeddedEar(ENGLISH)
    assert ear.teach([recording(p, s) for p in ("carry on", "step back") for s in (0.8, 1.0)]) == []
    for words, deeds in (("stop", ["stop"]), ("top", [])):
        ear.begin()
        reports = ear.feed(spoken(words, voice="en-us+m3")) + ear.finish()
        assert [r.deed for r in reports if isinstance(r, Heard)] == deeds, words


def test_what_the_head_finds_altogether_unlike_a_phrase_is_not_that_phrase() -> None:
    """In a loud room what is left of a word may lie near a recording; it is taken for it only where the head, too,
    could think of it."""
    judge = Judge(ENGLISH)
    nearest = [
        Likeness("stitch by stitch", 1.2, 0.1),
        *(Likeness(p, -6.0, 0.3) for p in list(TAUGHT.values())[:6]),
    ]

    def heard_where_likely(log_p: float) -> str | None:
        names = np.full(len(classes()), -12.0, np.float32)
        names[classes().index("other")] = 0.0
        names[classes().index("stitch by stitch")] = log_p
        spelt = np.full((12, len(units())), -12.0, np.float32)
        spelt[:, 0] = 0.0
        return judge(Opinion(names, spelt, spelt), 400, Awaiting.COMMAND, 0.0, nearest, 16.0).deed

    assert heard_where_likely(-12.0) is None
    assert heard_where_likely(-1.5) == "stitch"


def test_a_recording_without_a_word_and_a_phrase_of_no_command_are_told() -> None:
    """Silence teaches nothing, nor does a phrase that asks for nothing; each is one sentence."""
    ear = EmbeddedEar(ENGLISH)
    silence = np.zeros(16000, np.float32)
    faults = ear.teach([("next", silence), recording("purple curtain", 0.9)])
    assert len(faults) == 2
    assert "no clear word" in faults[0]
    assert "purple curtain" in faults[1]


def test_the_fake_ear_gives_its_script_when_the_sound_has_come_so_far() -> None:
    """A scripted report comes out once its time has been fed, and not while the ear is deaf."""
    ear = FakeEar(
        (Heard("next", "next", 0.9, 100, 300, 500, 1), Heard("stop", "stop", 0.9, 900, 1000, 1200, 1))
    )
    assert ear.feed(bytes(2 * 16 * 400)) == []
    assert [type(r) for r in ear.feed(bytes(2 * 16 * 200))] == [Heard]
    ear.deaf(1000)
    assert [type(r) for r in ear.finish()] == [PassedOver]


def test_what_is_kept_of_a_voice_is_read_again_and_forgotten(tmp_path: Path) -> None:
    """Kept beside the maker's recordings; a file that was damaged is nothing learnt; forgetting leaves nothing."""
    learnt = Learnt(((0.5, -1.0),), (("back", 0.4),), (("next", (2900, 3100)),))
    folder = tmp_path / "voice"
    keep_learnt(learnt, folder)
    assert learnt_before(folder) == learnt
    (folder / "learnt.json").write_text("{}")
    assert learnt_before(folder) == Learnt()
    forget(folder)
    assert not folder.exists()
    assert learnt_before(folder) == Learnt()
