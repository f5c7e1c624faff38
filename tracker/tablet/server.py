"""The page at work: a server in threads of this process, and the one thing it shows.

Comes in: steps, by `put`, on the front end's thread; touches of the page, which are only passed on. Goes out:
the page, and every step to each browser that follows, the latest in full. A browser that sleeps or goes away
costs nothing: each has a thread of its own, is sent only what is the latest, and is let go when it takes nothing.

    NotShown        the page can't be had; str() is one sentence for the maker
"""

import errno
import json
import os
import secrets
import socket
import socketserver
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler
from typing import Any, ClassVar
from urllib.parse import parse_qs, urlsplit

from tracker.tablet.gate import Asking, Refusal, Rules, refused
from tracker.tablet.page import page
from tracker.tablet.told import Seen, told

KEY_BYTES = 12
"""Of the link's key: too many to be guessed, few enough for a code that fits a terminal of 24 rows."""
FOLLOWERS = 8
"""Browsers that may follow at once."""
_CONNECTIONS = 32
_PATIENCE_S = 10.0
"""How long a browser may take to ask, or to take what it is sent."""
_HERE_S = 4.0
"""After so long without a step the page is told that we are still here; three times as long is out of touch."""
_MOST_BYTES = 1_000

NUMBER = "number"
"""The name of a number alone, that answers a question; the page sends it with the number."""
TOUCHES = ("next", "back", "again", "undo", "where", "left", "pause", "listen", "yes", "no", NUMBER)
"""Commands, by their names in the table, that a page may ask for."""
_MOST = 999_999
"""The largest number that a page may send, as many digits as can be typed on the screen."""


class NotShown(Exception):
    """The page can't be had; the text is a sentence for the maker."""


class Tablet:
    """The page, from the moment it is made until it is closed."""

    def __init__(
        self, *, lan: bool = False, touch: bool = False, port: int = 0, here_s: float = _HERE_S
    ) -> None:
        """`port` 0: one that is free; `here_s`: how often the page is told at least that we are here.

        Raises NotShown.
        """
        host = lan_address() if lan else "127.0.0.1"
        self._post: Callable[[str, int], None] = lambda name, number: None
        self._latest = threading.Condition()
        self._seen: Seen | None = None
        self._number = 0
        self._written: tuple[int, bytes] = (0, b"")
        self._followers = 0
        self.here_s = here_s
        self._over = False
        try:
            self._server = _Server(("" if lan else host, port), _Asked, self)
        except OSError as error:
            raise NotShown(_why_not(error, port)) from None
        port = self._server.server_address[1]
        names = {host, "127.0.0.1", "localhost"}
        if lan:
            own = socket.gethostname().lower()
            names |= {own, f"{own.removesuffix('.local')}.local"}
        self.rules = Rules(secrets.token_urlsafe(KEY_BYTES), frozenset(names), port, touch)
        self.link = f"http://{host}:{port}/?k={self.rules.key}"
        """What is to be opened on the tablet."""
        self._thread = threading.Thread(
            target=self._server.serve_forever, args=(0.1,), name="tablet", daemon=True
        )
        self._thread.start()

    def begin(self, post: Callable[[str, int], None]) -> None:
        """From now on touches are passed on; `post` is called from other threads with a command's name and a number."""
        self._post = post

    def put(self, seen: Seen) -> None:
        """Show a step. Costs next to nothing: it is written out on the threads of those who follow."""
        with self._latest:
            if seen != self._seen:
                self._seen = seen
                self._number += 1
                self._latest.notify_all()

    def close(self) -> None:
        """Tell those who follow that it is over, and let them go."""
        with self._latest:
            self._over = True
            self._latest.notify_all()
            self._latest.wait_for(lambda: not self._followers, timeout=0.5)
        self._server.shutdown()
        self._server.server_close()
        self._thread.join(timeout=1)

    # -- for the threads that answer

    def touched(self, name: str, number: int) -> None:
        """A touch of the page."""
        self._post(name, number)

    def wait(self, seen: int) -> tuple[int, bytes] | None:
        """The latest step and its number as soon as that is another one; the same when nothing came for a while;
        None when it is over.
        """
        with self._latest:
            self._latest.wait_for(lambda: self._over or self._number != seen, timeout=self.here_s)
            if self._over:
                return None
            number, found = self._number, self._seen
            if self._written[0] == number:
                return self._written
        if found is None:
            return 0, b""
        written = json.dumps(told(found), ensure_ascii=False).encode("utf-8", "replace")
        with self._latest:
            if number > self._written[0]:
                self._written = (number, written)
        return number, written

    @contextmanager
    def following(self) -> Iterator[bool]:
        """One more who follows; false when there are too many."""
        with self._latest:
            may = self._followers < FOLLOWERS
            self._followers += may
        try:
            yield may
        finally:
            with self._latest:
                self._followers -= may
                self._latest.notify_all()


