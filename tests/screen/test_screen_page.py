"""The page: what is on it at each size, and what can never be."""

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.color import ColorSystem
from rich.terminal_theme import DEFAULT_TERMINAL_THEME

from tracker.load import load
from tracker.program.places import Program
from tracker.samples import samples
from tracker.screen.drawing.cells import drawn, strips
from tracker.screen.drawing.letters import SIZES, big, pixels
from tracker.screen.drawing.words import Line, clipped, shown, width_of, wrapped
from tracker.screen.page import Showing, help_page, laid_over, page
from tracker.screen.themes import THEMES, styles
from tracker.session.apply import apply
from tracker.session.commands import COMMANDS
from tracker.session.seen.view import View, view
from tracker.session.state import begun
from tracker.session.understand import understand

HOSTILE = """Cushion [/x] [bold]\x1b]52;c;aGVsbG8=\x07 \u202eback\u202c
Ch 12.
Row 1: Sc in 2nd ch from hook and in each ch across. (11 sc)
Row 2: Ch 1, turn, [red]sc in next [/red] st\x1b[2J\x9b31m, sc in each st across.
"""


class Work:
    """A pattern in hand, without a journal."""

    def __init__(self, text: str, *asked: str) -> None:
        loaded = load("pattern.txt", text)
        self._session = begun(Program(loaded.source, loaded.pattern, loaded.fabric))
        for words in asked:
            self.do(words)

    def do(self, words: str) -> None:
        deed = understand(words)
        assert deed is not None, words
        self._session, _ = apply(self._session, deed, 0)

    def view(self) -> View:
        return view(self._session)


def sample(pattern: str, *asked: str) -> Work:
    """A sample in hand, after these words."""
    return Work(samples()[pattern].read_text(encoding="utf-8"), *asked)


def text_of(lines: tuple[Line, ...]) -> str:
    return "\n".join("".join(text for text, _ in line) for line in lines)


def in_role(lines: tuple[Line, ...], role: str) -> str:
    return "".join(text for line in lines for text, drawn_as in line if drawn_as == role)


WINDOWS = ("row 9", "yes", *["next"] * 4)


@pytest.mark.parametrize("size", [(80, 24), (100, 30), (120, 40), (200, 60)])
@pytest.mark.parametrize("pattern", sorted(samples()))
def test_every_place_of_every_sample_fills_the_screen_exactly(pattern: str, size: tuple[int, int]) -> None:
    """No line is too long or too short, at any of the first thirty places."""
    width, height = size
    work = sample(pattern)
    for _ in range(30):
        seen = work.view()
        lines = page(seen, Showing(said=seen.said), width, height)
        assert len(lines) == height
        assert {sum(width_of(text) for text, _ in line) for line in lines} == {width}
        work.do("next")


def test_the_page_at_eighty_by_twenty_four_says_what_the_view_says() -> None:
    """Row and what it repeats, side, count, beat of how many, what follows,
    the words with the phrase marked, the keys.
    """
    seen = sample("harbour-windows", *WINDOWS).view()
    lines = page(seen, Showing(said=seen.said), 80, 24)
    text = text_of(lines)
    for words in (
        "HARBOUR WINDOWS",
        "Row 9 of 15",
        "row 3 again, second time",
        "right side facing",
        f"{seen.done} of {seen.due} squares",
        "then ",
        "space next",
        "? help",
        "q stop",
    ):
        assert words in text, words
    assert in_role(lines, "mark").replace(" ", "") == seen.written.replace(" ", "")
    assert f"{seen.beat} of {seen.beats}" in text or seen.beats == 1


def test_the_group_is_larger_on_a_larger_screen() -> None:
    """The letters of a wide window take more than twice the cells of those of a small one."""
    seen = sample("harbour-windows", "row 6", "yes").view()

    def large(width: int, height: int) -> list[str]:
        return [
            in_role((line,), "big")
            for line in page(seen, Showing(), width, height)
            if in_role((line,), "big")
        ]

    def cells(rows: list[str]) -> int:
        return sum(len(row.replace(" ", "")) for row in rows)

    assert len(large(80, 24)) >= 4
    assert cells(large(200, 60)) > 2 * cells(large(80, 24))


