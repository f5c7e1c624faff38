"""The page in a real browser: it follows, it survives sleep and a lost connection, and strangers get nowhere.

Debian's Chromium without a window, the real command in the other process.
"""

import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

import pytest

if sys.platform == "win32":
    pytest.skip("The browser is led through a pipe that Windows has not", allow_module_level=True)

from pretend_tablet import SOON_S, Browser, Page, browser

from tracker.samples import samples

ROOT = Path(__file__).resolve().parents[2]
PATTERN = str(samples()["harbour-windows"])


@pytest.fixture(scope="module")
def chromium(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("browser")) as found:
        yield found


@pytest.fixture
def tablets(chromium: Browser) -> Iterator[Browser]:
    yield chromium
    chromium.close_pages()


class Work:
    """`rowteller work --plain --show` at work."""

    def __init__(self, folder: Path, *words: str, pattern: str = PATTERN) -> None:
        env = os.environ | {"ROWTELLER_HOME": str(folder), "PYTHONPATH": str(ROOT)}
        self.program = subprocess.Popen(
            [sys.executable, "-u", "-m", "tracker", "work", pattern, "--plain", "--quiet", "--show", *words],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=env, cwd=folder,
        )  # fmt: skip
        self.link = self.line("http://").partition("tablet: ")[2].strip()

    def line(self, words: str) -> str:
        """The next line that has these words in it."""
        assert self.program.stdout is not None
        for line in self.program.stdout:
            if words in line:
                return line
        raise AssertionError(f"{words!r} was never written")

    def say(self, words: str) -> None:
        """A deed, typed."""
        assert self.program.stdin is not None
        self.program.stdin.write(words + "\n")
        self.program.stdin.flush()


@contextmanager
def work(folder: Path, *words: str, pattern: str = PATTERN) -> Iterator[Work]:
    (folder / "settings.json").write_text('{"ear": "off"}')
    found = Work(folder, *words, pattern=pattern)
    try:
        yield found
    finally:
        found.program.kill()
        found.program.communicate()


class Stranger(BaseHTTPRequestHandler):
    """Somebody else's page."""

    def do_GET(self) -> None:
        """An empty page of theirs."""
        body = b"<!doctype html><title>theirs</title><p>Knit with us"
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:
        """Silent."""


@contextmanager
def stranger() -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), Stranger)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://evil.example:{server.server_address[1]}/"
    finally:
        server.shutdown()
        server.server_close()


def test_two_tablets_follow_every_step_and_are_told_of_the_end(tablets: Browser, tmp_path: Path) -> None:
    """One from the start, one that comes later; both show the same, and neither has keys to move it."""
    with work(tmp_path) as made:
        first = tablets.open(made.link)
        first.until("hand", "Ch 35")
        made.say("next")
        first.until("where", "Row 1 of 15")
        second = tablets.open(made.link, 768, 1024)
        second.until("where", "Row 1 of 15")
        for line in ("row 8", "yes", "next", "next", "next"):
            made.say(line)
        for page in (first, second):
            page.until("tally", "2 of 4")
            assert page.text("where") == "Row 8 of 15"
            assert page.text("counted") == "3 of 16 squares"
            assert page.js("document.querySelectorAll('#fabric .hand .now').length") == 1
            assert page.js("document.querySelector('#keys').offsetHeight") == 0
            assert page.js("document.querySelector('#words b').textContent") == "ch 1, sk 1 dc, dc in next dc"
            # Nothing is wider than the page, and the group is as large as it can be.
            assert page.js("document.documentElement.scrollWidth <= innerWidth")
            assert page.js("parseFloat(getComputedStyle(document.getElementById('hand')).fontSize)") > 40
        made.say("stop")
        for page in (first, second):
            page.until("link", "The work was put down")
        assert made.program.wait(SOON_S) == 0


def test_with_touch_the_page_moves_the_work(tablets: Browser, tmp_path: Path) -> None:
    """A key of the page is a deed like any other: kept, told in the terminal, shown to all."""
    with work(tmp_path, "--touch") as made:
        page, other = tablets.open(made.link), tablets.open(made.link)
        other.until("hand", "Ch 35")
        page.until("hand", "Ch 35")
        page.js("document.querySelector('[data-do=next]').click()")
        made.line("Row one, right side.")
        for each in (page, other):
            each.until("where", "Row 1 of 15")
        made.say("row 12")
        page.until("said", "Row twelve. Go there?")
        page.js("document.querySelector('[data-do=yes]').click()")
        other.until("where", "Row 12 of 15")
        page.js("document.querySelector('[data-do=back]').click()")
        other.until("where", "Row 11 of 15")


