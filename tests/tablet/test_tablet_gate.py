"""Who may see the page and who may touch it: every way in is tried, by a table and by a real server."""

import http.client
import json
import socket
from collections.abc import Iterator
from dataclasses import replace

import pytest
from on_the_hook import sample, worked

from tracker.session.seen.view import view
from tracker.session.state import begun
from tracker.tablet.gate import Asking, Rules, refused
from tracker.tablet.server import FOLLOWERS, NotShown, Tablet
from tracker.tablet.told import Seen

RULES = Rules("the-key", frozenset({"localhost", "127.0.0.1", "loom.local"}), 8123, True)
ASKING = Asking("POST", "do", "the-key", "127.0.0.1:8123", "http://127.0.0.1:8123", "same-origin", "empty")


def test_the_page_itself_is_let_in() -> None:
    """By each of this machine's names, and by the address that was reached; older browsers tell less."""
    assert refused(ASKING, RULES, "127.0.0.1") is None
    for host in ("localhost:8123", "LOOM.local:8123", "192.0.2.7:8123"):
        assert (
            refused(replace(ASKING, host=host, origin=f"http://{host.lower()}"), RULES, "192.0.2.7") is None
        )
    assert refused(replace(ASKING, site=None, into=None), RULES, "127.0.0.1") is None
    page = replace(ASKING, method="GET", what="page", origin=None, site="cross-site", into="document")
    assert refused(page, RULES, "127.0.0.1") is None


@pytest.mark.parametrize(
    "change, words",
    [
        ({"host": "evil.example:8123", "origin": "http://evil.example:8123"}, "not known by that name"),
        ({"host": "127.0.0.1:9000"}, "not known by that name"),
        ({"host": "127.0.0.1"}, "not known by that name"),
        ({"host": "localhost.evil.example:8123"}, "not known by that name"),
        ({"host": None}, "not known by that name"),
        ({"host": "192.0.2.7:8123", "origin": "http://192.0.2.7:8123"}, "not known by that name"),
        ({"origin": "http://evil.example"}, "Another page"),
        ({"origin": "null"}, "Another page"),
        ({"origin": "https://127.0.0.1:8123"}, "Another page"),
        ({"origin": "http://127.0.0.1:8124"}, "Another page"),
        ({"origin": None}, "Only the page itself"),
        ({"site": "cross-site"}, "Another page"),
        ({"site": "same-site"}, "Another page"),
        ({"key": ""}, "has a key in it"),
        ({"key": "the-keY"}, "has a key in it"),
        ({"key": "ключ"}, "has a key in it"),
        ({"what": "page", "into": "iframe"}, "does not lie inside another"),
        ({"what": "live", "origin": None, "site": "cross-site"}, "Another page"),
    ],
)  # fmt: skip
def test_everybody_else_is_refused(change: dict[str, str], words: str) -> None:
    """Each with its reason, and whatever else is right about it."""
    found = refused(replace(ASKING, **change), RULES, "127.0.0.1")  # type: ignore[arg-type]
    assert found is not None
    assert words in found.sentence


def test_without_touch_nothing_moves() -> None:
    """The page shows, and that is all."""
    found = refused(ASKING, replace(RULES, touch=False), "127.0.0.1")
    assert found is not None
    assert found.status == 403
    assert "--touch" in found.sentence


@pytest.fixture
def tablet() -> Iterator[Tablet]:
    made = Tablet(touch=True)
    session, _ = worked(begun(sample("harbour-windows")), "row 8", "yes")
    made.put(Seen(view(session), "Row eight."))
    yield made
    made.close()


def asked(tablet: Tablet, method: str, path: str, body: str | None = None, **headers: str) -> tuple[int, str]:
    """What a real request is answered."""
    wire = http.client.HTTPConnection("127.0.0.1", tablet.rules.port, timeout=20)
    wire.putrequest(method, path, skip_host=True)
    own = {"Host": f"127.0.0.1:{tablet.rules.port}"} | {k.replace("_", "-"): v for k, v in headers.items()}
    if body is not None:
        own |= {"Content-Length": str(len(body))}
    for name, value in own.items():
        if value:
            wire.putheader(name, value)
    wire.endheaders(body.encode() if body is not None else None)
    found = wire.getresponse()
    said = found.status, found.read().decode()
    wire.close()
    return said