def test_the_row_is_named_once_in_the_head() -> None:
    """Large where there is room, else small; what it repeats is there either way."""
    seen = sample("crossroads-square", "row 3", "yes").view()
    assert "Rnd 3 of 4" in text_of(page(seen, Showing(), 80, 24))
    assert "Rnd 3 of 4" not in text_of(page(seen, Showing(), 200, 60))
    seen = sample("harbour-windows", *WINDOWS).view()
    large = text_of(page(seen, Showing(), 200, 60))
    assert "row 3 again, second time" in large
    assert "Row 9 of 15" not in large
    long = replace(seen, row="Row 9 " + "of the second sleeve " * 6)
    assert long.row in text_of(page(long, Showing(), 200, 60)).replace("\n", " ")


def test_nothing_a_pattern_holds_can_act_on_a_terminal() -> None:
    """Escape sequences, the clipboard's code, bidi marks and markup are seen as harmless signs,
    at every place of the piece.
    """
    work = Work(HOSTILE)
    for _ in range(20):
        seen = work.view()
        text = text_of(page(seen, Showing(said=seen.said, notice=HOSTILE), 80, 24))
        assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\u200b-\u200f]", text)
        work.do("next")


def test_markup_in_a_pattern_is_read_as_it_is_written() -> None:
    """Brackets are brackets."""
    assert "[/x] [bold]" in text_of(page(Work(HOSTILE).view(), Showing(), 120, 40))


@given(st.text(), st.integers(1, 60))
@settings(max_examples=200, deadline=None)
def test_any_text_is_wrapped_without_losing_a_letter(text: str, width: int) -> None:
    """Lines are no wider than asked for (but for a single wide letter), and only spaces go missing."""
    text = shown(text)
    spans = wrapped(text, max(2, width))
    kept = "".join(text[start:end] for start, end in spans)
    assert kept.replace(" ", "") == text.replace(" ", "")
    assert all(width_of(text[start:end].rstrip()) <= max(2, width) for start, end in spans)
    assert width_of(clipped(text, width)) <= width


def test_done_in_hand_and_to_come_differ_without_any_colour() -> None:
    """Each state of a square has a sign of its own."""
    seen = sample("harbour-windows", "row 6", "yes", "next", "next", "next").view()
    row = drawn(strips("Row 6", seen.cells, "", (), False), 60, 1)[0]
    signs = {
        role: set(text.replace(" ", ""))
        for text, role in row
        if role in ("done", "now", "coming", "fill done", "fill now", "fill coming")
    }
    assert len(signs) >= 4
    together = [sign for each in signs.values() for sign in each]
    assert len(together) == len(set(together))


def test_a_row_lies_in_its_own_direction_and_mirrored_for_the_left_hand() -> None:
    """The first square made lies at the right for a right-handed maker and at the left for a left-handed one."""
    seen = sample("harbour-windows", "row 6", "yes", "next", "next").view()

    def squares(mirrored: bool) -> str:
        line = drawn(strips("Row 6", seen.cells, "", seen.below, mirrored), 60, 5)[0]
        return "".join(text for text, _ in line)

    right, left = squares(False), squares(True)
    assert "◄" in right
    assert "►" in left
    assert "▌" in right
    assert "▐" in left
    assert right.rstrip().endswith("□ ▌")
    assert re.search(r"► ▐□", left)


def test_increases_open_and_decreases_close() -> None:
    """Two in one stitch make a V, two together its roof, five in one a fan; whichever way the row runs."""
    text = (
        "Sampler\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        "Row 2: Ch 1, turn, sc in next 2 sts, 2 sc in next st, sc in next st, sc2tog, sc in next st, "
        "5 dc in next st, sc in next 4 sts.\n"
        "Row 3: Ch 1, turn, sc in each st across.\n"
    )
    work = Work(text, "row 3", "yes")
    seen = work.view()
    rows = drawn(strips(seen.row, seen.cells, "", seen.below, False), 60, 3)
    assert "××╲╱×Λ×╲│││╱××××" in "".join(text for text, _ in rows[1]).replace(" ", "")
    work = Work(text, "row 2", "yes")
    while work.view().done < work.view().due:
        work.do("next")
    seen = work.view()
    hand = drawn(strips(seen.row, seen.cells, "", (), False), 60, 1)[0]
    assert "××××╲│││╱×Λ×╲╱××" in "".join(text for text, _ in hand).replace(" ", "")


