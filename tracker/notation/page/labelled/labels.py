"""Labels of rows: "Row 3 (RS):", "R6-10:", "2nd rnd:", "Rows 5, 7 & 9:", "Next row:".

A line comes in, a Label or None goes out.
"""

import re
from collections.abc import Sequence

from tracker.expressions import expression
from tracker.notation.page.labelled.row_names import as_kind, called, kind_of, range_of, row_name
from tracker.records import dataclass
from tracker.trade.numbers import number_of

_NUMBERS = (
    r"\d{1,9}(?:\s*(?:-|(?:up\s+)?to(?:\s+and\s+including)?|through|thru|~|\.{2,3}"
    r"|(?:till|until)(?=[^\d\n]{1,8}\d{1,9}\s*[:.(\[])|&|and|,|/|\+)"
    r"\s*(?:(?:rows?|rnds?|rds?|rounds?|r)\s*)?\d{1,9})*(?:,?\s*(?:both\s)?incl(?:usive|\.)?(?!\w))?"
)
_ROWS = ("row", "rnd", "round")
_ACTION = (
    r"(?=\s*(?:[*(\[{{†]|\d|ch\b|ch\d|chain|turn\b|with\b|join|using|work|in\b|into|rep\b|repeat|as\b"
    r"|(?:one|two|three|four|five|six|seven|eight|ten|twelve)\s(?:sc|hdc|dc|htr|tr|single|double|half|treble)\b"
    r"|same\b|like\b|cont\b|continue\b|keep\b|sk\b|skip|miss\b|slip\b|sl\b|ss\b|start\b|begin\b|"
    r"change|fasten|beg\b|[bf]lo\b|do not|\(|[fb]p|e?sc|e?hdc|e?dc|e?tr|dtr|htr|(?:single|double|half|treble|front"
    r"|back)\s|inc\b|dec\b|make|magic|mr\b"
    r"|standing|loop\s+st|(?:rows?|rnds?|rounds?)\s\d|crab\s|rev(?:erse)?\s|\w+\s+in\s+(?:next|each|every|first|ring)))"
)
_LED = (
    r"(?:for|from|on)\s+(?=(?:rows?|rnds?|rounds?)\s+\d[^.:;,\n]{1,24}[,:]\s*(?:rep|repeat|work|as|same)\b)"
    r"|work(?:ing)?\s+(?=(?:rows?|rnds?|rounds?)\s+\d{1,4}\s?(?:-|to|through|and|&)\s?\d{1,4}\s+"
    r"(?:(?:exactly|in|the)\s+){0,3}(?:same|as|like)\s(?:[a-z]{1,6}\s){0,3}(?:row|rnd|round)s?\s\d)"
)
"""What may stand before a label: "For rows 3-24, repeat row 2", "Work Rows 3-16 same as Row 2"."""
_NUMBERED = expression(
    rf"\s{{0,12}}(?:{_LED}|from\s|patt(?:ern|\.)?\s+(?=rows?\s+\d))?(?:(?P<ahead>RS|WS)\s+(?=r))?(?:(?P<word>rows?|rnds?|rds?|rounds?)\s*\.?\s*(?:no\.?\s*|\#)?"
    rf"|(?P<short>r)\s?(?=\d))(?P<numbers>{_NUMBERS})"
    rf"(?P<sizes>\s*(?:[(\[{{]\s*\d+(?:\s*(?:-|to|through)\s*\d+)?(?:\s*[,:/]\s*\d+(?:\s*(?:-|to|through)\s*\d+)?)*\s*[)\]}}])+(?:\s?(?:-|to|through)\s?\d{{1,4}}\s?[(\[{{]\d[\d\s,:/]*[)\]}}])?)?"
    rf"(?P<also>\s*(?:,|and|&)?\s*(?:and|&)?\s*(?:all|every|each)\s+(?:following\s+|foll\s+|other\s+"
    rf"|alt(?:ernate)?\s+)?(?P<parity>even|odd|rs|ws|alt\w*|other)?"
    rf"[\s-]*(?:numbered\s*)?(?:rows?|rnds?|rounds?)?(?:\s+(?:up\s+to\s+and\s+including|through|up\s+to|to|until|thru)"
    rf"\s+(?:and\s+including\s+)?(?:rows?|rnds?"
    rf"|rounds?)?\s*\d{{1,4}})?)?"
    rf"(?P<onward>\s+(?:and\s+)?onwards?\b)?(?:\s*,?\s*\(?(?:inclusive|incl\b\.?|both\s+inclusive)\)?)?"
    rf"(?P<remark>(?:\s*[(\[][^)\]\n]{{0,60}}[)\]])*)"
    rf"(?P<side>\s+(?:RS|WS)\b|\s*(?:,|/|[–—]|-)\s*(?:RS|WS|right side|wrong side)(?:\s+(?:row|facing))?/?(?=\s*[:.]))?"
    rf"(?:(?:\s*[,/–—-]|\s)\s*(?:(?:with|in|using)\s+)?(?:(?:(?:colou?r|yarn|shade)\s+)?(?-i:[A-Z]{{1,2}}\d?)|(?:colou?r|yarn|shade)\s+(?:\d|one|two|three|four|five|six))(?=\s*:)|,\s*[a-z]{{3,12}}(?=\s*:))?"
    rf"(?:\s*,\s+(?:with|over|around|for|at|on)\s+(?:the|a)\s+[a-z ]{{3,24}}(?=\s*:))?"
    rf"\s*(?P<mark>[:.)\]|]|(?:is|are)\s+(?:(?:just|simply|all|each)\s+)+(?=ch\s?\d|turn\b|sc\b|hdc\b|dc\b)|,(?=\s(?:rep|repeat|work)\b|\sch(?:ain)?\s?\d[,;]?\s(?:and\s)?turn\b|\sturn\b)|[—–]|\s-+\s|--+|-(?=\s))?",
    re.IGNORECASE,
)
_BRANCH = expression(
    r"\s{0,12}(?P<text>(?P<word>rows?|rnds?|rounds?)\s+(?P<first>\d{1,4})(?P<letter>[a-f])"
    r"(?:\s*(?:-|[–—]|to|through)\s*(?P<last>\d{1,4})(?P=letter))?)(?P<remark>(?:\s*\([^)\n]{0,60}\))?)\s*[:.]",
    re.IGNORECASE,
)
""" "Row 21a:", "Rows 22a-28a:": rows of a second side that is numbered as the first."""
_ORDINAL = expression(
    r"\s{0,12}(?P<numbers>\d{1,4}(?:st|nd|rd|th)(?:\s*(?:-|to|through|&|and|,)\s*\d{1,4}(?:st|nd|rd"
    r"|th))*)(?P<also>\s+(?:and|&)\s+(?:every|each|all)\s+(?:foll(?:owing)?\s+)?(?:even|odd|alt(?:ernate)?|other))?"
    r"\s+(?:patt(?:ern|\.)?\s+)?(?P<word>rows?|rnds?|rounds?)\b(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)"
    r"\s*(?P<mark>[:.]|[—–]|-(?=\s))?",
    re.IGNORECASE,
    _ROWS,
)
_BEFORE_WORD = expression(
    r"\s{0,12}(?P<numbers>\d{1,4})\.?\s+(?P<word>row|rnd|round)(?P<remark>)\s*(?P<mark>:|[—–])"
    r"|\s{0,12}(?P<range>\d{1,4}\s?-\s?\d{1,4})\s+(?P<words>rows?|rnds?|rounds?)(?P<said>)\s*(?:[:.]|[—–])"
    r"|\s{0,12}\d{1,3}\s+(?P<several>rows|rnds|rounds)\s*\((?P<these>\d{1,4}\s?-\s?\d{1,4})\)\s*[:.]",
    re.IGNORECASE,
    _ROWS,
)
""" "3 rnd: …", "6-10 rnds: …", "5 rnds (6-10): …", as translated patterns number their rounds; not "8 rnds: …"."""
_BARE = expression(
    r"\s{0,12}(?P<numbers>\d{1,4}(?:(?:\.?\s?-\s?|\s(?:to|&|and)\s)\d{1,4})?)"
    r"(?P<sizes>(?:(?<=-\d)|(?<=-\d\d)|(?<=-[ ]\d)|(?<=-[ ]\d\d))\s?[(\[{]\d[\d\s,:/–-]*[)\]}](?=\s?[:.)]))?"
    r"(?P<remark>(?:\s*\((?:RS|WS)\))?)\s*(?P<mark>:"
    r"|\.(?=\s+(?:\D|\d+\s?×|\d+\s*(?:x|sc|hdc|dc|htr|tr|dtr|inc\w*|dec\w*|ch|sts?|single|double|half|trebles?)\b))|\)(?=\s))",
    re.IGNORECASE,
)
_NAMED = expression(
    r"\s{0,12}(?P<name>(?:next|foll(?:owing)?|foundation|set[- ]?up|edging|edge|border|base|final|last"
    r"|first|inc(?:rease)?|increasing|dec(?:rease)?|decreasing|joining|"
    r"beginning|beg|starting|start|eyelet|ridge|picot|shell|trim|chain|bind[- ]off|turning|closing"
    r"|buttonhole|band|rib(?:bing)?|neck(?:line)?|crab|ruffle|mesh|lace)"
    r"\s+(?P<many>\d{1,4}(?:\s*[(\[{][\d,:;/\s–—-]*[)\]}]|\s?[:/]\s?\d{1,4})*\s+)?(?P<word>rows?|rnds?"
    r"|rounds?))\b(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)\s*(?P<mark>[:.]|[—–]|\s-\s|-(?=\s))",
    re.IGNORECASE,
    _ROWS,
)
_CALLED = expression(
    r"\s{0,12}(?P<name>(?!(?:each|every|this|that|these|all|per|of|same|previous|prev|work|turn|rep|repeat|as|for"
    r"|the|in|at|join|on|end)\b)(?-i:[A-Za-z])[\w'-]{1,14}(?:\s(?!of\b|and\b|for\b)[\w'-]{2,14})?)\s+(?P<many>)"
    r"(?P<word>rows?|rnds?|rounds?)(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)\s*(?P<mark>:)(?=\s*\S)",
    re.IGNORECASE,
    _ROWS,
)
"""A row that goes by a name of its own: "Thumb rnd:", "Handle row (RS):"."""
_EDGE = expression(
    r"\s{0,12}(?P<name>(?:(?!(?:with|for|work|the|at|in|on|rep|repeat|ch)\b)(?-i:[A-Za-z])[\w'-]{1,14}\s){0,2}"
    r"(?:(?:edging|border|trim|ruffle|frill)(?:\s\d)?|edge|fringe|band|brim|hem"
    r"|(?!notes?\b|tips?\b|hint|important|remember|finishing|assembly|joining)(?-i:[A-Za-z]{3,12})"
    r"(?=\s*:\s*(?:ch(?:ain)?\s?1\b[,;]?\s*(?:turn|do not|working|work|rotate|with)\b"
    r"|turn\b|do not\b|rotate\b|rejoin\b|(?:with\s[^.;,]{2,24},\s)?join\b[^.;]{2,70}?[,;.]\s*ch(?:ain)?\s?\d\b))))"
    r"(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)\s*(?::|(?<=edging|border)\.)"
    r"(?=\s*(?:\*|[(\[]|ch\b|chain\b|turn\b|do not|rotate|with\b|join|(?:sl|ss|sc|hdc|dc|single|double|half|slip)\b"
    r"|work(?:ing)?\b|rejoin|attach|evenly\b|along\b|\d\s?(?:sc|dc|hdc|tr|ch)\b))",
    re.IGNORECASE,
    [":", "edging.", "border."],
)
""" "Edging: Ch 1, turn, …": one row that goes by the name of what it is."""
_EDGE_DASH = expression(
    r"\s{0,12}(?P<name>(?:(?-i:[A-Z][\w'-]{1,14})\s){0,2}(?:edging|border|edge|trim|ruffle|fringe|scallops?|heading|finish"
    r"|top|points?|fans?|shells?|picots?|lace))(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)\s*(?:[—–:]|\s-\s)\s*"
    r"(?=(?:work(?:ing)?|re-?join|join|attach|along|across|do not)\b"
    r"[^.]{0,60}\b(?:side|edge|end|ends|rows?|top|bottom|along)\b)",
    re.IGNORECASE,
    ["—", "–", ":", " - "],
)
""" "Scallops—Working along the side of the rows, …": a row that goes by the name of the edge it makes."""
LETTERED = expression(
    r"\s{0,12}(?P<word>(?:Row|ROW|row|Rnd|Round))\s+(?P<letter>[A-H])(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)\s*"
    r"(?P<mark>[:.]|[—–]|\s-\s)(?=\s*\S)"
)
"""A row that goes by a letter: "Row A (RS): Ch 1, …"."""
_SPOKEN = expression(
    r"\s{0,12}(?P<word>row|rnd|round)\s+(?P<spelled>one|two|three|four|five|six|seven|eight|nine|ten"
    r"|eleven|twelve)\b(?P<remark>(?:\s*[(\[][^)\]\n]{0,60}[)\]])*)\s*(?P<mark>[:.]|[—–]|\s-\s)",
    re.IGNORECASE,
    _ROWS,
)
_IN_LINE = expression(
    r"[.)\]}!;:=–—](?:(?<=[=–—])\s?\d{1,3}|(?<=[)\]]),?|(?<![=–—)\]]))(?:(?<!:)\s+"
    r"(?=(?:[Rr]ows?|[Rr]nds?|[Rr]ounds?|ROWS?|RNDS?|ROUNDS?)\s?\d[\d\s,&-]{0,14}(?:\s*[(\[{][^)\]}\n]{1,40}[)\]}])*\s?:"
    r"|(?:Row|Rnd|Round|ROW|RND|ROUND)\s?\d{1,3}\.\s+[A-Z]|[Rr]\d{1,3}(?:-[Rr]?\d{1,3})?:"
    r"|\d{1,3}(?:st|nd|rd|th)\s(?:[Rr]ow|[Rr]nd|[Rr]ound)(?:\s*\([^)\n]{1,40}\))*\s?:"
    r"|(?:(?:Hanging|Button)\s[Ll]oop|Hanger|Loop|Ties?|Strap|Finishing|Assembly|Edging|Border):\s"
    r"|(?:Row|Rnd|Round)\s\d{1,3}\s+(?:\d{1,3}\s(?:ch|dc|tr|htr|sc|hdc)|[Cc]h\s?\d|[Mm]iss|[Ss]s|[Ss]k|[Tt]urn|[Ww]ith|[Ll]ike|\*)(?![a-z])"
    r"|[Rr]\d{1,3}(?:[-–][Rr]?\d{1,3})?\s+(?:[*(\[]|(?:ch|turn|sc|hdc|dc|tr|htr|loop|rep|repeat|as|work|inc|dec|[bf]lo|mr|\d)(?![a-z])"
    r"|(?:\d{1,3}\s?)?(?:sc|hdc|dc|tr|htr|inc|dec|ch|ss|slst)\s?\d{0,3}(?![a-z])))"
    r"|(?<=:)\s+(?=(?:R|Rnd\s|Rd\s|Row\s)1[.:]?\s+(?:\d|sc|mr|ch|in|\(|\[)))"
)
_FIRST_CHAIN = expression(
    r"(?<=[.!:–—])\s+(?=(?:(?:With|Using)\s[^.:;]{1,40},?\s+)?(?:[Cc]h|CH|Chain|Make|Work)\s+\d|\d+\s+ch\b)"
)
_TURNED = expression(r"(?:ch(?:ain)?\s?\d+|\d+\s?ch)\s?[,;]?\s(?:and\s)?turn\b", re.IGNORECASE)
""" "… of ch-3. Ch 3, turn. Row 3: …", on a line that goes on with Row 2: no foundation."""
ACTS = expression(_ACTION.replace("{{", "{"), re.IGNORECASE)
NOT_A_LABEL = expression(
    r"\s*(?:is|are|forms?(?!\s+(?:a|an|your|the)\b)|sets?|establish\w*|has|have|only|will|should|was|counts?|makes|make(?!\s+\d+\s+\w+\s+in\b)|of|until|for"
    r"|times|again|more|once|twice|onwards?|above|below|end|gauge|to\b|=|in\s+(?:an?\s+)?(?:spirals?|continuous))\b",
    re.IGNORECASE,
)
_TELLS_OF_ALL = expression(
    r"\s*(?:begin|start|end|each|every|are|all|always|work(?:ed)?\s+(?:each|every))\b", re.IGNORECASE
)
""" "Increase rows: begin each with ch 6, …": what is said of all such rows is no row."""
_WORKED = expression(r"[(\[][^)\]]*(?:,|\bin\b|\d\s*(?:sc|hdc|dc|tr)\b)")
"""A bracket that holds work, and not a remark on the row."""
_OFTEN = expression(
    r"\s*(?:\d+\s?(?:times|x\b)|[x×]\s?\d|twice\b|(?:in|into|around|across)\s)", re.IGNORECASE
)
"""What stands behind a bracket of work: "Rnd 2 [inc] 8 times"."""
_SIDES = expression(r"\b(?:(RS|right side)|(WS|wrong side))\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Label:
    """The label of a row."""

    kind: str
    """"row", "round" or "edging"."""
    numbers: Sequence[int]
    """Every row it stands for, in order: a tuple, or a range for very many."""
    text: str
    """As reports call it: "Rows 3-10", "Rnd 4", "Next row"."""
    start: int
    """Offset of its first character in the line."""
    end: int
    """Offset in the line where the row's own text begins."""
    side: str | None = None
    """"RS" or "WS"; None when not said."""
    many: int | None = None
    """How many, for "Next 8 rows"; None when not said."""
    alternate: bool = False
    """True for "Row 6 and all even rows"."""
    called: str = ""
    """What others may call it, told in its remark or its name: "dec" for "Row 7 (dec row)"; "" for nothing."""


def named(label: Label, kind: str) -> str:
    """A label's text for the kind its row turned out to be, as it is where that is its own."""
    return as_kind(label.text, kind) if kind != label.kind else label.text


ALONE = expression(
    r"\s*(?:rows?|rnds?|rounds?)\s+\d{1,4}(?:\s*(?:-|–|to|and|&)\s*\d{1,4})?(?:\s*\([RW]S\))?\s*",
    re.IGNORECASE,
)
"""A label with a line of its own."""


def stand_alone(text: str, lines: Sequence[tuple[int, int]]) -> bool:
    """True where labels with a line of their own are labels: many are, or work stands below each."""
    alone = [
        k for k, (start, end) in enumerate(lines) if end - start < 40 and ALONE.fullmatch(text, start, end)
    ]
    if not alone:
        return False
    below = [next((text[a:b] for a, b in lines[k + 1 : k + 4] if text[a:b].strip()), "") for k in alone]
    return len(alone) >= 3 or all(map(ACTS.match, below))


def lettered(line: str) -> Label | None:
    """The label of a row that goes by a letter; letters stand for the numbers from 1.

    >>> lettered("Row B: Ch 1, turn").numbers
    (2,)
    """
    hit = LETTERED.match(line)
    if hit is None:
        return None
    kind, letter = kind_of(hit["word"]), hit["letter"]
    text = f"{'Rnd' if kind == 'round' else 'Row'} {letter}"
    number = ord(letter) - ord("A") + 1
    return Label(kind, (number,), text, hit.start("word"), hit.end(), _side_of(hit["remark"]))


def label_at(line: str, bare: bool = False, alone: bool = False) -> Label | None:
    """The label a line begins with, or None.

    "R3:" is called a round until the part is known to turn; `bare` allows numbers alone ("3: 6 sc"), `alone` a
    label that is all of its line.

    >>> label_at("Rnd 3 (RS): Ch 1").text, label_at("Row 3 is the right side") is None
    ('Rnd 3', True)
    """
    hit = _NUMBERED.match(line)
    if hit and not hit["mark"] and (branch := _BRANCH.match(line)) is not None:
        last = int(branch["last"] or branch["first"])
        many = last - int(branch["first"]) + 1
        start = branch.start("text")
        side = _side_of(branch["remark"])
        return Label(
            kind_of(branch["word"]), (), branch["text"], start, branch.end(), side, many if many > 1 else None
        )
    if (
        hit
        and "-" in hit["numbers"]
        and re.search(r"\d\s+-\s+\d", hit["numbers"])
        and not (hit["mark"] or "").strip().startswith((":", ".", ")", "-", "–", "—"))
        and not (
            (hit["word"] or "").lower().endswith("s")
            and re.match(r"\s*(?:rep|as|same|work)", line[hit.end() :], re.IGNORECASE)
        )
    ):
        # "R1 - 6 sc": the hyphen marks the label, it does not make a range
        cut = re.search(r"\s+-\s+", hit["numbers"])
        assert cut is not None
        at = hit.start("numbers") + cut.start()
        hit = _NUMBERED.match(line[:at] + " : " + line[at + 3 :]) if len(cut.group()) == 3 else hit
    if hit:
        end = hit.end()
        if (
            not hit["mark"]
            and hit["remark"]
            and (
                _WORKED.search(hit["remark"]) or _OFTEN.match(line[end:]) and not _SIDES.search(hit["remark"])
            )
        ):
            # "R3 (sc, inc) x 6": with no mark behind it the bracket is the row's own
            end = hit.start("remark")
        rest = line[end:]
        if not hit["mark"]:
            if NOT_A_LABEL.match(rest) or not (rest.strip() == "" or ACTS.match(rest)):
                return None
            if rest.strip() == "" and not hit["side"] and not hit["remark"] and not alone:
                return None
            if (
                hit["remark"]
                and end == hit.end()
                and not _SIDES.search(hit["remark"])
                and rest.strip() == ""
                and not rest.startswith((":", "."))
            ):
                return None
        elif hit["mark"] in (".", ")", "]") and NOT_A_LABEL.match(rest):
            return None
        kind = kind_of(hit["word"]) if hit["word"] else "round"
        numbers = range_of(hit["numbers"])
        through = re.search(r"(\d{1,4})\s*$", hit["also"]) if hit["also"] else None
        to_last = bool(through and numbers and numbers[0] < int(through[1]))
        if to_last and through:
            # "Row 2 and all even rows through Row 16", "Row 2 and all following rows to Row 80"
            numbers = tuple(range(numbers[0], int(through[1]) + 1, 2 if hit["parity"] else 1))
        if not numbers or (hit["mark"] in (")", "]") and line[: hit.start("numbers")].count("(")):
            return None
        side = _side_of(" ".join(filter(None, hit.group("ahead", "remark", "side"))))
        return Label(
            kind,
            numbers,
            called(kind, numbers),
            len(line) - len(line.lstrip()),
            end,
            side,
            None,
            bool(hit["also"]) and not to_last,
            row_name(hit["remark"] or ""),
        )
    return _worded(line) or (_number_alone(line) if bare else None)


def _worded(line: str) -> Label | None:
    """A label that is no "Row 3": "2nd rnd:", "3 rnd:", "Row three", "Next row:", "Edging:"; None for other lines."""
    hit = _ORDINAL.match(line)
    if hit and (hit["mark"] or ACTS.match(line[hit.end() :])):
        kind = kind_of(hit["word"])
        numbers = range_of(re.sub(r"(?<=\d)(?:st|nd|rd|th)", "", hit["numbers"]))
        return Label(
            kind,
            numbers,
            called(kind, numbers),
            hit.start("numbers"),
            hit.end(),
            _side_of(hit["remark"]),
            alternate=bool(hit["also"]),
            called=row_name(hit["remark"] or ""),
        )
    hit = _BEFORE_WORD.match(line)
    if hit:
        kind = kind_of(hit["word"] or hit["words"] or hit["several"])
        numbers = range_of(hit["numbers"] or hit["range"] or hit["these"])
        return Label(kind, numbers, called(kind, numbers), len(line) - len(line.lstrip()), hit.end())
    hit = _SPOKEN.match(line)
    if hit:
        kind = kind_of(hit["word"])
        numbers = (number_of(hit["spelled"]) or 0,)
        return Label(
            kind,
            numbers,
            called(kind, numbers),
            hit.start("word"),
            hit.end(),
            _side_of(hit["remark"]),
        )
    hit = _NAMED.match(line) or _CALLED.match(line)
    if (
        hit
        and hit["word"].lower().endswith("s")
        and not hit["many"]
        and _TELLS_OF_ALL.match(line[hit.end() :])
    ):
        hit = None
    if hit:
        kind = kind_of(hit["word"])
        counted = re.match(r"\d+", hit["many"]) if hit["many"] else None
        many = int(counted.group()) if counted else None
        words = " ".join(hit["name"].split())
        return Label(
            kind,
            (),
            words[0].upper() + words[1:],
            hit.start("name"),
            hit.end(),
            _side_of(hit["remark"]),
            many,
            called=row_name(f"{words} {hit['remark'] or ''}"),
        )
    hit = _EDGE.match(line) or _EDGE_DASH.match(line)
    if hit:
        words = " ".join(hit["name"].split())
        named = words[0].upper() + words[1:]
        return Label("edging", (), named, hit.start("name"), hit.end(), _side_of(hit["remark"]))
    return None


def _number_alone(line: str) -> Label | None:
    """ "3: 6 sc": a round by its number; None for other lines."""
    hit = _BARE.match(line)
    if hit is None or not line[hit.end() :].strip():
        return None
    numbers = range_of(hit["numbers"])
    side = _side_of(hit["remark"])
    return Label("round", numbers, called("round", numbers), hit.start("numbers"), hit.end(), side)


def _side_of(text: str) -> str | None:
    """The side that faces, told in a remark; None when none is."""
    hit = _SIDES.search(text) if text else None
    return None if hit is None else ("RS" if hit[1] else "WS")


def starts_in(line: str) -> list[int]:
    """Offsets in a line where a further row begins after the first: rows run together on one line."""
    rows = [hit.end() for hit in _IN_LINE.finditer(line)]
    if rows and label_at(line) is None:
        # "TRIVET. Cotton held double. Ch 17. R1 …": the foundation stands among the words before it
        chain = _FIRST_CHAIN.search(line, 0, rows[0])
        if chain and line[: chain.end()].strip() and not _TURNED.match(line, chain.end()):
            rows.insert(0, chain.end())
    return rows