def test_a_question_for_a_number_has_no_yes_on_the_page(tablets: Browser, tmp_path: Path) -> None:
    """Yes and no where they answer; where a number is asked for only that it can't be told; else neither."""
    shown = (
        "[...document.querySelectorAll('#answers button')].filter(b => b.offsetHeight).map(b => b.innerText)"
    )
    with work(tmp_path, "--touch") as made:
        page = tablets.open(made.link, 820, 1180)
        page.until("hand", "Ch 35")
        assert page.js(shown) == []
        made.say("row 6")
        page.until("said", "Go there?")
        assert page.js(shown) == ["yes", "no"]
        ground = "getComputedStyle(document.getElementById({!r})).backgroundColor"
        assert page.js(ground.format("yes")) != page.js(ground.format("no"))
        assert page.js(ground.format("no")) == page.js("getComputedStyle(document.body).backgroundColor")
        page.js("document.querySelector('[data-do=yes]').click()")
        page.until("where", "Row 6 of 15")
        assert page.js(shown) == []
        assert page.js("document.getElementById('pad').offsetHeight") == 0
        made.say("i am lost")
        page.until("said", "How many stitches are on this row so far?")
        assert page.js(shown) == ["can't tell"]
        assert page.js("document.getElementById('pad').offsetHeight")
        page.js("document.querySelector('[data-do=no]').click()")
        page.js("new Promise((done) => setTimeout(done, 200))")
        assert "How many stitches are on this row so far?" not in page.text("said")
        # What a finger has to hit is large enough: 44 points, as guides for touch ask (WCAG 2.2, 2.5.5).
        sizes = page.js(
            "[...document.querySelectorAll('button')].filter(b => b.offsetHeight)"
            ".map(b => Math.min(b.offsetHeight, b.offsetWidth))"
        )
        assert min(sizes) >= 44


def test_a_number_is_answered_by_touch(tablets: Browser, tmp_path: Path) -> None:
    """Figures in the place of the keys, one taken back; what is sent is the number, and the question goes on."""
    with work(tmp_path, "--touch") as made:
        page = tablets.open(made.link, 844, 390)
        page.until("hand", "Ch 35")
        for line in ("row 6", "yes", "i am lost"):
            made.say(line)
        page.until("said", "How many stitches are on this row so far?")
        assert page.text("typed") == "–"
        assert page.js("document.getElementById('tell').disabled")
        assert page.js("document.getElementById('keys').offsetHeight") == 0
        for figure in "028":
            page.js(f"document.querySelector('[data-digit=\"{figure}\"]').click()")
        assert page.text("typed") == "28"
        page.js("document.getElementById('erase').click()")
        assert page.text("typed") == "2"
        for size in ((844, 390), (820, 1180), (390, 844)):
            page.sized(*size)
            sizes = page.js(
                "[...document.querySelectorAll('#pad button')].map(b => Math.min(b.offsetHeight, b.offsetWidth))"
            )
            assert len(sizes) == 12
            assert min(sizes) >= 44, size
            assert page.js("document.documentElement.scrollWidth <= innerWidth")
        page.js("document.getElementById('tell').click()")
        page.until("said", "How many rows are finished?")
        assert page.until("typed", "–") == "–"


