"""What the maker has settled is kept, and a damaged file of it is told and never lost."""

import json
from pathlib import Path

from tracker.hands_free.settings import Settings, keep, settings_file, settled
from tracker.pedal.port import LearnedKey

PEDAL = Settings(
    pedal=(LearnedKey(1, "pagedown", "page_down", "109@Foot"), LearnedKey(2, "f13")),
    pedal_everywhere=True,
    theme="light",
)


def test_what_is_kept_is_found_again(tmp_path: Path) -> None:
    """Learned keys and all."""
    file = tmp_path / "deep" / "settings.json"
    keep(file, PEDAL)
    assert settled(file) == (PEDAL, "")


def test_no_file_means_the_usual_settings(tmp_path: Path) -> None:
    """And nothing to be told."""
    assert settled(tmp_path / "settings.json") == (Settings(), "")


def test_a_damaged_file_is_told_and_moved_aside(tmp_path: Path) -> None:
    """Its words are still there after the next keeping."""
    file = tmp_path / "settings.json"
    file.write_text("{theme")
    found, trouble = settled(file)
    assert found == Settings()
    assert "cannot be read" in trouble
    keep(file, PEDAL)
    assert settled(file) == (PEDAL, "")
    assert (tmp_path / "settings.json.damaged").read_text() == "{theme"


def test_a_setting_of_another_kind_is_told_and_the_rest_holds(tmp_path: Path) -> None:
    """One wrong value does not cost the others."""
    file = tmp_path / "settings.json"
    for wrong in ({"volume": "loud"}, {"ear": "trumpet"}, {"pedal": [{"switch": 9}]}, {"mouth": 1}):
        file.write_text(json.dumps(wrong | {"theme": "light"}))
        found, trouble = settled(file)
        assert found == Settings(theme="light")
        assert next(iter(wrong)) in trouble


def test_settings_of_a_later_version_are_left_as_they_are(tmp_path: Path) -> None:
    """What is not known here is kept."""
    file = tmp_path / "settings.json"
    file.write_text('{"kettle": "on"}')
    keep(file, PEDAL)
    assert json.loads(file.read_text())["kettle"] == "on"


def test_where_they_lie_follows_the_usual_variables() -> None:
    """Ours first, then XDG's; a relative one is passed over. Source: XDG Base Directory Specification 0.8."""
    assert settings_file({"ROWTELLER_HOME": "/a"}) == Path("/a/settings.json")
    assert settings_file({"XDG_CONFIG_HOME": "/b", "HOME": "/c"}) == Path("/b/rowteller/settings.json")
    assert settings_file({"XDG_CONFIG_HOME": "b", "HOME": "/c"}).parts[-3:] == (
        ".config",
        "rowteller",
        "settings.json",
    )
