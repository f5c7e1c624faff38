"""What every test may ask for: `--update-golden` rewrites the golden files instead of comparing with them.

Tests of a module that takes a sound server, a terminal, a window or a browser into use are marked `live` here: they
live in real time and run two at a time, the others beside them on every processor (tests/everything.py).
"""

import gc
import os
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

LIVE = {
    "virtual_sound",
    "virtual_display",
    "pretend_terminal",
    "pretend_tablet",
    "listening_foot",
    "following",
}
"""Our stand-ins for devices; a test module that imports one of their names lives in real time."""
GOLDEN = Path(__file__).resolve().parent / "golden"


def pytest_addoption(parser: pytest.Parser) -> None:
    """Adds the option; refused where nobody would read what it changed."""
    parser.addoption(
        "--update-golden", action="store_true", help="rewrite tests/golden; read the difference like code"
    )


def pytest_configure(config: pytest.Config) -> None:
    """Refuses to rewrite what CI is there to check; has Python look for garbage less often than it would.

    Tests keep what they have read: to look through it again and again takes a twentieth of their time.
    """
    gc.set_threshold(50_000, 20, 100)
    if config.getoption("--update-golden") and os.environ.get("CI"):
        raise pytest.UsageError(
            "--update-golden is refused in CI: golden files are changed by hand and read."
        )


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks what lives in real time; puts what reads the corpora first, so that one process reads each pattern once.

    Tests that run side by side are dealt out in runs of neighbours, and each process keeps the patterns it has read.
    """
    for item in items:
        if any(origin in LIVE for origin in _origins(item)):
            item.add_marker("live")
    items.sort(key=lambda item: not ({"reading", "judged", "placed_right"} & set(vars(_module(item)))))


def _origins(item: pytest.Item) -> Iterator[str]:
    """The modules that the names of a test's own module come from."""
    for name in vars(_module(item)).values():
        yield str(getattr(name, "__module__", "")).removeprefix("tests.")


def _module(item: pytest.Item) -> object:
    return getattr(item, "module", None) or item


@pytest.fixture(autouse=True)
def home_of_its_own(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """No test sees what whoever runs it has worked and settled on, nor leaves anything there."""
    monkeypatch.setenv("ROWTELLER_HOME", str(tmp_path_factory.getbasetemp() / f"home-{next(_HOMES)}"))


_HOMES = count()


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], None]:
    """Compares a text with the golden file of that name, or rewrites the file when asked to."""

    def compare(name: str, text: str) -> None:
        file = GOLDEN / name
        if request.config.getoption("--update-golden"):
            file.parent.mkdir(exist_ok=True)
            file.write_text(text, encoding="utf-8")
        assert file.exists(), f"there is no {file.name}; run pytest --update-golden and read what it writes"
        assert text == file.read_text(encoding="utf-8"), (
            f"{name} differs; if that is meant, run pytest --update-golden and read the difference"
        )

    return compare
