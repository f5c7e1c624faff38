"""Labels of rows: how they are numbered and signed, with the side and the colour told in them."""

import re

from reworded.wording import Rewording, filled, in_words, ordinal, ways

LABEL = r"(?m)^(Row|Rnd) (\d+)((?: \([RW]S\))?): ?"
ROW_LABEL = r"(?m)^(Row) (\d+)((?: \([RW]S\))?): ?"
PLAIN = r"(?m)^(Row|Rnd) (\d+): ?"
SIDE = r"(?m)^(Rows?|Rnds?) ([\d–-]+) \(([RW])S\): ?"
COLOUR = r"(?m)^(Rows?|Rnds?) ([\d–-]+) \(([A-F])\): ?"
TILES = "c2c_cactus_percolor_terms juniper_the_moth"


def _label(match: re.Match[str]) -> dict[str, object]:
    number = int(match[2])
    return {"w": match[1], "n": number, "s": match[3], "th": ordinal(number), "o": match[1].lower(),
            "one": in_words(number), "W": match[1].upper()}  # fmt: skip


def _sided(match: re.Match[str]) -> dict[str, object]:
    return {"w": match[1], "n": match[2], "s": f"{match[3]}S", "side": "right side" if match[3] == "R" else "wrong side",
            "low": f"{match[3].lower()}s"}  # fmt: skip


LABELS = (
    Rewording("Round", r"(?m)^Rnd (\d+)( \([RW]S\))?:", r"Round \1\2:"),
    Rewording("bold label", r"(?m)^((?:Rnd|Row) \d+)( \([RW]S\))?:", r"**\1\2:**"),
    *filled("row label", ROW_LABEL, _label, "R{n}{s}: ", "R{n}{s}. ", "{n}. {w} {n}{s}: "),
    *filled(
        "label", LABEL, _label,
        "{w} {n}{s}. ", "{w} {n}{s} - ", "{w} {n}{s}—", "{W} {n}{s}: ", "{w}{n}{s}: ", "{w} {n}{s} : ", "{w} {n}{s}) ",
        "{w} #{n}{s}: ", "{w} No {n}{s}: ", "{th} {o}{s}: ", "{th} {w}{s}. ", "{th} {o}{s} — ", "{w} {one}{s}: ", "{w}. {n}{s}: ",
        "*{w} {n}{s}:* ", "_{w} {n}{s}:_ ", "**{w} {n}{s}**: ", "**{w} {n}{s}** – ", "- {w} {n}{s}: ", "* {w} {n}{s}: ",
        "- **{w} {n}{s}:** ", "☐ {w} {n}{s}: ", "### {w} {n}{s}\n", "{w} {n}{s}:\n", "    {w} {n}{s}: ", "{w} {n}{s} | ",
        "{w} {n}{s} > ",
        but_not=TILES,
    ),
    *ways("plain label", PLAIN, r"(\1 \2) ", r"[\1 \2] "),
    Rewording("table of rows", r"(?m)^(Row|Rnd) (\d+): ([^\n|]*)$", r"| \1 \2 | \3 |"),
    *ways("round label", r"(?m)^Rnd (\d+)", r"Rd \1", r"Rnd. \1"),
    *filled(
        "side", SIDE, _sided,
        "{w} {n} [{s}]: ", "{w} {n}, {s}: ", "{w} {n} {s}: ", "{w} {n} - {s}: ", "{s} {w} {n}: ", "{w} {n} ({side}): ",
        "{w} {n} ({s} facing): ", "{w} {n}: ({s}) ", "{w} {n} ({low}): ", "{w} {n}: With {s} facing, ", "{w} {n} /{s}/: ",
        but_not=TILES,
    ),
    *ways(
        "colour", COLOUR,
        r"\1 \2 [\3]: ", r"\1 \2 with \3: ", r"\1 \2 (with \3): ", r"\1 \2 - \3: ", r"\1 \2: With \3, ", r"\1 \2 in \3: ",
        r"\1 \2 (color \3): ", r"\1 \2, \3: ", r"\1 \2 \3: ", r"\1 \2: (\3) ", r"\1 \2 (using yarn \3): ",
    ),
    *ways("with a colour", r"\bWith ([A-D]|MC|CC), ", r"Using \1, ", r"In \1, "),
)  # fmt: skip
