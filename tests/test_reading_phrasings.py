"""The same row as different designers write it: each phrasing makes the stitches that a reader of it would count."""

import pytest

from tracker.load import load

TWELVE = "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc in each st (12)\n"
GAP = (
    "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
    "Row 2: Ch 1, turn, sc in next 4 sc, ch 6, sk 4 sc, sc in next 4 sc. (8 sc, 1 ch-6 sp)\n"
)


def made(text: str) -> tuple[int | None, list[str]]:
    """Stitches of the last row, None where it is not understood; and the problems of the whole, but for notes."""
    loaded = load("piece", text, None)
    last = loaded.fabric.stretches[-1].rows[-1].worked
    told = [problem.headline for problem in loaded.problems if problem.severity.value != "note"]
    return (sum(e.is_stitch for e in last.elements) if last.understood else None), told


@pytest.mark.parametrize(
    "words",
    [
        "Rnd 3: (sc, inc) x6",
        "Rnd 3: sc, inc * 6 = 18",
        "Rnd 3: sc1, inc1, x6 [18 sts]",
        "Rnd 3: 1sc 1inc *6 (18)",
        "Rnd 3: sc, inc, 6 times (18)",
        "Rnd 3: sc in next st, inc in next st, repeat around (18)",
        "Rnd 3: *1 sc, 2 sc in next st* around = 18 sts",
        "Rnd 3: [sc, inc] 6 times -18-",
        "Rnd 3: Sc 1, (inc, sc 1) 5 times, inc. 18",
        "Rnd 3: *2 sc in next st, sc in next st, repeat from *. 18 sc.",
    ],
)
def test_every_second_stitch_is_doubled(words: str) -> None:
    """Twelve stitches become eighteen, however it is said."""
    assert made(TWELVE + words) == (18, [])


@pytest.mark.parametrize(
    "words",
    [
        "Rnds 3-5: sc around (12)",
        "Rnds 3-5: sc around (12) 3 rounds",
        "Rnds 3-5: 12 sc - 3 rounds",
        "Rnds 3-5 (3 rnds): sc around (12)",
        "R3-5 sc (12)",
        "R3, R4, R5: sc around {12}",
    ],
)
def test_rounds_without_increases_keep_their_count(words: str) -> None:
    """Three rounds, and the number of rounds may be told twice."""
    loaded = load("piece", TWELVE + words, None)
    assert made(TWELVE + words) == (12, [])
    assert sum(len(stretch.rows) * stretch.times for stretch in loaded.fabric.stretches) == 5


@pytest.mark.parametrize(
    "words",
    [
        "sc in each sc and 6 sc in ch-6 sp. (14 sc)",
        "sc in each sc and 6 sc in the ch-6 sp across. (14 sc)",
        "sc in each sc, 6 sc in ch-6 sp, turn. (14 sc)",
        "sc in each sc, 6 sc in ch-6 sp, sc in next 4 sc. (14 sc)",
        "sc in each sc to ch-6 sp, 6 sc in ch-6 sp, sc in each sc to end. (14 sc)",
        "sc across, working 6 sc in ch-6 sp. (14 sc)",
        "work 1 sc in each sc and 6 sc in each sp. (14 sc)",
    ],
)
def test_a_gap_is_filled_on_the_way(words: str) -> None:
    """Four stitches, a space, four stitches: the space is met between them."""
    assert made(f"{GAP}Row 3: Ch 1, turn, {words}") == (14, [])