@pytest.mark.parametrize("width, height", [(80, 5), (120, 5)])
def test_a_ripple_rises_and_falls_on_the_screen(width: int, height: int) -> None:
    """What is worked together lies a line lower than what is worked in one place; a row keeps its name at its end."""
    seen = sample("low-tide-ripple", "row 6", "yes", "next", "next").view()
    lines = drawn(strips(seen.row, seen.cells, "", seen.below, False), width, height)
    assert all(sum(width_of(text) for text, _ in line) == width for line in lines)
    text = text_of(lines).splitlines()
    assert len(text) == height
    assert "Row 6" in text[0]
    assert "╲" in text[0]
    assert "Λ" not in text[1]
    assert "Λ" in text[-1]
    assert "╲" not in text[-1]
    for line in text[2:-1]:
        assert line.count("╲") >= 4
    straight = sample("hearth-mat", "row 6", "yes").view()
    lines = drawn(strips(straight.row, straight.cells, "", straight.below, False), width, height)
    assert all("Row" in line for line in text_of(lines).splitlines())


def test_a_ripple_in_too_little_room_is_drawn_straight() -> None:
    """Three rows of it are worth more than its shape."""
    seen = sample("low-tide-ripple", "row 6", "yes").view()
    lines = drawn(strips(seen.row, seen.cells, "", seen.below, False), 80, 3)
    assert [line.split()[1] for line in text_of(lines).splitlines()] == ["6", "5", "4"]


def test_a_row_wider_than_the_screen_keeps_the_place_in_sight() -> None:
    """Of three hundred stitches those around the hook are drawn."""
    work = Work(
        "Strip\nCh 301.\nRow 1: Sc in 2nd ch from hook and in each ch across. (300 sc)\n"
        "Row 2: Ch 1, turn, (sc in next 9 sts, hdc in next st) 30 times.\n",
        *["next"] * 30,
    )
    seen = work.view()
    assert seen.row == "Row 2"
    assert 0 < seen.done < 300
    lines = drawn(strips(seen.row, seen.cells, "", seen.below, False), 78, 5)
    assert in_role(lines, "stitch now")
    assert all(sum(width_of(text) for text, _ in line) == 78 for line in lines)


def test_each_letter_of_the_trade_can_be_drawn_big() -> None:
    """All letters, figures and the marks patterns use."""
    for letter in "abcdefghijklmnopqrstuvwxyz0123456789 ,.;:-–()[]{}*/+×='’?!&":
        rows = pixels(letter)
        assert rows is not None, letter
        assert [len(row) for row in rows] == [len(rows[0])] * 8, letter
        assert letter == " " or "x" in "".join(rows)
    assert big("ch ☃", 80, 8) is None
    assert all(len(big("dc", 80, 8, (size,)) or ()) == size.rows for size in SIZES)


def test_capitals_are_drawn_as_capitals() -> None:
    """As the pattern and the sentences have them: seven of eight pixels high, and unlike the small letters."""
    for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ":
        rows, small = pixels(letter), pixels(letter.lower())
        assert rows is not None, letter
        assert rows != small, letter
        assert ["x" in row for row in rows] == [True] * 7 + [False], letter


@pytest.mark.parametrize("width, height", [(80, 24), (120, 40), (200, 60)])
@pytest.mark.parametrize(
    "asked, answers",
    [(("row 6", "yes", "next", "row 12"), "yes (y) or no (n)?"), (("row 6", "yes", "i am lost"), "a number")],
)
def test_a_question_stands_on_the_screen_once(
    asked: tuple[str, ...], answers: str, width: int, height: int
) -> None:
    """Large, with what answers it at the foot: yes or no, or a number."""
    seen = sample("harbour-windows", *asked).view()
    assert seen.asked
    lines = page(seen, Showing(said=seen.asked), width, height)
    assert set(in_role(lines, "big")) & set("█▛▀")
    assert " ".join(seen.asked.split()[-2:]) not in text_of(lines)
    assert answers in in_role(lines, "ask")


