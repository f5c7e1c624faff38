"""What a maker does in one breath: pattern text in, groups as they are written out."""

import pytest
from on_the_hook import SWATCH, program_of, sample

from tracker.program.row.groups import Sort

HEAD = "TEST\n\nCh 27.\nRow 1: Sc in 2nd ch from hook and in each ch across. (26 sc)\n"


def groups(text: str, row: int = 2) -> list[tuple[str, int]]:
    """The groups of a row as they are written, with how often each is done."""
    program = program_of(text)
    return [(program.source.words(breath.first.span), len(breath.beats)) for breath in program.breaths(row)]


@pytest.mark.parametrize(
    "words, expected",
    [
        ("Ch 1, sc in each st across.", [("Ch 1", 1), ("sc in each st across", 1)]),
        (
            "Ch 1, *sc in next st, dc in next st; rep from * across.",
            [("Ch 1", 1), ("sc in next st, dc in next st", 13)],
        ),
        (
            "Ch 1, sc in first st, (ch 1, sk 1 st, sc in next st) 12 times, sc in last st.",
            [("Ch 1", 1), ("sc in first st", 1), ("ch 1, sk 1 st, sc in next st", 12), ("sc in last st", 1)],
        ),
        (
            "Ch 1, (sc in next 3 sts, sc2tog) 5 times, sc in last st.",
            [("Ch 1", 1), ("sc in next 3 sts, sc2tog", 5), ("sc in last st", 1)],
        ),
        (
            "Ch 1, sc in next st, hdc in next st, dc in next st, sc in each st across.",
            [("Ch 1", 1), ("sc in next st, hdc in next st, dc in next st", 1), ("sc in each st across", 1)],
        ),
        (
            "Ch 1, (sc in next 4 sts, 2 sc in next st, hdc in next 4 sts, sk 1 st, sc in next 3 sts) twice.",
            [
                ("Ch 1", 1),
                *2
                * [
                    ("sc in next 4 sts", 1),
                    ("2 sc in next st", 1),
                    ("hdc in next 4 sts", 1),
                    ("sk 1 st, sc in next 3 sts", 1),
                ],
            ],
        ),
    ],
)
def test_a_group_is_what_is_done_in_one_breath(words: str, expected: list[tuple[str, int]]) -> None:
    """Chains and skips go with the stitch after them, short passes are beats, long ones stand group by group."""
    assert groups(f"{HEAD}Row 2: Turn, {words[0].lower()}{words[1:]}") == [
        (w[0].lower() + w[1:], n) for w, n in expected
    ]


def test_the_stitch_in_the_turning_chain_belongs_to_the_run_before_it() -> None:
    """Eight and the landing are nine in one breath, so that the landing is no surprise."""
    assert groups(SWATCH) == [("ch 3", 1), ("dc in next 8 dc, dc in top of ch-3", 1)]
    assert program_of(SWATCH).breaths(2)[1].sort is Sort.RUN


def test_in_filet_a_group_ends_where_a_square_does() -> None:
    """Row 7 of the panel opens with half squares: each goes on to its upright."""
    program = sample("harbour-windows")
    assert [program.source.words(breath.first.span) for breath in program.breaths(7)][:3] == [
        "ch 3",
        "dc in first ch-1 sp, dc in next dc",
        "dc in next ch-1 sp, dc in next 9 dc",
    ]


def test_a_turning_chain_with_a_space_goes_on_to_the_stitch_that_closes_it() -> None:
    """Its window is open until the first double crochet stands."""
    program = sample("harbour-windows")
    first = program.breaths(6)[0]
    assert first.sort is Sort.TURNING
    assert program.source.words(first.first.span).endswith("sk first 2 dc, dc in next dc")


def test_every_element_of_a_row_is_made_by_exactly_one_beat() -> None:
    """Nothing of the fabric is lost between the groups, and nothing is told twice."""
    for name in ("harbour-windows", "pebble-cloth", "low-tide-ripple"):
        program = sample(name)
        for index, placed in program.fabric.rows():
            made = [
                at
                for breath in program.breaths(index)
                for beat in breath.beats
                for at in range(beat.made_from, beat.made_to)
            ]
            assert made == list(range(len(placed.worked.elements))), f"{name}, row {index}"


def test_a_row_that_is_not_understood_is_cut_into_its_phrases_word_for_word() -> None:
    """Cut at commas outside of brackets; the count that is stated is no phrase to follow."""
    program = program_of(
        f"{HEAD}Row 2: Turn, ch 1, wrap the moon around next 3 sts (firmly, but gently), sc in each st across. (26 sc)"
    )
    assert not program.fabric.row(2).worked.understood
    breaths = program.breaths(2)
    assert [program.source.words(breath.span) for breath in breaths] == [
        "Turn",
        "ch 1",
        "wrap the moon around next 3 sts (firmly, but gently)",
        "sc in each st across",
    ]
    assert {breath.sort for breath in breaths} == {Sort.WORDS}
