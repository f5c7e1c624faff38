"""THE TABLE of commands: one row a command, and everything else is made from it."""

from typing import get_args

from hypothesis import given
from hypothesis import strategies as st
from on_the_hook import NOW_MS, at_hand

from tracker.ears.phrases_en import ENGLISH
from tracker.records import replace
from tracker.session import deeds
from tracker.session.amiss import righting
from tracker.session.apply import Say, apply
from tracker.session.commands import BY_NAME, COMMANDS, help_lines
from tracker.session.understand import understand
from tracker.trade.numbers import spoken_number


def test_the_ear_is_taught_exactly_the_spoken_phrases() -> None:
    """A phrase added to either table and not to the other is missing here by name."""
    taught = {saying.deed: (saying.phrases, saying.cost.value) for saying in ENGLISH}
    spoken = {command.name: (command.phrases, command.cost) for command in COMMANDS if command.spoken}
    assert spoken == taught


def test_every_deed_has_a_command_or_is_what_another_leads_to() -> None:
    """A new deed without a row in the table cannot be asked for."""
    asked_for = {type(command.make(1)) for command in COMMANDS}
    led_to = {deeds.Jump, deeds.PutAt, deeds.Number, deeds.Rip, deeds.TakeUp}
    led_to |= {
        righting.Answered,
        righting.Unanswered,
        righting.Elsewhere,
        righting.Blame,
        righting.NotThat,
        righting.AskWhere,
    }
    led_to |= {righting.Carry, righting.Tapped, righting.Untapped, righting.CountDue, deeds.Repeated}
    assert set(get_args(deeds.Deed)) == asked_for | led_to


def test_no_phrase_key_or_press_asks_for_two_deeds() -> None:
    """But for the answers, which hold only after a question, and pause and listen, which share a key."""
    phrases = [phrase for command in COMMANDS for phrase in (*command.phrases, *command.typed)]
    assert len(phrases) == len(set(phrases))
    for found in (
        [c.key for c in COMMANDS if c.key and c.cost != "answer" and c.name != "listen"],
        [c.pedal for c in COMMANDS if c.pedal],
    ):
        assert len(found) == len(set(found))


def test_every_phrase_and_every_name_is_understood_as_its_own_deed() -> None:
    """Typed as it is spoken, in capitals, with a full stop."""
    for command in COMMANDS:
        for phrase in (*command.phrases, *command.typed):
            if "{words}" in phrase:
                continue
            for number, words in ((7, "7"), (23, "twenty-three"), (140, "one hundred and forty")):
                line = phrase.replace("{n}", words)
                expected = command.make(number if "{n}" in phrase else 0)
                assert understand(line) == understand(f"{line.upper()}.") == expected, line
    assert {
        understand(name) for name in BY_NAME if BY_NAME[name].spoken and not BY_NAME[name].needs_number
    } >= {deeds.Onward(), deeds.Stop()}


def test_help_tells_every_command_in_a_line() -> None:
    """Made from the table, so nothing can be forgotten."""
    lines = help_lines()
    assert len(lines) == len(COMMANDS)
    assert all(command.help in line for command, line in zip(COMMANDS, lines, strict=True))


def test_help_shows_and_says_the_word_that_the_maker_has_for_a_command() -> None:
    """Heard by who does not look: each command that the ear is taught, in one breath."""
    own = (("next", "hop along"),)
    assert help_lines(own)[0].split("  ")[0] == "hop along"
    session = replace(at_hand(), renamed=own)
    said = " ".join(e.spoken for e in apply(session, deeds.Help(), NOW_MS)[1] if isinstance(e, Say))
    assert said.startswith("You can say hop along, step back, say again, where am I, ")
    assert "carry on" not in said
    undone = apply(apply(session, deeds.Onward(), NOW_MS)[0], deeds.Undo(), NOW_MS)[0]
    assert undone.renamed == own


@given(st.integers(0, 999))
def test_a_number_may_be_figures_or_words(number: int) -> None:
    """ "row 23" and "row twenty-three" are the same row."""
    assert (
        understand(f"row {number}") == understand(f"round {spoken_number(number)}") == deeds.GoToRow(number)
    )


@given(st.text(max_size=600))
def test_no_line_makes_it_stumble(line: str) -> None:
    """Whatever is typed, pasted or misheard, it is a deed or it is not known."""
    assert understand(line) is None or isinstance(understand(line), get_args(deeds.Deed))


def test_a_number_alone_is_an_answer_only_after_a_question_for_one() -> None:
    """Makers count aloud."""
    assert understand("seven") is None
    assert understand("seven", awaiting_number=True) == deeds.Number(7)