def test_a_real_server_answers_only_who_has_the_key(tablet: Tablet) -> None:
    """The page with it; a sentence and nothing of the piece without it, by a wrong name, or from elsewhere."""
    key = f"?k={tablet.rules.key}"
    status, page = asked(tablet, "GET", f"/{key}")
    assert status == 200
    assert "<!doctype html>" in page
    for wrong in (
        asked(tablet, "GET", "/"),
        asked(tablet, "GET", "/?k=guessed"),
        asked(tablet, "GET", f"/live{key}", Host="evil.example"),
        asked(tablet, "GET", f"/live{key}", Origin="http://evil.example"),
        asked(tablet, "GET", f"/live{key}", Host=""),
        asked(tablet, "GET", f"/../pyproject.toml{key}"),
    ):
        assert wrong[0] in (400, 403, 404, 421)
        assert "HARBOUR" not in wrong[1]


def test_what_is_touched_is_passed_on_once_and_nothing_else_is(tablet: Tablet) -> None:
    """A command of the list; not one that ends the work, not more than a touch, not half a message."""
    key, own = f"?k={tablet.rules.key}", f"http://127.0.0.1:{tablet.rules.port}"
    got: list[tuple[str, int]] = []
    tablet.begin(lambda name, number: got.append((name, number)))
    assert asked(tablet, "POST", f"/do{key}", json.dumps({"do": "next"}), Origin=own)[0] == 204
    assert (
        asked(tablet, "POST", f"/do{key}", json.dumps({"do": "number", "number": 41}), Origin=own)[0] == 204
    )
    for body in (
        '{"do": "stop"}', '{"do": ["next"]}', "[]", "{", "", '{"do": "number"}', '{"do": "number", "number": -1}',
        '{"do": "number", "number": "41"}', '{"do": "number", "number": true}', '{"do": "number", "number": 1000000}',
        '{"do": "number", "number": 4.1}',
    ):  # fmt: skip
        assert asked(tablet, "POST", f"/do{key}", body, Origin=own)[0] == 400
    assert asked(tablet, "POST", f"/do{key}", " " * 2000, Origin=own)[0] == 413
    assert (
        asked(tablet, "POST", f"/do{key}", json.dumps({"do": "next"}), Origin="http://evil.example")[0] == 403
    )
    assert asked(tablet, "POST", f"/do{key}", json.dumps({"do": "next"}))[0] == 403
    assert got == [("next", 0), ("number", 41)]


def test_many_may_follow_and_one_too_many_is_told(tablet: Tablet) -> None:
    """Those who go make room again."""
    key = f"?k={tablet.rules.key}"
    wires = []
    for _ in range(FOLLOWERS):
        wire = http.client.HTTPConnection("127.0.0.1", tablet.rules.port, timeout=20)
        wire.request("GET", f"/live{key}")
        answer = wire.getresponse()
        assert answer.status == 200
        assert b"data: {" in answer.readline() + answer.readline() + answer.readline()
        wires.append((wire, answer))
    assert asked(tablet, "GET", f"/live{key}")[0] == 503
    for wire, answer in wires:
        answer.close()
        wire.close()


def test_a_port_in_use_and_no_network_are_one_sentence_each(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is so, and what to do."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(NotShown, match=f"Port {port} is in use"):
            Tablet(port=port)

    def unreachable(self: socket.socket, address: object) -> None:
        raise OSError(101, "Network is unreachable")

    class Alone(socket.socket):
        connect = unreachable  # type: ignore[assignment]

    monkeypatch.setattr("tracker.tablet.server.socket.socket", Alone)
    with pytest.raises(NotShown, match="in no network"):
        Tablet(lan=True)
