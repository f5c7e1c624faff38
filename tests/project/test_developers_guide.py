"""The guide for contributors says what is so."""

import re
from pathlib import Path

from tests.stages import stages

ROOT = Path(__file__).resolve().parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_row_in_the_guide_is_the_row_as_it_is_read_and_worked() -> None:
    """What DEVELOPERS.md prints after each stage is what each stage gives."""
    shown = re.search(r"<!-- stages -->\n```text\n(.*?)\n?```\n<!-- /stages -->", GUIDE, re.DOTALL)
    assert shown is not None
    assert shown[1].rstrip() == stages().rstrip()


def test_every_folder_and_test_the_guide_names_is_there() -> None:
    """Folders of the table and test files of the invariants exist."""
    folders = set(re.findall(r"^\| (.+?) \|", GUIDE, re.MULTILINE))
    named = {name for cell in folders for name in re.findall(r"`(\w+)/`", cell)}
    assert named
    missing = [name for name in sorted(named) if not (ROOT / "tracker" / name).is_dir()]
    tests = set(re.findall(r"`(tests/\w+/(?:test_[\w*]+\.py)?)`", GUIDE))
    missing += [name for name in sorted(tests) if not list(ROOT.glob(name))]
    assert not missing, f"DEVELOPERS.md names what is not there: {', '.join(missing)}"