def test_a_round_lies_around_its_middle_beside_the_words(tablets: Browser, tmp_path: Path) -> None:
    """The square with its corners, nothing out of sight, and nothing that jumps from the chain to the last round."""
    with work(tmp_path, pattern=str(samples()["crossroads-square"])) as made:
        page = tablets.open(made.link, 1180, 820)
        page.until("title", "CROSSROADS")
        box = "JSON.stringify(document.getElementById('fabric').getBoundingClientRect())"
        for line in ("next", "round 2", "yes", "next"):
            made.say(line)
        page.until("where", "Rnd 2 of 4")
        first = json.loads(page.js(box))
        assert first["width"] > 400
        assert first["height"] > 300
        made.say("round 3")
        made.say("yes")
        made.say("next")
        page.until("counted", "of 44 stitches")
        assert json.loads(page.js(box)) == first
        inside = (
            "[...document.querySelectorAll('#fabric svg use')].every((use) => { const u = use.getBoundingClientRect(),"
            " f = document.getElementById('fabric').getBoundingClientRect();"
            " return u.left >= f.left - 2 && u.right <= f.right + 2 && u.top >= f.top - 2 && u.bottom <= f.bottom + 2 })"
        )
        assert page.js(inside)
        heavy, thin = (
            float(
                page.js(
                    f"parseFloat(getComputedStyle(document.querySelector('#fabric .hand {state} use')).strokeWidth)"
                )
            )
            for state in (".now", ".coming")
        )
        assert heavy > thin
        dashed = "getComputedStyle(document.querySelector('#fabric .hand .coming use')).strokeDasharray"
        assert page.js(dashed) != "none"
        for size in ((820, 1180), (844, 390)):
            page.sized(*size)
            assert page.js(inside), size
            assert page.js("document.documentElement.scrollWidth <= innerWidth")


