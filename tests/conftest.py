"""What every test may ask for: `--update-golden` rewrites the golden files instead of comparing with them."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

GOLDEN = Path(__file__).resolve().parent / "golden"


def pytest_addoption(parser: pytest.Parser) -> None:
    """Adds the option; refused where nobody would read what it changed."""
    parser.addoption(
        "--update-golden", action="store_true", help="rewrite tests/golden; read the difference like code"
    )


def pytest_configure(config: pytest.Config) -> None:
    """Refuses to rewrite what CI is there to check."""
    if config.getoption("--update-golden") and os.environ.get("CI"):
        raise pytest.UsageError(
            "--update-golden is refused in CI: golden files are changed by hand and read."
        )


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
