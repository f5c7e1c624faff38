"""From strokes of a key to presses of a foot; times are arguments, in milliseconds."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

from tracker.pedal.board import Board
from tracker.pedal.fake import FakePedal
from tracker.pedal.gesture import Feel, Switch, due_ms, felt, lapsed
from tracker.pedal.port import Edge, LearnedKey, PedalPress, Press, Route, Stroke

TAP, DOUBLE, HOLD = Press.TAP, Press.DOUBLE_TAP, Press.HOLD
Told = tuple[Press, tuple[Press, ...]]


def told(strokes: str, feel: Feel | None = None) -> list[Told]:
    """What a foot did, from strokes as time and route: `0t` terminal, `0d 80u` pynput, `0D 80U` evdev.

    Time passes between the strokes and long after the last, as the board's clock lets it.
    """
    feel = feel or Feel()
    kinds = {
        "t": (Edge.STROKE, Route.TERMINAL),
        "d": (Edge.DOWN, Route.PYNPUT),
        "u": (Edge.UP, Route.PYNPUT),
        "D": (Edge.DOWN, Route.EVDEV),
        "U": (Edge.UP, Route.EVDEV),
    }
    switch, presses = Switch(), []
    written = [(float(each[:-1]), kinds[each[-1]]) for each in strokes.split()]
    for at, (edge, route) in written:
        due = due_ms(switch, feel)
        if due is not None and due <= at:
            switch, more = lapsed(switch, 1, due, feel)
            presses += more
        switch, more = felt(switch, Stroke(1, edge, route, at), feel)
        presses += more
    due = due_ms(switch, feel)
    if due is not None:
        switch, more = lapsed(switch, 1, due, feel)
        presses += more
    return [(press.press, press.takes_back) for press in presses]


def repeats(begin: float, count: int, gap: float) -> str:
    return " ".join(f"{begin + gap * number}t" for number in range(count))


@pytest.mark.parametrize(
    "strokes, presses",
    [
        # The terminal.
        ("0t", [(TAP, ())]),
        ("0t 400t 900t", [(TAP, ()), (TAP, ()), (TAP, ())]),
        # Three strokes in 11 ms are no foot: not one step is left of them.
        ("0t 5t 11t", [(TAP, ()), (HOLD, (TAP,))]),
        ("0t 20t", [(TAP, ())]),
        ("0t 59t", [(TAP, ())]),
        ("0t 200t", [(TAP, ()), (DOUBLE, (TAP,))]),
        ("0t 200t 400t", [(TAP, ()), (DOUBLE, (TAP,)), (TAP, ())]),
        ("0t 350t", [(TAP, ()), (DOUBLE, (TAP,))]),
        ("0t 351t", [(TAP, ()), (TAP, ())]),
        # A release is told.
        ("0d 90u", [(TAP, ())]),
        ("0d 90u 500d 590u", [(TAP, ()), (TAP, ())]),
        ("0d 90u 200d 290u", [(TAP, ()), (DOUBLE, (TAP,))]),
        ("0d 5u 9d 14u 20d 120u", [(TAP, ())]),
        ("0d 120u 125d 131u", [(TAP, ())]),
        ("0d 33d 66d 99d 132u", [(TAP, ())]),
        ("0d 599u", [(TAP, ())]),
        ("0d 600u", [(TAP, ()), (HOLD, (TAP,))]),
        ("0d", [(TAP, ()), (HOLD, (TAP,))]),
        ("0d 500d 533d 566d 2000u 2500d 2600u", [(TAP, ()), (HOLD, (TAP,)), (TAP, ())]),
        ("0d 90u 200d 1200u", [(TAP, ()), (DOUBLE, (TAP,)), (HOLD, (DOUBLE,))]),
        ("0d 300u 320d 800u", [(TAP, ()), (HOLD, (TAP,))]),
        ("90u", []),
        # One press by two routes, in either order.
        ("0d 12t 90u", [(TAP, ())]),
        ("0t 12d 90u", [(TAP, ())]),
        ("0d 90u 160t", [(TAP, ())]),
        ("0D 1d 90U 91u", [(TAP, ())]),
        ("0D 1d 14t 90U 91u", [(TAP, ())]),
        ("0d 12t 90u 600d 612t 700u", [(TAP, ()), (TAP, ())]),
        ("0d 90u 150d 160t 230u 240t", [(TAP, ()), (DOUBLE, (TAP,))]),
        ("0t 12d 800u", [(TAP, ()), (HOLD, (TAP,))]),
        ("0d 12t 500t 533t 566t 599t 800u 830t", [(TAP, ()), (HOLD, (TAP,))]),
        ("0d 12t 90u 2000t", [(TAP, ()), (TAP, ())]),  # the other route is deaf by then
    ],
)  # fmt: skip
def test_strokes_are_felt_as_presses(strokes: str, presses: list[Told]) -> None:
    """Every press of the foot once, and what wasn't meant taken back."""
    assert told(strokes) == presses


# Pause before a key repeats, and the gap of its repeats: Windows 250 to 1000 ms and 33 ms up; X11 660 and 40 ms;
# GNOME 500 and 30; macOS 225 and 30 up; the Linux console 250 and 33. All from memory.
KEYBOARDS = [(250, 33), (500, 33), (1000, 33), (660, 40), (500, 30), (225, 30), (400, 55)]


@pytest.mark.parametrize("pause, gap", KEYBOARDS)
def test_a_pedal_held_in_a_terminal_is_one_hold_and_leaves_no_step(pause: float, gap: float) -> None:
    """Everything told before the hold was known is taken back, and no more is told while it lasts."""
    presses = told(f"0t {repeats(pause, 60, gap)}")
    standing: list[Press] = []
    for press, takes_back in presses:
        for back in takes_back:
            assert standing.pop() is back
        standing.append(press)
    assert standing == [HOLD]
    assert presses[-1][0] is HOLD