class _Server(socketserver.ThreadingTCPServer):
    daemon_threads = True
    # On Windows the same word would let another program take the port over.
    allow_reuse_address = os.name == "posix"
    request_queue_size = 16

    def __init__(self, address: tuple[str, int], handler: Any, tablet: Tablet) -> None:
        self.tablet = tablet
        self._room = threading.BoundedSemaphore(_CONNECTIONS)
        super().__init__(address, handler)

    def process_request(self, request: Any, client_address: Any) -> None:
        """One more connection, unless there are too many."""
        if self._room.acquire(blocking=False):
            super().process_request(request, client_address)
        else:
            self.shutdown_request(request)

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Answer it, and make room again."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._room.release()

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that went away is no news; a fault of ours must not be written into the screen."""


class _Asked(BaseHTTPRequestHandler):
    """One connection."""

    server: _Server
    timeout = _PATIENCE_S
    server_version = "rowteller"
    sys_version = ""
    _WHAT: ClassVar = {("GET", "/"): "page", ("GET", "/live"): "live", ("POST", "/do"): "do"}

    def do_GET(self) -> None:
        """The page, or what it follows."""
        self._answer("GET")

    def do_POST(self) -> None:
        """A touch."""
        self._answer("POST")

    def log_message(self, format: str, *args: Any) -> None:
        """Nothing is written down."""

    def _answer(self, method: str) -> None:
        asked = urlsplit(self.path)
        what = self._WHAT.get((method, asked.path), "")
        given = self.headers
        asking = Asking(
            method, what or "page", parse_qs(asked.query).get("k", [""])[0], given.get("Host"),
            given.get("Origin"), given.get("Sec-Fetch-Site"), given.get("Sec-Fetch-Dest"),
        )  # fmt: skip
        refusal = refused(asking, self.server.tablet.rules, self.connection.getsockname()[0])
        if refusal is None and not what:
            refusal = Refusal(404, "There is nothing here.")
        if refusal is not None:
            self._give(refusal.status, "text/plain", refusal.sentence.encode() + b"\n")
        elif what == "page":
            nonce = secrets.token_urlsafe(12)
            tablet = self.server.tablet
            written = page(nonce, tablet.rules.touch, round(3_000 * tablet.here_s))
            self._give(200, "text/html", written.encode(), _guard(nonce))
        elif what == "live":
            self._follow()
        else:
            self._touch()

    def _touch(self) -> None:
        length = self.headers.get("Content-Length", "")
        if not length.isascii() or not length.isdecimal() or int(length) > _MOST_BYTES:
            self._give(413, "text/plain", b"That is more than a touch.\n")
            return
        try:
            asked = json.loads(self.rfile.read(int(length)))
        except ValueError:
            asked = None
        name = asked.get("do") if isinstance(asked, dict) else None
        number = asked.get("number") if isinstance(asked, dict) and name == NUMBER else 0
        if name not in TOUCHES or type(number) is not int or not 0 <= number <= _MOST:
            self._give(400, "text/plain", b"The page cannot ask for that.\n")
            return
        self.server.tablet.touched(str(name), number)
        self._give(204, "text/plain", b"")

    def _follow(self) -> None:
        tablet = self.server.tablet
        with tablet.following() as may:
            if not may:
                self._give(503, "text/plain", b"Too many follow already; close the page elsewhere.\n")
                return
            self.connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._head(200, "text/event-stream", {})
            self.wfile.write(b"retry: 1000\n\n")
            number = -1
            while (latest := tablet.wait(number)) is not None:
                if latest[0] == number or not latest[1]:
                    self.wfile.write(b"event: here\ndata: 1\n\n")
                else:
                    self.wfile.write(b"data: " + latest[1] + b"\n\n")
                number = latest[0]
            self.wfile.write(b"event: over\ndata: 1\n\n")

    def _give(self, status: int, kind: str, body: bytes, more: dict[str, str] | None = None) -> None:
        self._head(status, kind, {"Content-Length": str(len(body)), **(more or {})})
        self.wfile.write(body)

    def _head(self, status: int, kind: str, more: dict[str, str]) -> None:
        self.send_response(status)
        always = {
            "Content-Type": f"{kind}; charset=utf-8",
            "Cache-Control": "no-store",
            "Connection": "close",
            "X-Content-Type-Options": "nosniff",
            "X-Frame-Options": "DENY",
            "Referrer-Policy": "no-referrer",
            "Cross-Origin-Resource-Policy": "same-origin",
        }
        for name, value in (always | more).items():
            self.send_header(name, value)
        self.end_headers()
        self.close_connection = True


def _guard(nonce: str) -> dict[str, str]:
    """Nothing but the page's own words runs in it, and nothing of it goes elsewhere."""
    own = f"'nonce-{nonce}'"
    return {
        "Content-Security-Policy": f"default-src 'none'; script-src {own}; style-src {own}; connect-src 'self'; "
        "img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
        "Cross-Origin-Opener-Policy": "same-origin",
    }


def lan_address() -> str:
    """This machine's address in its network. Raises NotShown when it is in none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Nothing is sent: this only asks which way such an address (one kept for documents) would be reached.
            probe.connect(("198.51.100.1", 9))
            found = str(probe.getsockname()[0])
        except OSError:
            found = ""
    if not found or found.startswith("127.") or found == "0.0.0.0":
        raise NotShown(
            "This machine is in no network that a tablet could be in, too; "
            "without --lan the page is shown here alone."
        )
    return found


def _why_not(error: OSError, port: int) -> str:
    if error.errno == errno.EADDRINUSE or (sys.platform == "win32" and error.errno == 10048):
        return f"Port {port} is in use by another program; name another with --port, or leave --port out."
    if error.errno in (errno.EACCES, errno.EPERM):
        return f"Port {port} is not for everyone to use; name one above 1023 with --port."
    return f"The page cannot be shown ({error.strerror or error})."
