"""What a fresh copy of the project promises: its samples, its lock, its one version."""

import re
import tomllib
from pathlib import Path

import tracker
from tracker.samples import samples

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_every_sample_pattern_is_found_by_its_name() -> None:
    """All of `patterns/`, none left out, each with rows in it."""
    assert {file.name for file in samples().values()} == {
        file.name for file in (ROOT / "patterns").glob("*.txt")
    }
    for name, file in samples().items():
        assert file.stem == name
        assert re.search(r"\b(?:row|rnd|round)\b", file.read_text(encoding="utf-8"), re.IGNORECASE), name


def test_the_samples_travel_in_the_wheel() -> None:
    """The build puts `patterns/` where `samples` looks for it in an installed rowteller."""
    carried = PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["force-include"]
    assert carried == {"patterns": "tracker/patterns"}


def test_the_lock_names_no_host_and_every_file_by_its_digest() -> None:
    """It holds on any index; a package without a digest could be anything."""
    lock = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    assert not re.search(r"//|^\s*-", re.sub(r"^    --hash=", "", lock, flags=re.MULTILINE), re.MULTILINE)
    pinned = re.findall(r"^([a-z0-9-]+)==.*(?:\n    --hash=sha256:[0-9a-f]{64}.*)+", lock, re.MULTILINE)
    assert len(pinned) == len(re.findall(r"^[a-z0-9]", lock, re.MULTILINE))


def test_the_lock_holds_all_that_the_project_asks_for() -> None:
    """A package added to pyproject.toml and not to the lock is named here.

    Not what the ear's weights are made with: no maker and no test needs it, and it is larger than all the rest.
    """
    lock = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    extras = PROJECT["project"]["optional-dependencies"]
    asked = [
        *PROJECT["project"]["dependencies"],
        *(each for name, extra in extras.items() if name != "train" for each in extra),
    ]
    names = {re.split(r"[\[<>=; ]", each)[0].lower() for each in asked} - {"rowteller"}
    locked = set(re.findall(r"^([a-z0-9-]+)==", lock, re.MULTILINE))
    assert names - locked == set()


def test_the_version_is_said_in_one_place() -> None:
    """The package's own; the build reads it from there."""
    assert re.fullmatch(r"\d+\.\d+\.\d+", tracker.__version__)
    assert PROJECT["project"]["dynamic"] == ["version"]