@pytest.mark.parametrize("pause, gap", KEYBOARDS)
def test_a_tap_before_a_held_pedal_stands(pause: float, gap: float) -> None:
    """A step really made is not undone by the hold that follows a second and a half later."""
    presses = told(f"0t 1500t {repeats(1500 + pause, 20, gap)}")
    standing: list[Press] = []
    for press, takes_back in presses:
        del standing[len(standing) - len(takes_back) :]
        standing.append(press)
    assert standing == [TAP, HOLD]


def test_a_tap_soon_after_a_hold_is_a_tap() -> None:
    """The foot comes off, and presses again half a second later."""
    assert told(f"0t {repeats(500, 10, 33)} 1400t 2000t")[-2:] == [(TAP, ()), (TAP, ())]


def test_two_holds_are_two() -> None:
    """Each has its own pause and its own repeats."""
    presses = told(f"0t {repeats(500, 20, 33)} 3000t {repeats(3500, 20, 33)}")
    assert [press for press, _ in presses if press is HOLD] == [HOLD, HOLD]
    assert presses[-1] == (HOLD, (TAP, TAP))


def test_without_double_taps_two_quick_taps_are_two_steps() -> None:
    """A maker who goes fast may turn them off."""
    assert told("0t 150t 300t", Feel(double_ms=0)) == [(TAP, ())] * 3


def test_a_maker_at_any_pace_gets_every_step() -> None:
    """Five hundred presses, with bounce, half a second apart and more: as many taps, by any routes."""
    chance = random.Random(3)
    for routes in ("t", "d", "D", "dt", "dD", "dDt"):
        at, strokes = 0.0, []
        for _ in range(500):
            at += chance.uniform(500, 2_500)
            down = chance.uniform(60, 200)
            if "d" in routes:
                strokes += [(at, "d"), (at + 4, "u"), (at + 9, "d"), (at + down, "u")]
            if "D" in routes:
                strokes += [(at + 1, "D"), (at + 5, "U"), (at + 10, "D"), (at + down + 1, "U")]
            if "t" in routes:
                strokes += [(at + chance.uniform(2, 200), "t")]
        presses = told(" ".join(f"{when}{kind}" for when, kind in sorted(strokes)))
        assert presses == [(TAP, ())] * 500, routes


def test_no_strokes_at_all_break_the_rule_of_taking_back() -> None:
    """Whatever comes in whatever order: only what stands is taken back, and by its right name."""
    for seed in range(200):
        chance = random.Random(seed)
        at, strokes = 0.0, []
        for _ in range(80):
            at += chance.choice((1, 20, 35, 50, 90, 200, 320, 700, 1500))
            strokes.append(f"{at}{chance.choice('tdDuU')}")
        standing: list[Press] = []
        for press, takes_back in told(" ".join(strokes)):
            for back in takes_back:
                assert standing.pop() is back
            standing.append(press)


def on_board(keys: tuple[LearnedKey, ...], focused: bool | None, *strokes: Stroke) -> list[PedalPress]:
    presses: list[PedalPress] = []
    board = Board(presses.append, keys, Feel(hold_ms=1e12))  # these strokes aren't on the board's own clock
    board.focus(focused)
    for stroke in strokes:
        board.take(stroke)
    board.close()
    return presses


BOTH = LearnedKey(1, terminal="pagedown", pynput="page_down")
UNSEEN = LearnedKey(1, pynput="f13")


def global_tap(at_ms: float = 0) -> tuple[Stroke, Stroke]:
    return Stroke(1, Edge.DOWN, Route.PYNPUT, at_ms), Stroke(1, Edge.UP, Route.PYNPUT, at_ms + 80)


@pytest.mark.parametrize(
    "key, focused, taps",
    [(BOTH, True, 0), (BOTH, False, 1), (BOTH, None, 1), (UNSEEN, True, 1), (UNSEEN, False, 1)],
)
def test_the_desktops_keys_are_taken_while_the_window_has_no_focus(
    key: LearnedKey, focused: bool | None, taps: int
) -> None:
    """With focus the terminal brings the press, unless it never sees that key."""
    assert len(on_board((key,), focused, *global_tap())) == taps


def test_a_late_terminal_does_not_step_twice() -> None:
    """With focus the terminal alone counts, however late it is."""
    late = Stroke(1, Edge.STROKE, Route.TERMINAL, 900)
    assert [press.press for press in on_board((BOTH,), True, *global_tap(), late)] == [TAP]


def test_three_switches_are_three() -> None:
    """Each has its own taps; a stroke of a switch that isn't learned is nothing."""
    keys = tuple(LearnedKey(number, terminal=f"f{number}") for number in (1, 2, 3))
    strokes = [Stroke(number, Edge.STROKE, Route.TERMINAL, 10.0 * number) for number in (1, 2, 3, 4)]
    presses = on_board(keys, None, *strokes)
    assert [(press.switch, press.press) for press in presses] == [(1, TAP), (2, TAP), (3, TAP)]


def test_the_shipped_foot_presses_as_a_real_one() -> None:
    """The demo's pedal goes through the real gestures."""
    presses: list[PedalPress] = []
    foot = FakePedal(presses.append)
    foot.tap()
    foot.double_tap(2)
    foot.hold()
    foot.tap()
    assert [(press.switch, press.press, press.takes_back) for press in presses] == [
        (1, TAP, ()),
        (2, TAP, ()),
        (2, DOUBLE, (TAP,)),
        (1, TAP, ()),
        (1, HOLD, (TAP,)),
        (1, TAP, ()),
    ]
    assert all(earlier.at_ms <= later.at_ms for earlier, later in pairwise(presses))
