"""Repeats inside a row: how a star is gone back to, how often, how far, and how the last pass ends."""

import re

from reworded.wording import Rewording, filled, in_words, ways

REP = r"[Rr]ep(?:eat)? from \*"
ACROSS = rf"({REP}) across(?! (?:to|until|end))"
TO_END = rf"({REP}) to end(?! of)"
AROUND = rf"({REP}) around(?! (?:to|until|end))"
TO_LAST = rf"({REP}) to last (\d+) (sts|sc|hdc|dc|tr|ch)\b(?!-)"
TO_LAST_ONE = rf"({REP}) to last (st|sc|hdc|dc|tr|ch)\b(?!-)"
MORE = r"(?<=rep from \*) (\d+) more times"
BODY = r"(?<![*\w])\*(?!\*)\s?([^*;.\n†]{3,160})"
"""What a star begins, with no other star in it."""
TO_THE_END = rf"{BODY}[;,.] ?{REP} (across|around|to end)(?! (?:to|of|until|end))"
SO_OFTEN = rf"{BODY}[;,.] ?{REP} (\d+) more times"
UP_TO_LAST = rf"{BODY}[;,.] ?{REP} (?:across |around )?to (?:the )?last (\d+ )?(sts?|sc|hdc|dc|tr|ch)\b(?!-)"
BRACKET = r"\(([^()\[\]*\n]{5,120})\) (\d+) times(?! more| in\b| around)"
PINEAPPLES = "larkspur_pineapple_mat four_pineapple_mat solid_square_daggers"
"""Where the repeat of a star has further signs in it."""


def _more(match: re.Match[str]) -> dict[str, object]:
    times = int(match[1])
    return {"n": times, "m": times + 1, "w": in_words(times)}


def _whole(match: re.Match[str]) -> dict[str, object]:
    around = match[2] == "around"
    return {"b": match[1].strip().rstrip(",;."), "e": "around" if around else "to end",
            "a": "around" if around else "across"}  # fmt: skip


def _often(match: re.Match[str]) -> dict[str, object]:
    times = int(match[2])
    return {"b": match[1].strip().rstrip(",;."), "n": times, "m": times + 1}


def _to_last(match: re.Match[str]) -> dict[str, object]:
    return {"b": match[1].strip().rstrip(",;."), "l": f"{match[2] or ''}{match[3]}"}


