"""Words that no reader takes: where they may change what is worked, nothing is claimed; where not, all is."""

from pathlib import Path

from tracker.load import load

HERE = Path(__file__).resolve().parent
PHRASINGS = (HERE.parent / "phrasings.txt").read_text(encoding="utf-8")


def bases() -> dict[str, str]:
    """The small patterns that others go on from, by name."""
    found: dict[str, str] = {}
    for part in PHRASINGS.split("\n= ")[1:]:
        name, _, words = part.partition("\n")
        found[name] = words.split("\n# ")[0].split("\n= ")[0].strip("\n") + "\n"
    return found


BASES = bases()
CHANGING = [
    (part.split("\n")[0], words)
    for part in (HERE / "words_passed_over.txt").read_text(encoding="utf-8").split("\n# ")[1:]
    for words in part.split("\n")[1:]
    if words
]
KEEPING = (
    ("S12", 12, "Row 2: Ch 1, turn, sc in each st across, being careful not to miss the last one."),
    ("S12", 12, "Row 2: Ch 1, turn, sc in each st across. If your edges wave, use a smaller hook."),
    ("S12", 12, "Row 2: Ch 1, turn, sc in each st across, working over both tails."),
    ("S12", 12, "Row 2: Ch 1, turn, sc in each st across - no increases in this row."),
    (
        "S12",
        12,
        "Row 2: Ch 1, turn, sc in each st across. The edges will curl a little; blocking fixes that.",
    ),
    ("S12", 12, "Count your stitches at the end of every row.\nRow 2: Ch 1, turn, sc in each st across."),
    ("S12", 12, "Leave a long tail at the start of every colour.\nRow 2: Ch 1, turn, sc in each st across."),
    ("S12", 12, "Work the last stitch of every row loosely.\nRow 2: Ch 1, turn, sc in each st across."),
    ("S12", 12, "Row 2: Ch 1, turn, sc across.\nRows 3-5: Rep Row 2, weaving in ends every other row."),
    ("S12", 12, "Row 2: Ch 1, turn, sc across.\nRows 3-5: Rep Row 2, but with B."),
    ("R12", 18, "Increase 6 sts in every round.\nRnd 3: (Sc, inc) 6 times."),
    ("R12", 12, "Rnd 3: Sc in each st around; the sides begin to rise."),
    ("R12", 12, "Rnd 3: Sc in each st around. From now on, mark the first st of every round."),
    ("UT12", 12, "Row 2: 3 ch, turn, miss first st, 1 tr in each tr to end, remembering the turning chain."),
)


def test_words_that_may_change_a_row_keep_it_from_being_claimed() -> None:
    """They are told, in the row that holds them or where it is worked."""
    assert len(CHANGING) > 50
    claimed = []
    for name, words in CHANGING:
        loaded = load("piece", BASES[name] + words.replace("\\n", "\n") + "\n")
        last = loaded.fabric.stretches[-1].rows[-1].worked
        if last.understood or not loaded.problems:
            claimed.append((words, last.makes))
    assert not claimed


def test_words_that_change_nothing_leave_a_row_claimed() -> None:
    """What warns of a slip, tells how the work will look, or is for the ends of yarn."""
    unread = []
    for name, stitches, words in KEEPING:
        loaded = load("piece", BASES[name] + words + "\n")
        last = loaded.fabric.stretches[-1].rows[-1].worked
        if not last.understood or last.stitches != stitches:
            unread.append((words, last.stitches, [problem.headline for problem in loaded.problems]))
    assert not unread


def test_a_count_bears_out_what_is_read_without_such_words() -> None:
    """The same words in a row that states its count, and makes it: nobody needs to know what they say."""
    told = "Row 2: Ch 1, turn, sc in each st across, losing no st at both ends."
    bare, counted = (load("piece", BASES["S12"] + told + count + "\n") for count in ("", " (12 sc)"))
    assert not bare.fabric.stretches[-1].rows[-1].worked.understood
    assert counted.fabric.stretches[-1].rows[-1].worked.understood
    assert not counted.problems