def luminance(colour: str) -> float:
    """Relative luminance. Source: W3C, Web Content Accessibility Guidelines 2.2, "relative luminance"."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("theme", THEMES[:-1], ids=lambda theme: theme.name)
def test_contrast_is_seven_to_one_everywhere(theme) -> None:  # type: ignore[no-untyped-def]
    """Source: the same guidelines, 1.4.6, contrast (enhanced)."""
    for role, style in styles(theme).items():
        assert style.color
        assert style.bgcolor
        assert style.color.name
        assert style.bgcolor.name
        light, dark = sorted((luminance(style.color.name), luminance(style.bgcolor.name)), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 7, role


@pytest.mark.parametrize("theme", THEMES[:-1], ids=lambda theme: theme.name)
@pytest.mark.parametrize("colours, system", [(256, ColorSystem.EIGHT_BIT), (16, ColorSystem.STANDARD)])
def test_contrast_holds_on_terminals_with_fewer_colours(theme, colours, system) -> None:  # type: ignore[no-untyped-def]
    """As the colours are brought down by the library that writes them (Rich), in its own palettes."""
    for role, style in styles(theme, few=colours == 16).items():
        assert style.color
        assert style.bgcolor
        ink = style.color.downgrade(system).get_truecolor(DEFAULT_TERMINAL_THEME).hex
        ground = style.bgcolor.downgrade(system).get_truecolor(DEFAULT_TERMINAL_THEME, foreground=False).hex
        light, dark = sorted((luminance(ink), luminance(ground)), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 7, (role, ink, ground)


def test_the_screens_own_keys_are_no_commands_keys() -> None:
    """What is pressed does one thing: the look, the tablet's link, leaving."""
    taken = {command.key for command in COMMANDS}
    assert not taken & {"t", "D", "V", "ctrl+c", "ctrl+q"}


def test_help_tells_every_command_from_the_table() -> None:
    """Key and words of each."""
    told = "\n".join(help_page())
    for command in COMMANDS:
        assert command.phrases[0].replace("{n}", "N") in told
        assert command.help in told


@pytest.mark.parametrize("width, height", [(80, 24), (120, 40), (200, 60)])
def test_nothing_jumps_from_place_to_place(width: int, height: int) -> None:
    """At every place of every sample the rules, the head and the foot stand where they stood."""
    for name in samples():
        work = Work(samples()[name].read_text(encoding="utf-8"))
        stood: set[tuple[int, ...]] = set()
        for _ in range(25):
            lines = page(work.view(), Showing(), width, height)
            assert len(lines) == height
            assert all(sum(width_of(text) for text, _ in line) == width for line in lines)
            stood.add(tuple(at for at, line in enumerate(lines) if line[0][1] == "rule"))
            assert lines[-1][0][1] == "foot"
            assert lines[0][0][1] == "title"
            work.do("next")
        assert len(stood) == 1, name


def test_what_is_said_at_length_is_seen_to_its_end() -> None:
    """A whole row read aloud takes lines from the group's letters, not from the sentence."""
    work = sample("harbour-windows", "row 8", "yes")
    said = "Row eight. " + "Two blocks: four double crochet. " * 10 + "Count, then turn."
    lines = page(work.view(), Showing(said=said), 80, 24)
    assert "Count, then turn." in in_role(lines, "said")
    assert in_role(lines, "big")


def test_a_stitch_in_hand_is_told_apart_without_colour() -> None:
    """It has the sign of a stitch that is done, so it is turned round in every theme."""
    seen = sample("low-tide-ripple", "row 4", "yes", "next").view()
    assert in_role(page(seen, Showing(), 80, 24), "stitch now").strip()
    for theme in THEMES:
        assert styles(theme)["stitch now"].reverse
        assert not styles(theme)["done"].reverse


def test_lines_laid_over_a_narrow_page_are_wrapped_under_what_they_begin_with() -> None:
    """Nothing of a cause, or of what a command does, is cut away."""
    causes = ("1. Two things: a square was left open that should be filled; and one block is missing.",)
    assert laid_over(causes, 60) == (
        "1. Two things: a square was left open that should be",
        "   filled; and one block is missing.",
    )
    wide, narrow = laid_over(help_page(), 120), laid_over(help_page(), 60)
    assert wide == help_page()
    assert max(map(len, narrow)) <= 56
    assert " ".join(" ".join(narrow).split()) == " ".join(" ".join(wide).split())
