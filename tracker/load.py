"""The whole pipeline: text → pattern → fabric, with every problem on the way."""

from tracker.fabric.build import build
from tracker.fabric.checks.followers import without_followers
from tracker.fabric.checks.one_slip import of_one_slip
from tracker.fabric.checks.unread import told_unread
from tracker.fabric.faults.doubted import as_far_as_read
from tracker.fabric.faults.drifting import drifting
from tracker.fabric.faults.misled import misled
from tracker.fabric.faults.slips import behind, slipped
from tracker.fabric.model import Fabric
from tracker.notation.page.sized.asked import place_of
from tracker.notation.pattern import Pattern
from tracker.notation.read import read, source_of
from tracker.problems import Problem, Source
from tracker.records import dataclass


class WrongSize(Exception):
    """A size the pattern has not; the message lists those it has."""


@dataclass(frozen=True, slots=True)
class Loaded:
    """A pattern as the rest of rowteller uses it."""

    source: Source
    pattern: Pattern
    fabric: Fabric
    problems: tuple[Problem, ...]


def load(name: str, text: str, size: str | None = None) -> Loaded:
    """Everything a text holds; never raises on a maker's text."""
    source = source_of(name, text)
    pattern, of_reading = read(source, size)
    fabric, of_working = build(pattern)
    fabric, of_working = as_far_as_read(pattern, fabric, of_working, source)
    of_working = of_one_slip(pattern, of_working)
    if (statement := misled(pattern, fabric, (*of_reading, *of_working))) is not None:
        of_working = (statement,)
    elif (drift := drifting(pattern, fabric, (*of_reading, *of_working))) is not None:
        of_working = (drift,)
    else:
        of_working = behind(pattern, slipped(pattern, fabric, of_working))
    of_words = (*of_reading, *told_unread(pattern, fabric, source, (*of_reading, *of_working)))
    return Loaded(source, pattern, fabric, of_words + without_followers(of_words, of_working, fabric))


def sized(name: str, text: str, size: str | None) -> Loaded:
    """The pattern in one of its sizes; WrongSize for one it has not."""
    loaded = load(name, text, size)
    sizes = loaded.pattern.sizes
    if size is not None and place_of(size, sizes) is None:
        there = f"it has {', '.join(sizes)}" if sizes else "it has one size only"
        raise WrongSize(f"{name} has no size {size!r}; {there}.")
    return loaded
