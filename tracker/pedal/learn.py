"""Learning a pedal: "press it now", and whatever key comes is the pedal's.

Comes in: names of keys, each with its route and time, until one press has been heard on every route there
is. Goes out: the key, or one sentence that says why not. Pure, with time as an argument; who listens
(`RawKeys`, the screen, `hear_one` of the other routes) is the caller's. Only the first press is looked at,
and what is not learned is not kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tracker.pedal.port import LearnedKey, Route

PATIENCE_MS = 10_000
"""How long is waited for the first press."""
OTHER_ROUTES_MS = 800
"""How much later the same press may come by the last of its routes."""

ASK = "Press your pedal now, once."
NOTHING = (
    "No key came in ten seconds. Is the pedal plugged in, and does it send a key? "
    "Many pedals come with a program that sets which."
)
SEVERAL = "That press sent more than one key ({names}); set the pedal to send a single key, then try again."
REFUSED = "“{name}” {why}; set the pedal to send another key, such as Page Down."
TAKEN = "“{name}” is already switch {switch}."


@dataclass(frozen=True, slots=True)
class Lesson:
    """One switch being learned."""

    switch: int
    """1, 2 or 3."""
    began_ms: float
    refused: Mapping[str, str]
    """Names of keys that can't be a pedal, each with the reason ("ends the program")."""
    others: tuple[LearnedKey, ...] = ()
    """The switches learned before; the one learned now replaces its like."""
    heard: tuple[tuple[Route, str], ...] = ()
    first_ms: float | None = None
    """When the first key came."""


@dataclass(frozen=True, slots=True)
class NotLearned:
    """Why there is no key."""

    sentence: str


def hear(lesson: Lesson, route: Route, name: str, at_ms: float) -> Lesson:
    """A key came. What comes after the press has had its time is no longer heard."""
    first = lesson.first_ms if lesson.first_ms is not None else at_ms
    if at_ms - first > OTHER_ROUTES_MS or (route, name) in lesson.heard or not name:
        return lesson
    return replace(lesson, heard=(*lesson.heard, (route, name)), first_ms=first)


def outcome(lesson: Lesson, at_ms: float) -> LearnedKey | NotLearned | None:
    """The key, the reason why not, or None while there is still something to wait for."""
    if lesson.first_ms is None:
        return NotLearned(NOTHING) if at_ms - lesson.began_ms >= PATIENCE_MS else None
    if at_ms - lesson.first_ms < OTHER_ROUTES_MS:
        return None
    names = dict.fromkeys(name for _, name in lesson.heard)
    for route in Route:
        on_route = [name for heard, name in lesson.heard if heard is route]
        if len(on_route) > 1:
            return NotLearned(SEVERAL.format(names=", ".join(on_route)))
    for name in names:
        if name in lesson.refused:
            return NotLearned(REFUSED.format(name=name, why=lesson.refused[name]))
    for other in lesson.others:
        for route, name in lesson.heard:
            if other.switch != lesson.switch and other.name_on(route) == name:
                return NotLearned(TAKEN.format(name=name, switch=other.switch))
    by_route = dict(lesson.heard)
    return LearnedKey(
        lesson.switch,
        terminal=by_route.get(Route.TERMINAL, ""),
        pynput=by_route.get(Route.PYNPUT, ""),
        evdev=by_route.get(Route.EVDEV, ""),
    )


def told(key: LearnedKey) -> str:
    """What was learned and where it works, as a sentence.

    >>> told(LearnedKey(1, terminal="pagedown"))
    'Switch 1 is “pagedown”, while this window has focus.'
    """
    name = key.terminal or key.pynput or key.evdev.partition("@")[0]
    everywhere = bool(key.pynput or key.evdev)
    if everywhere and not key.terminal:
        return f"Switch {key.switch} is “{name}”, in every window, though the terminal itself doesn't see it."
    where = "in every window" if everywhere else "while this window has focus"
    return f"Switch {key.switch} is “{name}”, {where}."


def with_key(keys: tuple[LearnedKey, ...], key: LearnedKey) -> tuple[LearnedKey, ...]:
    """The switches with this one learned, in order."""
    kept = (each for each in keys if each.switch != key.switch)
    return tuple(sorted((*kept, key), key=lambda each: each.switch))
