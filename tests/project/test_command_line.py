"""Words on the command line that cannot be taken: a sentence that says what is so, and nothing of how it was read."""

from pathlib import Path

import pytest

from tracker.cli import COMMANDS, main


@pytest.mark.parametrize(
    "words, said",
    [
        (["nosuch"], "There is no command “nosuch”. rowteller --help names them all."),
        (["chek", "x"], "There is no command “chek”. Did you mean check? rowteller --help names them all."),
        (
            ["my-panel.txt"],
            "“my-panel.txt” is no command. Is it a pattern? rowteller check my-panel.txt reads it; "
            "rowteller work my-panel.txt leads you.",
        ),
        (["find"], "Still missing: FILE.\nHow it is written: rowteller find --help"),
        (["check", "a", "b"], "“b” is more than it takes.\nHow it is written: rowteller check --help"),
        (["check", "--colour", "a"], "There is no --colour here.\nHow it is written: rowteller check --help"),
        (["voice", "--speed", "fast"], "--speed takes a whole number; “fast” is none."),
        (["ear", "use", "nosuch"], "rowteller ear use takes auto, embedded, vosk or off, not “nosuch”."),
        (["voice", "--hand", "both"], "--hand takes left or right, not “both”."),
        (["work", "--size"], "--size needs something behind it.\nHow it is written: rowteller work --help"),
        (["ear", "rename"], "Still missing: COMMAND.\nHow it is written: rowteller ear rename --help"),
        (
            ["plan", "edging", "x", "y"],
            "It is written: plan edging STITCHES ROW-ENDS, or FILE STITCHES; such as plan edging 24 15 --of dc.",
        ),
    ],
)
def test_wrong_words_get_a_sentence(words: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    """What is so, and where to read how it is written; the status says that nothing was done."""
    assert main(words) == 2
    out = capsys.readouterr()
    assert (out.out, out.err) == ("", f"{said}\n")


@pytest.mark.parametrize("name", [command.name for command in COMMANDS])
def test_every_command_has_help_and_refuses_what_it_does_not_know(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Of none the whole list of options is thrown at who mistyped one."""
    assert main([name, "--help"]) == 0
    assert f"usage: rowteller {name}" in capsys.readouterr().out
    assert main([name, "--no-such-option"]) == 2
    out = capsys.readouterr()
    assert "usage:" not in out.err
    assert 0 < len(out.err.splitlines()) <= 3


def test_a_file_that_is_written_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Beside the lines themselves, which another program may read."""
    from tracker.samples import samples

    chart = tmp_path / "panel.svg"
    assert main(["chart", str(samples()["harbour-windows"]), "-o", str(chart)]) == 0
    out = capsys.readouterr()
    assert (out.out, out.err) == ("", f"{chart} is written.\n")
    assert chart.read_bytes().startswith(b"<")
