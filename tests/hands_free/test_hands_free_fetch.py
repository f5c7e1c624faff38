"""Fetching a model for the other ear:
from a server of the test's own, over real HTTP, broken off and taken up again.
"""

import hashlib
import io
import json
import sys
import threading
import zipfile
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from tracker.hands_free.hearing.commands import run as run_ear
from tracker.hands_free.hearing.fetch import NotFetched, fetch, offer

NAME = "vosk-model-small-en-test"


def zipped(*names: str) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name in names:
            archive.writestr(name, "figures " * 20_000)
    return out.getvalue()


MODEL = zipped(f"{NAME}/am/final.mdl", f"{NAME}/conf/model.conf")


class Server(ThreadingHTTPServer):
    """Serves files from a dict; may break off in the middle once."""

    files: dict[str, bytes]
    breaks_after: int | None = None
    ranges: list[str]


class Handler(BaseHTTPRequestHandler):
    server: Server

    def do_HEAD(self) -> None:
        self._head(self.server.files.get(self.path))

    def do_GET(self) -> None:
        body = self.server.files.get(self.path)
        asked = self.headers.get("Range", "")
        self.server.ranges.append(asked)
        start = int(asked[6:-1]) if asked and body else 0
        self._head(body, start)
        if body is None:
            return
        rest = body[start:]
        cut, self.server.breaks_after = self.server.breaks_after, None
        self.wfile.write(rest if cut is None else rest[:cut])
        self.close_connection = True

    def _head(self, body: bytes | None, start: int = 0) -> None:
        self.send_response(404 if body is None else 206 if start else 200)
        self.send_header("Content-Length", str(len(body or b"") - start))
        self.end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Keep quiet."""


@pytest.fixture
def server() -> Iterator[Server]:
    with Server(("127.0.0.1", 0), Handler) as found:
        found.files, found.ranges = {f"/{NAME}.zip": MODEL}, []
        threading.Thread(target=found.serve_forever, daemon=True).start()
        yield found
        found.shutdown()


def address(server: Server, name: str = f"{NAME}.zip") -> str:
    return f"http://127.0.0.1:{server.server_port}/{name}"


def test_a_model_is_offered_with_its_size_fetched_checked_and_unpacked(
    server: Server, tmp_path: Path
) -> None:
    """The checksum is the one its publishers list beside it."""
    server.files["/model-list.json"] = json.dumps(
        [{"name": NAME, "md5": hashlib.md5(MODEL).hexdigest()}]
    ).encode()
    found = offer(address(server))
    assert (found.name, found.size, len(found.checksum)) == (NAME, len(MODEL), 32)
    place = fetch(found, tmp_path)
    assert (place / "am" / "final.mdl").read_text().startswith("figures")
    assert sorted(each.name for each in tmp_path.iterdir()) == [NAME]


def test_what_broke_off_is_taken_up_where_it_was(server: Server, tmp_path: Path) -> None:
    """The second request asks for the rest alone."""
    server.breaks_after = 1_000
    with pytest.raises(NotFetched, match="goes on from there"):
        fetch(offer(address(server)), tmp_path)
    assert (tmp_path / f"{NAME}.zip.part").stat().st_size == 1_000
    assert (fetch(offer(address(server)), tmp_path) / "conf").is_dir()
    assert "bytes=1000-" in server.ranges


def test_what_differs_from_its_checksum_is_thrown_away(server: Server, tmp_path: Path) -> None:
    """Nothing is unpacked."""
    with pytest.raises(NotFetched, match="checksum differs"):
        fetch(offer(address(server), "0" * 64), tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("body", "why"),
    [
        (zipped("../outside.txt"), "outside its folder"),
        (zipped(f"{NAME}/readme.txt"), "holds no vosk model"),
        (b"<html>not found</html>", "no sound archive"),
        (MODEL[: len(MODEL) // 2], "no sound archive"),
    ],
    ids=["reaching outside", "no model", "no zip", "half a zip"],
)
def test_what_is_no_model_is_not_unpacked(server: Server, tmp_path: Path, body: bytes, why: str) -> None:
    """One sentence, and nothing outside the folder."""
    server.files[f"/{NAME}.zip"] = body
    with pytest.raises(NotFetched, match=why):
        fetch(offer(address(server)), tmp_path / "models")
    assert not (tmp_path / "outside.txt").exists()
    assert not (tmp_path / "models" / NAME).exists()


def test_offline_and_wrong_addresses_are_one_sentence(server: Server) -> None:
    """What is so, and that the built-in ear needs none of it."""
    with pytest.raises(NotFetched, match="built-in ear needs no model"):
        offer("http://127.0.0.1:1/vosk-model.zip")
    with pytest.raises(NotFetched, match="404"):
        offer(address(server, "other.zip"))
    for wrong in ("file:///etc/passwd", "https://example.org/model.tar", "model"):
        with pytest.raises(NotFetched, match="no address of a model"):
            offer(wrong)


def test_nothing_is_fetched_without_consent(
    server: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The size is told first; without a terminal to ask at, the answer is no."""
    import argparse

    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setattr(sys, "stdin", io.StringIO("y\n"))
    said = argparse.Namespace(doing="fetch", address=address(server), checksum="", yes=False)
    assert run_ear(said) == 2
    assert f"{NAME} is 0 MB" in capsys.readouterr().out
    assert not (tmp_path / ".cache").exists()
    said.yes = True
    assert run_ear(said) == 0
    assert (tmp_path / ".cache" / "vosk" / NAME / "conf").is_dir()
