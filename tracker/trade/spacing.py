"""Even spacing: so many things over so many places, as evenly as whole stitches allow. Numbers in, numbers out.

Bresenham's line with half a step at each end, so that the result looks the same from either end when it can. Up to
where it begins it is the Euclidean rhythm that Bjorklund's algorithm makes.
"""

from tracker.records import dataclass


class CannotSpace(Exception):
    """Numbers that cannot be spaced; the message says why and what to do."""


def evenly(things: int, places: int) -> tuple[int, ...]:
    """How many of the things each place takes, in order.

    >>> evenly(24, 15)
    (2, 1, 2, 1, 2, 2, 1, 2, 1, 2, 2, 1, 2, 1, 2)
    >>> evenly(2, 5)
    (0, 1, 0, 1, 0)
    """
    if places < 1 or things < 0:
        raise CannotSpace(
            f"{things} cannot be spread over {places} places; there must be one place at least."
        )
    half = places // 2
    return tuple(
        ((nth + 1) * things + half) // places - (nth * things + half) // places for nth in range(places)
    )


def lengths(stitches: int, groups: int) -> tuple[int, ...]:
    """The stitches parted into groups as equal as can be, the longer ones spread among the shorter.

    >>> lengths(32, 6)
    (5, 6, 5, 5, 6, 5)
    """
    if groups < 1 or stitches < groups:
        raise CannotSpace(
            f"{stitches} stitches cannot be parted into {groups} groups; every group needs a stitch of its own."
        )
    short = stitches // groups
    return tuple(short + more for more in evenly(stitches - short * groups, groups))


@dataclass(frozen=True, slots=True)
class Shaping:
    """A row with increases or decreases spread over it."""

    stitches: int
    """Before it."""
    times: int
    increase: bool
    plain: tuple[int, ...]
    """Plain stitches before each increase or decrease, in order."""
    rest: int
    """Plain stitches after the last one."""

    @property
    def makes(self) -> int:
        """Stitches after it."""
        return self.stitches + (self.times if self.increase else -self.times)


def shaping(
    stitches: int, times: int, increase: bool = True, flat: bool = False, stagger: bool = False
) -> Shaping:
    """`times` increases (two in one) or decreases (two together) spread over a row or round.

    `flat`: half a gap at each end, as in rows; in a round the last stands at its end. `stagger`: half a gap further on
    than without, for every other round, so that they do not stack into a corner.

    >>> shaping(32, 6).plain
    (4, 5, 4, 4, 5, 4)
    """
    word, takes = ("increases", 1) if increase else ("decreases", 2)
    if times < 1:
        raise CannotSpace(f"{times} {word} cannot be spread; ask for one at least.")
    if stitches < times * takes:
        raise CannotSpace(
            f"{times} {word} need {times * takes} stitches, and there are {stitches}; choose fewer of them."
        )
    plain = [length - takes for length in lengths(stitches, times)]
    rest = 0
    if flat or stagger:
        rest = plain[0] // 2
        plain[0] -= rest
    return Shaping(stitches, times, increase, tuple(plain), rest)
