"""The page shown to the network it is in (`--lan`): under this machine's own address, to whoever has the link.

Without it nothing answers there. Where this machine is in no network the tests that need one are left out, and say so.
"""

import http.client
import json
import re
import socket
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

if sys.platform == "win32":
    pytest.skip("Windows has no pty, and the browser is led through a pipe", allow_module_level=True)

import zxingcpp
from on_the_hook import sample, worked
from PIL import Image
from pretend_tablet import SOON_S, Browser, browser
from pretend_terminal import terminal
from test_tablet_browser import work

from tracker.samples import samples
from tracker.session.seen.view import view
from tracker.session.state import begun
from tracker.tablet.server import NotShown, Tablet, lan_address
from tracker.tablet.told import Seen

ROOT = Path(__file__).resolve().parents[2]
PATTERN = str(samples()["harbour-windows"])


@pytest.fixture
def address() -> str:
    """This machine's address in its network."""
    try:
        return lan_address()
    except NotShown as error:
        pytest.skip(str(error))


@pytest.fixture
def tablet(address: str) -> Iterator[Tablet]:
    made = Tablet(lan=True, touch=True)
    session, _ = worked(begun(sample("harbour-windows")), "row 8", "yes")
    made.put(Seen(view(session), "Row eight."))
    yield made
    made.close()


def asked(at: str, port: int, method: str, path: str, body: str = "", **headers: str) -> tuple[int, str]:
    """What a request to that address is answered."""
    wire = http.client.HTTPConnection(at, port, timeout=20)
    wire.putrequest(method, path, skip_host=True)
    own = {"Host": f"{at}:{port}"} | headers | ({"Content-Length": str(len(body))} if body else {})
    for name, value in own.items():
        wire.putheader(name, value)
    wire.endheaders(body.encode() if body else None)
    found = wire.getresponse()
    said = found.status, found.read().decode()
    wire.close()
    return said


def test_without_it_nothing_answers_at_this_machines_address(address: str) -> None:
    """The page is for this machine alone, and its link says so."""
    made = Tablet()
    try:
        assert urlsplit(made.link).hostname == "127.0.0.1"
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection((address, made.rules.port), timeout=5)
    finally:
        made.close()


def test_the_link_opens_by_every_name_of_this_machine_and_by_no_other(tablet: Tablet, address: str) -> None:
    """Its address, its own name, this machine to itself; never a name that somebody else points here."""
    port, key = tablet.rules.port, f"?k={tablet.rules.key}"
    assert tablet.link == f"http://{address}:{port}/{key}"
    own = socket.gethostname().lower().removesuffix(".local")
    for at, name in (
        (address, address),
        ("127.0.0.1", "127.0.0.1"),
        ("127.0.0.1", "localhost"),
        (address, own),
        (address, own.upper()),
        (address, f"{own}.local"),
    ):
        status, page = asked(at, port, "GET", f"/{key}", Host=f"{name}:{port}")
        assert (status, "<!doctype html>" in page) == (200, True), name
    for wrong in (
        f"rebound.example:{port}",
        f"{address}.example:{port}",
        f"{own}.example:{port}",
        f"{address}:{port + 1}",
        address,
        "198.51.100.7:80",
    ):
        status, page = asked(address, port, "GET", f"/{key}", Host=wrong)
        assert (status, "HARBOUR" in page) == (421, False), wrong