REPEATS = (
    Rewording("repeat from *", r"\brep from \*", "repeat from *"),
    Rewording("rep from *", r"\brepeat from \*", "rep from *"),
    Rewording("2 times", r"\btwice\b(?! more)", "2 times"),
    Rewording("two times", r"\) twice(?! more)", ") two times"),
    Rewording("all around", r"(rep(?:eat)? from \*) around", r"\1 all around"),
    Rewording("each all around", r"(in each (?:st|sc|dc|hdc)) around", r"\1 all around"),
    *ways(
        "across", ACROSS,
        r"\1 to end", r"\1 to the end of the row", r"\1 across the row", r"\1 all the way across", r"\1 until end",
        r"\1 till end of row", r"\1 along the row", r"\1 across entire row",
        but_not="leaflet_collar_no_12",  # an ending stands behind it
    ),
    *ways("to end", TO_END, r"\1 to the end", r"\1 till the end", r"\1 until you reach the end"),
    *ways("around", AROUND, r"\1 to end of rnd", r"\1 to the end of the round", r"\1 all the way around", r"\1 all round"),
    *ways(
        "joined", r"; rep(?:eat)? from \* (to end|across|around)",
        r", repeat from * \1", r". Repeat from * \1", r" ... rep from * \1", r" and rep from * \1",
        r", then repeat from * \1", r"; rpt from * \1", r"; rep. from * \1", r", repeating from * \1", r"; from * rep \1",
        r"; continue from * \1", r"; cont rep from * \1", r"; keep repeating from * \1", r"; go back to * and repeat \1",
        r"; work from * \1", r"; rep from the * \1",
    ),
    *filled(
        "whole", TO_THE_END, _whole,
        "*{b}*, rep from * to * {e}", "*{b}*; rep {e}", "*{b}* {a}", "*{b}*; rep bet *s {e}",
        "*{b}*, repeat between *s {a}", "*{b}*. Repeat between asterisks {e}", "*{b}*; rep *-* {a}",
        "*{b}; rep from * to ; {e}", "*{b}*, repeat this {e}", "[{b}] {e}", "({b}) rep {e}", "[{b}]; rep {e}",
        "({b}), rep between ( ) {a}", "repeat [{b}] {a}", "rep ({b}) {e}", "{{{b}}} {a}", "†{b}†, rep from † to † {e}",
        "+{b}; rep from + {e}", "#{b}; rep from # {e}", "@{b}; rep from @ {e}", "★{b}; rep from ★ {e}",
        "\\*{b}; rep from \\* {e}",
        but_not=f"{PINEAPPLES} northern_sky_ripple_throw tapestry_bucket_bag_round_words spike_coaster"
        " fair_isle_band_hdc starwort_hexagon leaflet_collar_no_12",
    ),
    *filled(
        "further", MORE, _more,
        " {n} times more", " another {n} times", " a further {n} times", " {n} further times", " {n}x more",
        " {w} more times", " {n} more times ({m} times in all)", " {n} more times ({m} total)",
        " {n} more times for a total of {m} times", " until you have worked it {m} times", ", {n} more times",
        " ({n} more times)",
        but_not="overlay_x_letters_key_mat",  # an X is a stitch there
    ),
    *filled(
        "so often", SO_OFTEN, _often,
        "*{b}; rep from * {m} times in all", "*{b}; repeat from * {m} times altogether", "({b}) {m} times", "*{b}* {m} times",
        "*{b}* ({m} times)", "*{b}*, {n} more times", "*{b}*, rep from * to * {n} more times",
        "*{b}*, rep bet *s {n} more times", "rep *{b}* {m} times",
        # rows that are repeated; a count within
        but_not="named_rows_bobble_cowl_band baby_octopus_comfort overlay_mosaic_letters",
    ),
    *ways(
        "to last", TO_LAST,
        r"\1 across to last \2 \3", r"\1 until the last \2 \3", r"\1 until \2 \3 rem", r"\1 until \2 \3 are left",
        r"\1 till \2 \3 left", r"\1 until there are \2 \3 left", r"\1 to within \2 \3 of the end of the row",
        r"\1 up to last \2 \3", r"\1 until you have \2 \3 left", r"\1 until only \2 \3 remain", r"\1 until \2 \3 from end",
        r"\1 to \2 \3 before end",
    ),
    *ways(
        "to last one", TO_LAST_ONE,
        r"\1 across to last \2", r"\1 until 1 \2 remains", r"\1 until one \2 is left", r"\1 to within 1 \2 of end",
        r"\1 up to the last \2",
        but_not="pinewood_spine_shawl_sides",  # the last before a space
    ),
    *filled(
        "up to last", UP_TO_LAST, _to_last,
        "({b}) to last {l}", "*{b}*; rep between *s to last {l}", "*{b}*, repeat to last {l}", "[{b}] across to last {l}",
    ),
    *ways(
        "last pass", r"ending last rep(?:eat)? with",
        "ending the last repeat with", "end last rep with", "ending final repeat with",
    ),
    *ways("last pass without", r"omitting last (\w+)", r"omitting the last \1", r"leaving out last \1"),
    *ways("last pass to **", r"ending last rep at \*\*", "end last rep at **", "ending at ** on last repeat", "stopping at ** on last repeat"),
    *ways(
        "bracket", BRACKET,
        r"(\1) x\2", r"(\1) ×\2", r"(\1) \2x", r"(\1)*\2", r"(\1), \2 times", r"(\1) (\2 times)", r"(\1) \2 times in all",
        r"(\1) a total of \2 times", r"(\1) for a total of \2 times", r"[\1] rep \2x", r"rep (\1) \2 times",
        r"work [\1] \2 times", r"{\1} \2 times", r"*\1* \2 times", r"\2 times (\1)", r"\2x (\1)",
        # worked into something behind it, or in the notes; a star begins with it
        but_not="puff_and_cluster_lace beehive_hexagon_uk larder_raised_square_uk moonwort_doily square_doily_edging"
        f" long_table_doily_prose feather_wave_wrap mosaic_overlay_uk_ladder_band hankie_edging pram_cover_uk victorian_fan_square button_strap_booties terse_no_punctuation_coaster"
        f" {PINEAPPLES}",
    ),
)  # fmt: skip
