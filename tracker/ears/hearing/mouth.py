"""How large the mouth of this voice is, beside the voices that the head was trained with: learnt from its commands.

In: for each command that stood, how sure the head was of it when it was listened to as a mouth of each of SIZES would
say it. Out: the size to listen with from then on. A smaller mouth lifts all that is heard of a word; a voice far from
the usual is hardly heard until that is taken back, and one command says little about it, so that the usual size is
left only for what several commands agree on.
"""

from __future__ import annotations

from collections import deque

import numpy as np

from tracker.ears.hearing.head import Floats

SIZES = (0.84, 0.89, 0.945, 1.0, 1.06, 1.125, 1.19)
"""How many times as large a mouth a command is looked at with; the middle one is as it came."""
SPREAD = 0.05
"""How far mouths lie from the usual, in natural logs of the size. Of 418 words of eleven voices of espeak-ng in bodies
not trained with, one sitting each, the sizes learnt keep 95.7 % for 94.3 clean, 86.8 for 85.0 in 10 dB of pink noise,
63.4 for 60.0 in babble; wrong are 0, 0 and 3 for 0, 1 and 7."""
MOST = 24
"""Older commands are forgotten: somebody else may have sat down."""


class Mouth:
    """
    >>> mouth = Mouth(); mouth.size
    1.0
    >>> for _ in range(8): mouth.fits("next", (0.0, 0.2, 0.5, 1.0, 1.5, 2.0, 1.8))
    >>> mouth.size
    1.125
    """

    def __init__(self) -> None:
        self._fits: deque[tuple[str, Floats]] = deque(maxlen=MOST)
        away = np.log(SIZES) / SPREAD
        self._usual = (-(away**2) / 2).astype(np.float32)

    @property
    def size(self) -> float:
        """1.0 until commands say otherwise."""
        likely = np.sum([self._usual, *(fit for _, fit in self._fits)], axis=0)
        return SIZES[int(likely.argmax())]

    def fits(self, deed: str, sureness: tuple[float, ...]) -> None:
        """That deed was asked for, and so sure of it, in log-odds, was the head with each of SIZES."""
        self._fits.append((deed, np.array(sureness, np.float32)))

    def unlearn(self, deed: str) -> None:
        """The last time that deed was asked for it was something else."""
        at = next((i for i in reversed(range(len(self._fits))) if self._fits[i][0] == deed), None)
        if at is not None:
            del self._fits[at]

    def learnt(self) -> tuple[tuple[float, ...], ...]:
        """What `recall` takes."""
        return tuple(tuple(round(float(x), 2) for x in fit) for _, fit in self._fits)

    def recall(self, learnt: tuple[tuple[float, ...], ...]) -> None:
        """What an earlier sitting learnt; what was learnt of other sizes is taken as nothing."""
        self._fits.clear()
        self._fits.extend(("", np.array(fit, np.float32)) for fit in learnt if len(fit) == len(SIZES))
