"""Sound as a value, and the tones."""

import itertools

import numpy as np
import pytest

from tracker.mouth.sound import NOTES, Sound, Tone, doubled, made, resampled, silence, trimmed

# Twelve-tone equal temperament on A4 = 440 Hz (ISO 16:1975): n semitones from A4 is 440 * 2 ** (n / 12).
SEMITONES = {
    Tone.ROW_END: (5, 12),  # D5, A5: a fifth up
    Tone.REPEAT_EDGE: (7,),  # E5
    Tone.COUNT: (10, 10, 10),  # G5 three times
    Tone.STEP: (17,),  # D6
    Tone.NOT_UNDERSTOOD: (0, -4),  # A4, F4: a third down
}
RATES = (16_000, 22_050, 44_100, 48_000)


def numbers(sound: Sound) -> np.ndarray:
    return np.frombuffer(sound.pcm, "<i2").astype(float)


def strongest(samples: np.ndarray, rate: int) -> float:
    """The frequency with the most energy, Hz."""
    power = np.abs(np.fft.rfft(samples * np.hanning(len(samples)), 1 << 17))
    return float(np.argmax(power) * rate / (1 << 17))


@pytest.mark.parametrize("tone, rate", itertools.product(Tone, RATES))
def test_each_tone_is_the_notes_it_claims(tone: Tone, rate: int) -> None:
    """Every note is within half a percent (nine hundredths of a semitone) of the tempered scale."""
    samples = numbers(made(tone, rate))
    begin = 0
    for note, semitones in zip(NOTES[tone], SEMITONES[tone], strict=True):
        end = begin + round(note.ms * rate / 1000)
        assert strongest(samples[begin:end], rate) == pytest.approx(440 * 2 ** (semitones / 12), rel=0.005)
        begin = end
    assert begin == len(samples)


@pytest.mark.parametrize("tone", Tone)
def test_tones_are_short_soft_at_the_ends_and_never_clip(tone: Tone) -> None:
    """Under half a second, no click at either end, well under full scale."""
    sound = made(tone, 22_050)
    samples = np.abs(numbers(sound))
    assert sound.seconds < 0.5
    assert samples[0] == samples[-1] == 0
    assert 4_000 < samples.max() < 16_000
    # The joint between two notes is as soft as the ends.
    begin = 0
    for note in NOTES[tone]:
        begin += round(note.ms * 22.05)
        assert samples[begin - 1] == 0


def test_tones_follow_the_volume() -> None:
    """Half the volume is half as loud; none is silence."""
    full, half, none = (numbers(made(Tone.COUNT, 22_050, loud)) for loud in (100, 50, 0))
    assert half.max() == pytest.approx(full.max() / 2, rel=0.01)
    assert none.max() == 0


@pytest.mark.parametrize("rate", RATES)
def test_a_sound_at_another_rate_lasts_as_long_and_keeps_its_pitch(rate: int) -> None:
    """The device may ask for a rate that isn't the voice's."""
    tone = made(Tone.REPEAT_EDGE, 22_050)
    again = resampled(tone, rate)
    assert again.rate == rate
    assert again.seconds == pytest.approx(tone.seconds, abs=0.001)
    assert strongest(numbers(again), rate) == pytest.approx(659.26, rel=0.005)


def test_silence_around_speech_is_trimmed_and_silence_within_is_kept() -> None:
    """What is left begins a few milliseconds before the first sound."""
    rate = 22_050
    word = made(Tone.COUNT, rate).pcm
    sound = trimmed(Sound(silence(300, rate) + word + silence(400, rate) + word + silence(500, rate), rate))
    assert 2 * 0.33 + 0.4 - 0.03 < sound.seconds < 2 * 0.33 + 0.4 + 0.05
    assert trimmed(Sound(silence(300, rate), rate)) == Sound(b"", rate)
    assert trimmed(Sound(b"", rate)) == Sound(b"", rate)
    assert resampled(Sound(b"", rate), 48_000) == Sound(b"", 48_000)


def test_left_and_right_speaker_get_the_same() -> None:
    """One channel made two."""
    both = np.frombuffer(doubled(made(Tone.COUNT, 16_000).pcm), "<i2").reshape(-1, 2)
    assert (both[:, 0] == both[:, 1]).all()
    assert (both[:, 0] == numbers(made(Tone.COUNT, 16_000))).all()
