"""The seam to the pedal: the values that pass, and what every route does.

    PedalFault              the route isn't to be had, or ended; str() is one sentence for the maker

A press only ever goes to a callback: nothing is written down, shown or kept here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Protocol

SWITCHES = (1, 2, 3)
"""The switches a pedal may have."""


class PedalFault(Exception):
    """A route isn't to be had; the text is a sentence for the maker."""


class Route(Enum):
    """How a press reached us."""

    TERMINAL = "terminal"
    """The terminal's own keys: only while its window has focus, and a release is never told."""
    PYNPUT = "pynput"
    """The keys of the whole desktop; tells press and release."""
    EVDEV = "evdev"
    """The keys as the Linux kernel reads them; tells press and release."""


class Edge(Enum):
    """What a route said of a key."""

    DOWN = "down"
    UP = "up"
    STROKE = "stroke"
    """A press on a route that never tells the release."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """One thing a route said of a learned key."""

    switch: int
    """1, 2 or 3."""
    edge: Edge
    route: Route
    at_ms: float
    """Milliseconds of a clock that only goes forward."""


class Press(Enum):
    """What the foot did."""

    TAP = "tap"
    DOUBLE_TAP = "double tap"
    HOLD = "hold"


@dataclass(frozen=True, slots=True)
class PedalPress:
    """One press. A tap is told at once; double tap and hold, known later, say which presses weren't meant."""

    press: Press
    switch: int
    """1, 2 or 3."""
    route: Route
    at_ms: float
    """When it was known, on the clock of its strokes."""
    takes_back: tuple[Press, ...] = ()
    """Presses of this switch, told before, that were part of this one, latest first: undo what they did."""


@dataclass(frozen=True, slots=True)
class LearnedKey:
    """The key of a switch, by the name each route has for it; an empty name: that route doesn't see it."""

    switch: int
    """1, 2 or 3."""
    terminal: str = ""
    """As the screen names it ("pagedown", "f13", "b")."""
    pynput: str = ""
    """As pynput_keys.py names it ("page_down", "vk:65481", "char:b")."""
    evdev: str = ""
    """As evdev_keys.py names it ("109", or "109@" and the name of the one device to be read)."""

    def name_on(self, route: Route) -> str:
        """Its name on this route."""
        return {Route.TERMINAL: self.terminal, Route.PYNPUT: self.pynput, Route.EVDEV: self.evdev}[route]


class Listening(Protocol):
    """A route that hears learned keys while its window has no focus."""

    def start(self) -> None:
        """Begin. Raises PedalFault with the reason when the route isn't to be had here."""
        ...

    def stop(self) -> None:
        """End; harmless when it never began or has ended."""
        ...


def background_route(platform: str, environ: Mapping[str, str]) -> Route | None:
    """The route that hears a press while another window has focus, by sys.platform and os.environ.

    >>> background_route("linux", {"XDG_SESSION_TYPE": "wayland", "DISPLAY": ":0"}).value
    'evdev'
    """
    if platform in {"win32", "darwin"}:
        return Route.PYNPUT
    if not platform.startswith("linux"):
        return None
    wayland = environ.get("XDG_SESSION_TYPE") == "wayland" or bool(environ.get("WAYLAND_DISPLAY"))
    return Route.PYNPUT if environ.get("DISPLAY") and not wayland else Route.EVDEV
