"""A display where there is none: an X server with no screen to it, a window with the keys in it, and fingers.

Comes in: nothing. Goes out, from `virtual_display()`: a Display whose keys are pressed for real, by the
server's own XTEST extension. Promises that the server is gone when the block ends, and one clear RuntimeError
when Xvfb is not installed.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from Xlib import XK, X, display
from Xlib.ext import xtest


@dataclass(frozen=True, slots=True)
class Display:
    """A running X server and a window in it that has the keys: the maker's mail, say."""

    name: str
    """As DISPLAY has it."""
    server: subprocess.Popen[bytes]
    wire: Any
    """Our connection, which presses and holds the other window."""
    window: Any
    pressed: dict[int, str] = field(default_factory=dict)
    """Every key pressed so far: its name by its code."""

    def down(self, key: str) -> None:
        """Press a key, by X's name for it, and leave it down."""
        self._touch(X.KeyPress, key)

    def up(self, key: str) -> None:
        """Let it go."""
        self._touch(X.KeyRelease, key)

    def tap(self, key: str) -> None:
        """Press it and let it go."""
        self.down(key)
        self.up(key)

    def arrived(self) -> list[str]:
        """The keys that went down in the window since this was last asked."""
        self.wire.sync()
        keys = []
        while self.wire.pending_events():
            event = self.wire.next_event()
            if event.type == X.KeyPress:
                keys.append(self.pressed[event.detail])
        return keys

    def has_the_keys(self) -> bool:
        """Whether the window has the input focus, as the server says."""
        return bool(self.wire.get_input_focus().focus == self.window)

    def _touch(self, what: int, key: str) -> None:
        code = self.wire.keysym_to_keycode(XK.string_to_keysym(key))
        assert code, f"this keyboard has no {key}"
        self.pressed[code] = key
        xtest.fake_input(self.wire, what, code)
        self.wire.sync()


@contextmanager
def virtual_display() -> Iterator[Display]:
    """A virtual display for as long as the block lasts; DISPLAY names it meanwhile."""
    if shutil.which("Xvfb") is None:
        raise RuntimeError("No Xvfb: apt-get install xvfb")
    told, tells = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(tells), "-screen", "0", "640x480x24", "-nolisten", "tcp", "-noreset"],
        pass_fds=(tells,),
        stderr=subprocess.DEVNULL,
    )
    os.close(tells)
    before = os.environ.get("DISPLAY")
    try:
        with os.fdopen(told) as number:
            name = f":{number.readline().strip()}"
        os.environ["DISPLAY"] = name
        wire = display.Display(name)
        screen = wire.screen()
        window = screen.root.create_window(0, 0, 100, 100, 0, screen.root_depth, event_mask=X.KeyPressMask)
        window.map()
        wire.sync()
        window.set_input_focus(X.RevertToParent, X.CurrentTime)
        wire.sync()
        yield Display(name, server, wire, window)
    finally:
        if before is None:
            os.environ.pop("DISPLAY", None)
        else:
            os.environ["DISPLAY"] = before
        server.terminate()
        server.wait(timeout=10)
