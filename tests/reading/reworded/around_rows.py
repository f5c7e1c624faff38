"""What stands about the rows: how the work is turned and fastened off, names of parts, sizes, and the page."""

import re

from reworded.wording import Rewording, filled, ways

CHAIN_AND_TURN = r"(?m)^((?:Rows?|Rnds?|R|\d+\w\w row) ?[\d–-]*(?: \([RW]S\))?: )Ch (\d)((?: \(counts as[^)]*\))?), turn[,;.] ?(\w|\*|\(|\[)"
FASTEN_OFF = r"Fasten off(?=\.(?:\s|$))"
PART = r"(?m)^(?!NOTES|SPECIAL|FINISHING|MATERIALS|GAUGE|ABBREVIATIONS|STITCHES|TENSION)([A-Z]{4,12})$"
TWICE = r"(?m)^([A-Za-z]{3,12}) \(make 2\)$"
SIZES = r"\b(\d+) \((\d+(?:, \d+)+)\)"


def _turned(match: re.Match[str]) -> dict[str, object]:
    return {"l": match[1], "n": match[2], "c": match[3], "x": match[4], "X": match[4].upper()}


def _part(match: re.Match[str]) -> dict[str, object]:
    return {"P": match[1], "p": match[1].lower(), "T": match[1].title()}


def _sizes(match: re.Match[str]) -> dict[str, object]:
    more = match[2].split(", ")
    return {"a": match[1], "comma": ", ".join(more), "colon": ": ".join(more), "glued": ",".join(more),
            "slash": "/".join([match[1], *more]), "colons": ": ".join([match[1], *more]),
            "each": " ".join(f"({figure})" for figure in more)}  # fmt: skip


AROUND_ROWS = (
    *filled(
        "turn", CHAIN_AND_TURN, _turned,
        "{l}Ch {n}{c} and turn, {x}", "{l}Ch {n}{c} & turn. {X}", "{l}Ch {n}{c}. Turn. {X}", "{l}Ch {n}{c}, turn your work, {x}",
        "{l}Ch {n} to turn{c}, {x}", "{l}Turn, ch {n}{c}, {x}", "{l}Turn. Ch {n}{c}. {X}", "{l}Turn and ch {n}{c}, {x}",
        "{l}{n} ch{c}, turn, {x}", "{l}Ch {n}{c} (turn), {x}", "{l}Turn with ch {n}{c}, {x}", "{l}Turn + ch {n}{c}. {X}",
        "{l}Ch {n}{c} turn, {x}",
    ),
    *ways(
        "fasten off", FASTEN_OFF,
        "Finish off", "End off", "FO", "F/O", "Fasten off securely", "Cut yarn and fasten off", "Break yarn", "Tie off",
        "Cut the yarn and pull it through the last loop", "Fasten off and weave in ends", "Bind off", "Cast off", "Secure yarn",
        "Break thread and secure", "FASTEN OFF", "Snip yarn and pull through", "Ch 1, cut yarn and pull through",
        "Ch 1 and fasten off",
    ),
    *ways("not fastened off", r"(?i)\bdo not fasten off\b", "Don't fasten off", "do not cut yarn"),
    *filled(
        "part", PART, _part,
        "{T}", "{T}:", "## {T}", "**{T}:**", "For the {p}:", "The {T}", "=== {P} ===", "[{P}]", "To make the {p}:",
        "{P} INSTRUCTIONS", "__{T}__", "Making the {T}",
    ),
    *ways(
        "made twice", TWICE,
        r"\1 (make two)", r"\1 – Make 2", r"\1, make 2", r"\1 x2", r"\1 (2x)", r"\1 (make 2 alike)", r"\1 [make 2]",
        "\\1\nMake 2.", r"**\1 (make 2)**", "\\1\nMake 2 of these.",
    ),
    *filled(
        "sizes", SIZES, _sizes,
        "{a} [{comma}]", "{a}({glued})", "{a} ({colon})", "{a}[{colon}]", "{a} {each}", "{a} {{{comma}}}",
        but_not="kids_hooded_poncho_rounds",  # a chain behind a part's name
    ),
    *ways(
        "a page ends", r"\n(?=(?:Row|Rnd) [357]\b)",
        "\nPage 3 of 7 © 2024 The Loop Room\n", "\n© The Loop Room, for personal use only\n", "\n***\n", "\nPage 4\n",
        "\nPattern continues on next page\n\n", "\n- 4 -\n", "\nwww.looproom.example\n",
    ),
    *ways(
        "a page ends in a row", r"(?m)^((?:Row|Rnd) \d+[^:\n]*: [^\n]*[^\s,;.:)\]]) in (next|each) ",
        "\\1 in\nPage 3 of 7\n\\2 ", "\\1 in\nLOOP ROOM\nPage 4\n\\2 ", "\\1 in \\2\n© The Loop Room\n",
    ),
    *ways(
        "a mark before a label", r"(?m)^(?=(?:Row|Rnd)s? \d[\d–-]*:)", "___ ", "> ", "o ", "1) ", "#", "– ", ">> ", "( ) ",
    ),
    *ways(
        "a picture named", r"(?m)(?<=\d (?:sc|dc)\))$", " [Pic 4]", " (see photo 3)", " (fig. 12)", " __________", " \U0001f389",
        but_not="rag_rug_until_eighty",  # what shapes on stands on a line behind it
    ),
    Rewording("said behind a count", r"(?m) \((\d+ (?:sc|hdc|dc))\)$", r" – \1 Place a marker here.", but_not="scarf_from_the_middle"),
    Rewording("a line between rows", r"\n(?=(?:Row|Rnd) \d)", "\n\n"),
    Rewording("rows without their last stop", r"(?m)^((?:Row|Rnd)s? \d[^\n]*)\.$", r"\1"),
    Rewording("rows quoted", r"(?m)^", "> "),
)  # fmt: skip