def test_in_the_network_too_only_the_link_lets_in_and_only_the_page_moves(
    tablet: Tablet, address: str
) -> None:
    """No key, a guessed one, a foreign origin, a touch from nowhere: refused, and nothing moved."""
    port, key = tablet.rules.port, f"?k={tablet.rules.key}"
    moved: list[str] = []
    tablet.begin(lambda name, number: moved.append(name))
    touch = json.dumps({"do": "next"})
    assert asked(address, port, "GET", "/")[0] == 403
    assert asked(address, port, "GET", "/live?k=guessed")[0] == 403
    assert asked(address, port, "GET", f"/live{key}", Origin="http://198.51.100.7")[0] == 403
    assert asked(address, port, "POST", f"/do{key}", touch)[0] == 403
    assert asked(address, port, "POST", f"/do{key}", touch, Origin="http://evil.example")[0] == 403
    # The origin is of the name that was asked: one of ours under another of our names is another page.
    assert asked(address, port, "POST", f"/do{key}", touch, Origin=f"http://localhost:{port}")[0] == 403
    assert moved == []
    assert asked(address, port, "POST", f"/do{key}", touch, Origin=f"http://{address}:{port}")[0] == 204
    assert moved == ["next"]


def test_without_touch_the_network_only_looks_on(address: str) -> None:
    """`--lan` alone gives nobody a key."""
    made = Tablet(lan=True)
    try:
        port, key = made.rules.port, f"?k={made.rules.key}"
        answer = asked(
            address, port, "POST", f"/do{key}", json.dumps({"do": "next"}), Origin=f"http://{address}:{port}"
        )
        assert answer[0] == 403
        assert "--touch" in answer[1]
    finally:
        made.close()


def test_a_camera_reads_the_link_off_the_real_terminal(address: str, tmp_path: Path) -> None:
    """The code on a screen of 80 by 24, read by ZXing, is the link that is written beside it."""
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "settings.json").write_text('{"ear": "off"}')
    words = [sys.executable, "-m", "tracker", "work", PATTERN, "--quiet", "--show", "--lan"]
    with terminal(words, tmp_path, PYTHONPATH=str(ROOT)) as screen:
        screen.until("space begins")
        ends = time.monotonic() + SOON_S
        while not (found := zxingcpp.read_barcodes(photographed(screen.text))) and time.monotonic() < ends:
            screen.read(0.1)
        seen = screen.text
        screen.press("qq")
        screen.until_over()
    (link,) = [each.text for each in found]
    assert re.fullmatch(rf"http://{re.escape(address)}:\d+/\?k=[\w-]{{16,}}", link)
    written = re.sub(r"[ █▀▄\n]", "", seen)
    assert link in written


def photographed(screen: str) -> Image.Image:
    """A terminal in light letters on a dark ground: of its signs only the half blocks matter."""
    lines = screen.splitlines()
    image = Image.new("L", (max(map(len, lines)) * 4, len(lines) * 8), 0)
    for y, line in enumerate(lines):
        for x, sign in enumerate(line):
            for half in (0, 1):
                if sign == "█" or sign == "▀▄"[half]:
                    image.paste(255, (x * 4, y * 8 + half * 4, x * 4 + 4, y * 8 + half * 4 + 4))
    return image


@pytest.fixture(scope="module")
def tablets(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    with browser(tmp_path_factory.mktemp("browser")) as found:
        yield found
        found.close_pages()


def test_a_tablet_in_the_network_follows_and_with_touch_moves_the_work(
    address: str, tablets: Browser, tmp_path: Path
) -> None:
    """In a real browser, by the address of the network; another that came by this machine's own name follows it."""
    with work(tmp_path, "--lan", "--touch") as made:
        assert urlsplit(made.link).hostname == address
        page = tablets.open(made.link, 820, 1180)
        beside = tablets.open(made.link.replace(address, "localhost"))
        for each in (page, beside):
            each.until("hand", "Ch 35")
        page.js("document.querySelector('[data-do=next]').click()")
        made.line("Row one, right side.")
        for each in (page, beside):
            each.until("where", "Row 1 of 15")
        beside.js("document.querySelector('[data-do=back]').click()")
        page.until("hand", "Ch 35")
        # A page that a stranger's name led here shows nothing of it.
        port = urlsplit(made.link).port
        rebound = tablets.open(f"http://rebound.example:{port}/?{urlsplit(made.link).query}")
        rebound.js("new Promise((done) => setTimeout(done, 300))")
        assert "not known by that name" in rebound.js("document.body.innerText")
