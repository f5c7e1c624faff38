"""From strokes of a key to presses of a foot: pure, with time as an argument.

Comes in: strokes of one switch, from any of its routes, in the order they arrived. Goes out: presses.
Promises that one press of the foot is told once: however its contact bounces, by however many routes it
arrives, and while it is held.

A tap is told at the first stroke, because a step must not wait to see whether a second follows. If one
does, or the foot stays down, the double tap or the hold says which presses already told it takes back.

A terminal tells no release. It shows a held key as a stroke, a pause (the keyboard's repeat delay, 200 to
1000 ms), then strokes some 30 ms apart, faster than any foot: two such gaps within 300 ms are a hold.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from tracker.pedal.port import Edge, PedalPress, Press, Route, Stroke


@dataclass(frozen=True, slots=True)
class Feel:
    """How a foot is told from a fault. All in milliseconds."""

    bounce_ms: float = 40
    """A key that comes back sooner than this was never let go."""
    repeat_gap_ms: float = 60
    """Strokes of a terminal closer than this are the keyboard's, not the foot's."""
    repeat_window_ms: float = 300
    """Two such gaps within this make a hold."""
    repeat_delay_ms: float = 1_100
    """The longest pause before a keyboard begins to repeat."""
    hold_ms: float = 600
    """How long a key stays down to be held, on routes that tell the release."""
    double_ms: float = 350
    """The longest pause between the two taps of a double tap; 0: there are no double taps."""
    same_press_ms: float = 250
    """How much later the same press may arrive by another route."""


@dataclass(frozen=True, slots=True)
class Switch:
    """What is remembered of one switch."""

    strokes: tuple[float, ...] = ()
    """When the terminal's latest strokes came, counted or not; no more than a repeat window's worth."""
    unpaired: tuple[tuple[Route, float], ...] = ()
    """Presses told that another route may still bring: each is matched by one, and once."""
    told: tuple[tuple[Press, float], ...] = ()
    """The latest presses since the last hold that stand: told, and not taken back."""
    down_ms: float | None = None
    """Since when the key is down, on a route that tells; None: no such route has been heard."""
    down_by: Route = Route.TERMINAL
    """That route."""
    up_ms: float | None = None
    """When it was let go, which may yet prove a bounce; None: it is down."""
    holding: bool = False
    """The hold of this press has been told."""


Felt = tuple[Switch, tuple[PedalPress, ...]]


def felt(switch: Switch, stroke: Stroke, feel: Feel) -> Felt:
    """What a stroke means."""
    at = stroke.at_ms
    recent = tuple(each for each in switch.unpaired if at - each[1] <= feel.same_press_ms)
    switch = replace(switch, unpaired=recent)
    if stroke.edge is Edge.STROKE:
        return _stroke(switch, stroke, feel)
    if stroke.edge is Edge.DOWN:
        return _down(switch, stroke, feel)
    switch, presses = lapsed(switch, stroke.switch, at, feel)
    return replace(switch, up_ms=at) if switch.down_ms is not None else switch, presses


def lapsed(switch: Switch, number: int, at_ms: float, feel: Feel) -> Felt:
    """What the mere passing of time means: a key still down becomes a hold."""
    due = due_ms(switch, feel)
    if due is None or at_ms < due:
        return switch, ()
    return _hold(switch, number, switch.down_by, at_ms, belonging=1)


def due_ms(switch: Switch, feel: Feel) -> float | None:
    """When `lapsed` is to be asked next; None: not before another stroke."""
    if switch.down_ms is None or switch.up_ms is not None or switch.holding:
        return None
    return switch.down_ms + feel.hold_ms


def _down(switch: Switch, stroke: Stroke, feel: Feel) -> Felt:
    at = stroke.at_ms
    if switch.down_ms is not None and switch.up_ms is None:
        return switch, ()  # the keyboard's own repeat
    if switch.up_ms is not None and at - switch.up_ms < feel.bounce_ms:
        return replace(switch, up_ms=None), ()
    down = replace(switch, down_ms=at, down_by=stroke.route, up_ms=None, holding=False)
    paired = _paired(down, stroke.route)
    return (paired, ()) if paired is not None else _press(down, stroke, feel)


def _stroke(switch: Switch, stroke: Stroke, feel: Feel) -> Felt:
    at = stroke.at_ms
    before = switch.strokes[-1] if switch.strokes else None
    strokes = (*(each for each in switch.strokes if at - each <= feel.repeat_window_ms), at)
    switch = replace(switch, strokes=strokes)
    if switch.down_ms is not None and switch.up_ms is None:
        # Another route sees the key itself: the terminal's strokes add nothing while it is down.
        return _paired(switch, stroke.route) or switch, ()
    if switch.holding:
        let_go = switch.up_ms is not None and at - switch.up_ms <= feel.same_press_ms
        if let_go or (before is not None and at - before <= feel.repeat_window_ms):
            return switch, ()
        switch = replace(switch, holding=False)
    paired = _paired(switch, stroke.route)
    if paired is not None:
        return paired, ()
    if before is None or at - before >= feel.repeat_gap_ms:
        return _press(switch, stroke, feel)
    fast = [later - earlier < feel.repeat_gap_ms for earlier, later in pairwise(strokes)]
    if sum(fast) < 2:
        return switch, ()
    return _hold(
        switch, stroke.switch, stroke.route, at, belonging=_repeating(switch, strokes[fast.index(True)], feel)
    )


def _repeating(switch: Switch, began_ms: float, feel: Feel) -> int:
    """How many presses told belong to a key that began to repeat then: that stroke, and the one before."""
    if not switch.told or switch.told[-1][1] < began_ms:
        return 0
    if switch.told[-1][0] is Press.DOUBLE_TAP:
        return 1  # the two of them were taken for a double tap
    return 2 if len(switch.told) > 1 and switch.told[-2][1] >= began_ms - feel.repeat_delay_ms else 1


def _press(switch: Switch, stroke: Stroke, feel: Feel) -> Felt:
    at = stroke.at_ms
    latest = switch.told[-1:]
    doubles = bool(latest) and latest[0][0] is Press.TAP and at - latest[0][1] <= feel.double_ms
    press = Press.DOUBLE_TAP if doubles else Press.TAP
    standing = switch.told[:-1] if doubles else switch.told[-3:]
    switch = replace(
        switch, told=(*standing, (press, at)), unpaired=(*switch.unpaired, (stroke.route, at)), holding=False
    )
    takes_back = (Press.TAP,) if doubles else ()
    return switch, (PedalPress(press, stroke.switch, stroke.route, at, takes_back),)


def _hold(switch: Switch, number: int, route: Route, at_ms: float, belonging: int) -> Felt:
    """Tell the hold, and take back the latest `belonging` presses told."""
    kept = max(0, len(switch.told) - belonging)
    takes_back = tuple(press for press, _ in reversed(switch.told[kept:]))
    hold = PedalPress(Press.HOLD, number, route, at_ms, takes_back)
    # What was told before a hold can't be taken back after it: the caller undoes in order, latest first.
    return replace(switch, told=(), holding=True), (hold,)


def _paired(switch: Switch, route: Route) -> Switch | None:
    """The switch with one press of another route matched by this one; None when there is none to match."""
    for at, (other, _) in enumerate(switch.unpaired):
        if other is not route:
            return replace(switch, unpaired=switch.unpaired[:at] + switch.unpaired[at + 1 :])
    return None
