"""A swatch as a pattern of its own, to be led like any other piece. A gauge and a stitch come in; text goes out.

It is half as large again as what is measured, so that its edges stay out of the measure, and larger than 10 cm.
"""

from math import ceil

from tracker.planning.gauge import LEAST, Gauge
from tracker.trade.numbers import ordinal_figure

_FIRST = {"sc": 2, "hdc": 3, "dc": 4, "tr": 5}
"""The chain from the hook that the first stitch goes into, for chains that count (for sc: that do not)."""


def written(stitch: str, gauge: Gauge, mesh: int | None = None) -> str:
    """The pattern; ValueError for a stitch that swatches are not written for.

    `mesh`: chains of a window, for filet, which is measured in squares.
    """
    if stitch not in _FIRST:
        raise ValueError(f"A swatch is written for {', '.join(_FIRST)}; {stitch} is none of them.")
    scale = max(1.5, LEAST * 1.3 / gauge.across_cm)
    wide = max(4, ceil(gauge.stitches * scale))
    high = max(4, ceil((gauge.rows or gauge.stitches) * scale))
    of = "squares" if mesh else stitch
    rows = f" and {gauge.rows:g} rows" if gauge.rows else ""
    head = [
        "SWATCH",
        f"{wide} {of} wide and {high} rows high. US terms.",
        "",
        "NOTES",
        f"Wanted: {gauge.stitches:g} {of}{rows} over {gauge.across_cm:.4g} cm.",
        "",
    ]
    body = _filet(mesh, wide, high) if mesh else _plain(stitch, wide, high)
    foot = [
        "",
        "Fasten off.",
        "",
        "FINISHING",
        "Block it as the piece will be blocked, and let it dry. Away from its edges, count over "
        f"{gauge.across_cm:.4g} cm: {gauge.stitches:g} {of}{rows}. "
        "More than that: take a larger hook. Fewer: a smaller one.",
    ]
    return "\n".join(head + body + foot) + "\n"


def _plain(stitch: str, wide: int, high: int) -> list[str]:
    """Rows of one stitch."""
    nth = _FIRST[stitch]
    if stitch == "sc":
        return [
            f"Ch {wide + 1}.",
            "",
            f"Row 1 (RS): Sc in 2nd ch from hook and in each ch across. ({wide} sc)",
            "",
            f"Rows 2-{high}: Ch 1 (does not count as a st), turn, sc in each sc across. ({wide} sc)",
        ]
    chain = nth - 1
    ordinal = ordinal_figure(nth)
    count = f"({wide} {stitch})"
    return [
        f"Ch {wide + chain - 1}.",
        "",
        f"Row 1 (RS): {stitch.capitalize()} in {ordinal} ch from hook ({chain} skipped chs count as {stitch}) "
        f"and in each ch across. {count}",
        "",
        f"Rows 2-{high}: Ch {chain} (counts as {stitch}), turn, sk first {stitch}, "
        f"{stitch} in next {wide - 2} {stitch}, {stitch} in top of ch-{chain}. {count}",
    ]


def _filet(mesh: int, wide: int, high: int) -> list[str]:
    """Rows of open squares."""
    first = 2 * mesh + 4
    spaces = f"({wide + 1} dc, {wide} ch-{mesh} sps)"
    window = f"(ch {mesh}, sk next ch-{mesh} sp, dc in next dc) {wide - 2} times"
    last = f"ch {mesh}, sk next ch-{mesh} sp"
    begun = f"Ch {3 + mesh} (counts as dc and ch-{mesh} sp), turn, sk first ch-{mesh} sp, dc in next dc"
    lead = f"{begun}, {window}, {last}"
    skip = f"sk next {mesh} ch" + ("s" if mesh > 1 else "")
    return [
        f"Ch {(mesh + 1) * wide + 3 + mesh}.",
        "",
        f"Row 1 (RS): Dc in {first}th ch from hook (skipped chs count as dc and ch-{mesh} sp), "
        f"(ch {mesh}, {skip}, dc in next ch) {wide - 1} times. {spaces}",
        "",
        f"Row 2: {lead}, dc in {3 + mesh}th ch of skipped chs. {spaces}",
        "",
        f"Rows 3-{high}: {lead}, dc in 3rd ch of ch-{3 + mesh}. {spaces}",
    ]
