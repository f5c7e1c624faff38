"""The shelf before any piece is open: what is heard and felt chooses as typed words do."""

import os
from collections.abc import Iterator
from typing import TextIO

import pytest

from tracker.ears.port import Heard
from tracker.hands_free.arrivals import Arrival, Told
from tracker.hands_free.lines.inbox import Inbox
from tracker.hands_free.lines.shelf import choose
from tracker.hands_free.settings import Settings
from tracker.pedal.port import PedalPress, Press, Route
from tracker.session.record.choice import Choice

CHOICE = Choice(("Harbour windows, row nine", "Squares, row two", "Pebble cloth, row one"))


@pytest.fixture
def lines() -> Iterator[TextIO]:
    """A standard input in which nothing is typed yet."""
    reads, writes = os.pipe()
    with os.fdopen(reads) as opened:
        yield opened
        os.close(writes)


def heard(deed: str, number: int | None = None) -> Heard:
    return Heard(deed, deed, 0.9, 0, 300, 500, 5, number)


def felt(press: Press, *takes_back: Press) -> PedalPress:
    return PedalPress(press, 1, Route.TERMINAL, 0.0, takes_back)


@pytest.mark.parametrize(
    "arrivals, taken",
    [
        ([heard("yes")], 0),
        ([heard("next"), heard("yes")], 1),
        ([heard("no"), heard("no"), heard("no"), heard("yes")], 0),
        ([heard("number", 3)], 2),
        ([heard("number", 7), heard("back"), heard("yes")], 2),
        ([felt(Press.TAP), felt(Press.TAP), felt(Press.DOUBLE_TAP, Press.TAP), heard("yes")], 0),
        ([felt(Press.TAP), felt(Press.TAP), felt(Press.HOLD, Press.TAP)], 1),
        ([Told("ear", "The ear is not there."), "two"], 1),
        (["squa"], 1),
        ([heard("stop")], None),
        ([None], None),
    ],
)
def test_heard_felt_and_typed_choose_alike(
    lines: TextIO, arrivals: list[Arrival | str | None], taken: int | None
) -> None:
    """Next looks on, yes takes, a number takes at once, stop leaves all as it is."""
    inbox = Inbox(lines)
    for arrival in arrivals:
        inbox.post(arrival)
    assert choose(CHOICE, Settings(ear="off"), inbox, lambda line: None, quiet=True) == taken


def test_any_other_deed_takes_the_one_offered_and_is_done_in_it(lines: TextIO) -> None:
    """ "Where am I" is put back for the piece to answer."""
    inbox = Inbox(lines)
    asked = heard("where")
    inbox.post(heard("next"))
    inbox.post(asked)
    said: list[object] = []
    assert choose(CHOICE, Settings(ear="off"), inbox, said.append, quiet=True) == 1
    assert inbox.get(0) == asked
    assert said[:4] == [
        "1. Harbour windows, row nine",
        "2. Squares, row two",
        "3. Pebble cloth, row one",
        "Harbour windows, row nine? Yes, or the pedal held, takes it; next offers the one after; or say its number.",
    ]


@pytest.mark.parametrize(
    "arrivals, taken",
    [
        ([heard("number", 36)], 1),
        ([heard("number", 3)], 2),
        (["38"], 2),
        ([heard("number", 40), heard("next"), heard("yes")], 1),
        ([heard("next"), heard("where"), "row 7", heard("next"), heard("yes")], 2),
    ],
)
def test_a_number_that_is_a_size_is_that_size(
    lines: TextIO, arrivals: list[Arrival | str | None], taken: int
) -> None:
    """ "Thirty-six" is no thirty-sixth of three; any other number counts them, and what answers nothing begins none."""
    inbox = Inbox(lines)
    for arrival in arrivals:
        inbox.post(arrival)
    sizes = Choice(("34", "36", "38"), asking="Which size?")
    said: list[object] = []
    assert choose(sizes, Settings(ear="off"), inbox, said.append, quiet=True) == taken
    assert said[3] == (
        "Which size? 34? Yes, or the pedal held, takes it; next offers the one after; or say its number."
    )
