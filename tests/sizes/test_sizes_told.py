"""The names of sizes are found wherever a pattern tells them, and each has its own figures.

`told.txt` has a line for each way to tell them: how lists of figures stand, the names, and what stands above the
pattern; \\n ends a line. The counts follow from the foundation: of N chains N - 1 stitches, three fewer in Row 2.
"""

from pathlib import Path

import pytest

from tracker.load import WrongSize, load, sized

TOLD = Path(__file__).with_name("told.txt").read_text(encoding="utf-8").splitlines()
STYLES = {
    "(,)": ("{} ({})", ", "), "(,)-": ("{}({})", ","), "[,]": ("{} [{}]", ", "), "[:]": ("{} [{}]", ": "),
    "{,}": ("{} {{{}}}", ", "), "(;)": ("{} ({})", "; "), "()()": ("{} ({})", ") ("), "/": ("{}/{}", "/"),
    "-": ("{}-{}", "-"), " - ": ("{} - {}", " - "),
}  # fmt: skip


def listed(style: str, figures: list[int]) -> str:
    """Figures of all sizes as a pattern lists them."""
    if style == "()(,)":
        half = len(figures) // 2 + 1
        one, two = (", ".join(map(str, some)) for some in (figures[1:half], figures[half:]))
        return f"{figures[0]} ({one}) ({two})"
    frame, sign = STYLES[style]
    return frame.format(figures[0], sign.join(map(str, figures[1:])))


def pattern(head: str, style: str, many: int) -> str:
    """A pattern of two rows in so many sizes, six stitches apart."""
    chains = [31 + 6 * size for size in range(many)]
    return f"""{head}

Ch {listed(style, chains)}.
Row 1: Sc in 2nd ch from hook and in each ch across. ({listed(style, [ch - 1 for ch in chains])} sc)
Row 2: Ch 1, turn, sc in first {listed(style, [5 + n for n in range(many)])} sc, ch 2, skip 2 sc, sc in each remaining sc. ({listed(style, [ch - 3 for ch in chains])} sc, 1 ch-2 space)
Fasten off.
"""


@pytest.mark.parametrize("line", TOLD)
def test_the_names_of_sizes_are_found_and_each_has_its_own_figures(line: str) -> None:
    """Every way to tell the names: the names, and what the second size and the last make."""
    style, names, head = line.split(" | ", 2)
    wanted = tuple(names.split(", "))
    text = pattern(head.replace("\\n", "\n"), style or "-", len(wanted))
    for place in (1, len(wanted) - 1):
        loaded = load("piece", text, wanted[place])
        assert loaded.pattern.sizes == wanted
        made = [sum(e.is_stitch for e in row.worked.elements) for _, row in loaded.fabric.rows()]
        assert made == [30 + 6 * place, 28 + 6 * place]
        assert [problem.headline for problem in loaded.problems if problem.severity.value != "note"] == []


@pytest.mark.parametrize(
    ("names", "asked", "found"),
    [
        ("small (medium, large)", "M", "medium"),
        ("S (M, L)", "large", "L"),
        ("XS (S, M, L, XL, 2XL)", "XXL", "2XL"),
        ("1–3 (4–6, 7–9) months", "4–6 months", "4-6"),
        ("0-3 mos (3-6 mos, 6-12 mos)", "3-6 months", "3-6 mos"),
        ("Child (Teen, Adult)", "2", "Teen"),
        ("2 (4, 6)", "size 4", "4"),
    ],
)
def test_a_size_is_found_as_makers_ask_for_it(names: str, asked: str, found: str) -> None:
    """Other words for one of the names lead to it."""
    assert (
        sized("piece", pattern(f"Sizes: {names}", "(,)", names.count(",") + 2), asked).pattern.size == found
    )


def test_a_size_that_is_not_there_is_said_to_be_so() -> None:
    """The sentence lists the sizes there are."""
    with pytest.raises(WrongSize, match="it has S, M, L"):
        sized("piece", pattern("Sizes: S (M, L)", "(,)", 3), "XL")
