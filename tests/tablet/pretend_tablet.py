"""A tablet where there is none: Debian's Chromium without a window, led through its own pipe.

Comes in: a page's address. Goes out: what its document says, what was refused, and pictures. Promises that the browser
is gone when the block ends, and one clear RuntimeError when no Chromium is installed. The pipe is Chromium's
own way to be led (--remote-debugging-pipe, "Chrome DevTools Protocol"): JSON ended by a zero byte.
"""

from __future__ import annotations

import base64
import json
import os
import select
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome")
SOON_S = 40


class Browser:
    """A running browser."""

    def __init__(self, given: int, taken: int) -> None:
        self._given, self._taken = given, taken
        self._rest = b""
        self._number = 0
        self._contexts: list[str] = []
        self.told: list[dict[str, Any]] = []
        """What it told of itself since it was last looked at."""

    def ask(self, method: str, session: str = "", **words: Any) -> dict[str, Any]:
        """Ask for one thing and wait for the answer."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": words}
        if session:
            message["sessionId"] = session
        os.write(self._given, json.dumps(message).encode() + b"\0")
        ends = time.monotonic() + SOON_S
        while True:
            answer = self._read(ends - time.monotonic())
            if answer.get("id") == self._number:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                found: dict[str, Any] = answer["result"]
                return found
            self.told.append(answer)

    def _read(self, seconds: float) -> dict[str, Any]:
        while b"\0" not in self._rest:
            if seconds <= 0 or not select.select([self._taken], [], [], seconds)[0]:
                raise RuntimeError("Chromium did not answer")
            block = os.read(self._taken, 1 << 16)
            if not block:
                raise RuntimeError("Chromium ended")
            self._rest += block
        message, self._rest = self._rest.split(b"\0", 1)
        found: dict[str, Any] = json.loads(message)
        return found

    def open(self, address: str, width: int = 1024, height: int = 768) -> Page:
        """A page of its own, apart from all others."""
        context = self.ask("Target.createBrowserContext")["browserContextId"]
        self._contexts.append(context)
        target = self.ask("Target.createTarget", url="about:blank", browserContextId=context)["targetId"]
        session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        page = Page(self, session)
        page.sized(width, height)
        page.ask("Page.enable")
        page.go(address)
        return page

    def close_pages(self) -> None:
        """Close all that is open."""
        while self._contexts:
            self.ask("Target.disposeBrowserContext", browserContextId=self._contexts.pop())


class Page:
    """One page."""

    def __init__(self, browser: Browser, session: str) -> None:
        self._browser, self._session = browser, session

    def ask(self, method: str, **words: Any) -> dict[str, Any]:
        """Ask for one thing."""
        return self._browser.ask(method, self._session, **words)

    def go(self, address: str) -> None:
        """Open an address."""
        self.ask("Page.navigate", url=address)

    def sized(self, width: int, height: int) -> None:
        """Hold the tablet another way."""
        self.ask(
            "Emulation.setDeviceMetricsOverride",
            width=width,
            height=height,
            deviceScaleFactor=1,
            mobile=False,
        )

    def js(self, words: str) -> Any:
        """What an expression gives, promises waited for."""
        found = self.ask("Runtime.evaluate", expression=words, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in found:
            raise RuntimeError(str(found["exceptionDetails"])[:400])
        return found["result"].get("value")

    def text(self, name: str) -> str:
        """What an element says, by its id."""
        return str(self.js(f"document.getElementById('{name}')?.textContent ?? ''"))

    def until(self, name: str, words: str) -> str:
        """What an element says once these words are in it."""
        ends = time.monotonic() + SOON_S
        while words not in (said := self.text(name)):
            if time.monotonic() > ends:
                body = self.js("document.body.innerText")
                raise AssertionError(
                    f"{words!r} never came into {name}, which says {said!r}; the page: {body!r}"
                )
            time.sleep(0.02)
        return said

    def picture(self) -> bytes:
        """The page as a PNG."""
        return base64.b64decode(self.ask("Page.captureScreenshot", format="png")["data"])


def chromium() -> str:
    """The browser's program; raises RuntimeError when there is none."""
    for name in NAMES:
        if found := shutil.which(name):
            return found
    raise RuntimeError("No Chromium is installed: apt-get install chromium")


@contextmanager
def browser(folder: Path) -> Iterator[Browser]:
    """A browser whose own files are in the folder; gone when the block ends."""
    to_read, given = os.pipe()
    taken, to_write = os.pipe()

    def laid() -> None:
        """It reads from 3 and writes to 4; both are moved out of each other's way first."""
        a, b = os.dup(to_read), os.dup(to_write)
        a, b = (os.dup(each) if each in (3, 4) else each for each in (a, b))
        os.dup2(a, 3)
        os.dup2(b, 4)

    words = [
        chromium(), "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
        "--remote-debugging-pipe", f"--user-data-dir={folder / 'browser'}", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--host-resolver-rules=MAP *.example 127.0.0.1", "--disable-features=LocalNetworkAccessChecks",
        "about:blank",
    ]  # fmt: skip
    program = subprocess.Popen(
        words, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        close_fds=False, preexec_fn=laid,
    )  # fmt: skip
    os.close(to_read)
    os.close(to_write)
    try:
        yield Browser(given, taken)
    finally:
        os.close(given)
        os.close(taken)
        program.terminate()
        try:
            program.wait(timeout=10)
        except subprocess.TimeoutExpired:
            program.kill()
            program.wait()