def test_a_page_out_of_touch_shows_where_the_work_is_once_it_is_back(
    tablets: Browser, tmp_path: Path
) -> None:
    """The network goes away for three steps; what is then shown is the latest, in full."""
    with work(tmp_path) as made:
        page = tablets.open(made.link)
        page.until("hand", "Ch 35")
        page.ask("Network.enable")
        offline = {"latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}
        page.ask("Network.emulateNetworkConditions", offline=True, **offline)
        for line in ("row 8", "yes", "next", "next", "next"):
            made.say(line)
        made.line("2 of 4")
        page.ask("Network.emulateNetworkConditions", offline=False, **offline)
        page.js("dispatchEvent(new Event('online'))")
        page.until("tally", "2 of 4")
        assert page.text("where") == "Row 8 of 15"
        assert page.text("link") == ""


def test_a_line_that_looks_open_and_is_dead_is_noticed(tablets: Browser, tmp_path: Path) -> None:
    """The other machine sleeps with the line open: the page says so, asks anew, and follows when it wakes."""
    sleeper = (
        "import sys\n"
        "from tests.on_the_hook import sample, worked\n"
        "from tracker.session.state import begun\n"
        "from tracker.session.seen.view import view\n"
        "from tracker.tablet.server import Tablet\n"
        "from tracker.tablet.told import Seen\n"
        "tablet, session = Tablet(here_s=0.3), begun(sample('harbour-windows'))\n"
        "tablet.put(Seen(view(session)))\n"
        "print(tablet.link, flush=True)\n"
        "for line in sys.stdin:\n"
        "    session, _ = worked(session, line)\n"
        "    tablet.put(Seen(view(session)))\n"
    )
    env = os.environ | {"PYTHONPATH": os.pathsep.join((str(ROOT), str(ROOT / "tests")))}
    program = subprocess.Popen(
        [sys.executable, "-c", sleeper], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=env
    )
    assert program.stdin is not None
    assert program.stdout is not None
    try:
        page = tablets.open(program.stdout.readline().strip())
        page.until("hand", "Ch 35")
        program.send_signal(signal.SIGSTOP)
        page.until("link", "Out of touch")
        assert page.text("hand") == "Ch 35."
        program.stdin.write("next\n")
        program.stdin.flush()
        program.send_signal(signal.SIGCONT)
        page.until("where", "Row 1 of 15")
        page.js("new Promise((done) => setTimeout(done, 1200))")
        assert page.text("link") == ""
    finally:
        program.kill()
        program.communicate()


def fetched(page: Page, address: str, **init: object) -> str:
    """What a script of this page gets from there: the status, or why it got nothing."""
    return str(
        page.js(
            f"fetch({json.dumps(address)}, {json.dumps(init)}).then(a => a.type + ' ' + a.status, e => 'refused')"
        )
    )


def test_a_strangers_page_can_neither_see_nor_move_the_work(tablets: Browser, tmp_path: Path) -> None:
    """Even one that knows the key: a foreign origin, a wrong host, a frame; and whoever lacks the key."""
    with work(tmp_path, "--touch") as made, stranger() as theirs:
        asked = urlsplit(made.link)
        key = f"?{asked.query}"
        own = tablets.open(made.link)
        own.until("hand", "Ch 35")
        page = tablets.open(theirs)
        ends = time.monotonic() + SOON_S
        while page.js("document.title") != "theirs" and time.monotonic() < ends:
            time.sleep(0.02)
        at = f"http://{asked.netloc}"
        touch = {"method": "POST", "body": '{"do": "next"}'}
        assert fetched(page, f"{at}/{key}") == "refused"
        assert fetched(page, f"{at}/live{key}") == "refused"
        assert fetched(page, f"{at}/do{key}", **touch) == "refused"
        # "no-cors" lets a request out blindly; nothing may come of it.
        assert fetched(page, f"{at}/do{key}", mode="no-cors", **touch) in ("opaque 0", "refused")
        assert (
            page.js(
                "new Promise((done) => { const s = new EventSource("
                f"{json.dumps(at + '/live' + key)});"
                "s.onmessage = () => done('saw it'); s.onerror = () => done('refused'); })"
            )
            == "refused"
        )
        page.js(
            f'document.body.innerHTML = \'<form method=post action="{at}/do{key}" enctype=text/plain target=f>'
            '<input name=\\\'{"do":"next","x":"\\\' value=\\\'"}\\\'></form><iframe name=f></iframe>\';'
            "document.forms[0].submit()"
        )
        # The same server under a name of theirs that is pointed at this machine.
        rebound = tablets.open(f"http://rebound.example:{asked.port}/{key}")
        rebound.js("new Promise((done) => setTimeout(done, 300))")
        assert "not known by that name" in rebound.js("document.body.innerText")
        keyless = tablets.open(f"{at}/")
        keyless.js("new Promise((done) => setTimeout(done, 300))")
        assert "has a key in it" in keyless.js("document.body.innerText")
        # Nothing moved: the next deed that is done is the first.
        own.js("document.querySelector('[data-do=next]').click()")
        own.until("where", "Row 1 of 15")
        assert "0 of 16" in own.text("counted")


def test_the_phrase_in_hand_is_in_sight_in_the_makers_own_text(tablets: Browser, tmp_path: Path) -> None:
    """However far along a long row it stands."""
    with work(tmp_path) as made:
        page = tablets.open(made.link, 800, 600)
        page.until("hand", "Ch 35")
        for line in ("row 3", "yes", *["next"] * 9):
            made.say(line)
        page.until("counted", "13 of 16")
        inside = (
            "(() => { const box = document.getElementById('words').getBoundingClientRect(),"
            " mark = document.querySelector('#words b').getBoundingClientRect();"
            " return mark.top >= box.top - 2 && mark.top + 10 <= box.bottom })()"
        )
        assert page.js(inside)


def test_held_upright_the_repeat_is_read_to_its_end(tablets: Browser, tmp_path: Path) -> None:
    """On a tablet and on a phone; the head is as high where nothing is repeated."""
    with work(tmp_path) as made:
        page = tablets.open(made.link, 820, 1180)
        page.until("hand", "Ch 35")
        before = page.js("document.querySelector('header').offsetHeight")
        for line in ("row 9", "yes"):
            made.say(line)
        page.until("repeats", "row 3 again, second time of 2")
        whole = "(() => { const r = document.getElementById('repeats'); return r.scrollWidth <= r.clientWidth })()"
        assert page.js(whole)
        assert page.js("document.querySelector('header').offsetHeight") == before
        page.sized(412, 915)
        assert page.js(whole)
        assert page.js("document.documentElement.scrollWidth <= innerWidth")


def test_the_look_is_chosen_with_one_key_and_remembered(tablets: Browser, tmp_path: Path) -> None:
    """Dark, light, black and white; the page opened again has the last."""
    with work(tmp_path) as made:
        page = tablets.open(made.link)
        page.until("hand", "Ch 35")
        seen = []
        for _ in range(3):
            page.js("document.getElementById('look').click()")
            seen.append(page.js("getComputedStyle(document.body).backgroundColor"))
        assert len(set(seen)) == 3
        page.ask("Page.reload")
        page.until("hand", "Ch 35")
        assert page.js("getComputedStyle(document.body).backgroundColor") == seen[-1]
