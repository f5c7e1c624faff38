"""Counts at the end of a row, before it, or on a line of their own."""

import re

from reworded.wording import Rewording, filled, ways

COUNT = r"\((\d+) (sc|hdc|dc|sts?)\)(?= ?\n)"
"""A count at the end of its line."""
BEHIND = r"(?m)(?<=\.)[ ]\((\d+) (sc|hdc|dc|tr|sts?)\)\.?[ ]*$"
"""A count in a sentence of its own."""
WITH_STOP = r"(?m)\.[ ]\((\d+) (sc|hdc|dc|tr|sts?)\)\.?[ ]*$"
"""The same with the stop before it."""
AT_THE_END = r"(?m)(?<=across|around)\.[ ]\((\d+) (sc|hdc|dc|tr|sts)\)\.?[ ]*$"
"""Behind what is worked to the end."""
SEVERAL = r"(?m)\((\d+ [a-z][\w-]*(?: sps?)?), (\d+ [a-z][\w -]*?)\)[ ]*$"
IN_LABEL = r"(?m)^(Row|Rnd) (\d+): ([^\n]*?)[ ]?\((\d+) (sc|hdc|dc|sts)\)$"
FULL = {"sc": "single crochet", "hdc": "half double crochet", "dc": "double crochet", "tr": "treble"}


def _count(match: re.Match[str]) -> dict[str, object]:
    number, stitch = match[1], match[2]
    return {"n": number, "s": stitch, "sts": "st" if number == "1" else "sts", "full": FULL.get(stitch, "sts"),
            "ss": stitch if number == "1" or stitch.endswith("s") else f"{stitch}s"}  # fmt: skip


COUNTS = (
    Rewording("count in brackets", COUNT, r"[\1 \2]"),
    Rewording("count after a dash", COUNT, r"– \1 \2."),
    Rewording("count in total", COUNT, r"(\1 \2 total)"),
    *filled(
        "count", BEHIND, _count,
        " ({n})", " {n} {s}.", " [{n}]", " {{{n} {s}}}", " <{n} {s}>", " ({n}{s})", " ({s}: {n})", " (total: {n} {s})",
        " ({n} {s} in all)", " (= {n} {s})", " ({n} {ss})", " ({n} {sts})", " ({n} {full})", " You have {n} {s}.",
        " You should now have {n} {sts}.", " There are {n} {s}.", " Total: {n} {s}.", " St count: {n} {s}", " Sts: {n}",
        " # of sts: {n}", " ({n} {s} made)", " ({n} {s} now)", " ({n} {s} at end of row)", " (you now have {n} {sts})",
        "\n({n} {s})", "\n{n} {sts}", "\nTotal: {n} {sts}", "\nStitch count: {n}", " **({n} {s})**", " **{n} {sts}**",
        " *({n} {s})*", " _{n} {s}_", " → {n} {s}", " // {n} {s}", " ~ {n} {s}", " >> {n} {s}",
        # counts of other things between, or letters that count
        but_not="thistle_cuff_mittens lullaby_bordered_blanket rag_rug_until_eighty fairisle_cup_wrap_tapestry"
        " uk_bag_gusset_measured_counts filet_noughts_and_crosses bed_socks_cuff mitered_hot_pad",
    ),
    *filled(
        "count behind", WITH_STOP, _count,
        " - {n} {s}.", "—{n} {s}.", " = {n} {s}.", ". = {n} {s}", "; {n} {s}.", " .... {n} {s}", " ({n} {s}).",
    ),
    *filled(
        "count of all", AT_THE_END, _count,
        ": {n} {s}.", ", {n} {s}.", ", for a total of {n} {s}.", " to make {n} {s}.", ", making {n} {ss}.",
        ", giving you {n} {sts}.",
        but_not="skipped_tch_hidden short_row_wedge_potholder",
    ),
    *ways(
        "several counts", SEVERAL,
        r"(\1 and \2)", r"(\1 + \2)", r"(\1; \2)", r"[\1, \2]", r"— \1, \2.", r"You have \1 and \2.", r"— \1 and \2 made.",
        "\n(\\1, \\2)",
    ),
    *ways("count in label", IN_LABEL, r"\1 \2 (\4 \5): \3", r"\1 \2 [\4 \5]: \3", r"\1 \2 - \4 \5: \3", but_not="woven_look_coaster scalloped_cloth_edging"),  # not read yet: a count before all that goes round an edge
)  # fmt: skip
