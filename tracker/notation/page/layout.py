"""Lines into blocks: which are rows, which the foundation, which notes, headings, definitions, prose.

Cleaned text comes in; blocks with offsets come out, in order, covering every line that says anything.
"""

import re
from dataclasses import dataclass

from tracker.notation.definitions import head_of
from tracker.notation.page.labels import Label, label_at, starts_in
from tracker.notation.page.sizes import condition_at, size_names
from tracker.trade.numbers import number_of

MAX_LINES = 200_000


@dataclass(slots=True)
class Block:
    """A stretch of the text with its job. Not frozen: its end moves as lines are added."""

    job: str
    """"title", "note", "define", "setup", "row", "rerun", "aside"."""
    start: int
    end: int
    label: Label | None = None
    text_start: int = 0
    """Where the text behind the label begins."""
    part: str | None = None
    sizes: tuple[str, ...] = ()
    finishing: bool = False


@dataclass(slots=True)
class Page:
    """All blocks of a text."""

    blocks: list[Block]
    title: str
    parts: list[tuple[str, int]]
    """Names of the parts and how many to make of each."""
    sizes: tuple[str, ...]
    copies: int
    cut: bool
    """True when the text was longer than is read."""


_NOTES = re.compile(
    r"^\W*(?:notes?|materials?|gauge|tension|abbreviations?(?: used)?|abbrev\.?|special stitch(?:es)?|stitch(?:es)?(?: key| guide| glossary| used)|stitch key|skill level|difficulty|sizes?|finished (?:size|measurements?)|measurements?|yarn|hooks?|"
    r"supplies|notions|you(?:'ll| will)? need|what you need|terms?|terminology|key|glossary|tools?|equipment|before you (?:start|begin)|about|pattern notes|special techniques?|techniques?|colou?rs?|designer'?s? notes?)\W*$",
    re.IGNORECASE,
)
_WORKING = re.compile(
    r"^\W*(?:instructions?|directions?|pattern|the pattern|method|to make|begin|let's (?:go|begin|start)!?|how to make it)\W*$",
    re.IGNORECASE,
)
_FINISHING = re.compile(
    r"^\W*(?:finishing|assembly|making up|to (?:finish|make up|assemble)|blocking|sewing up|putting it (?:all )?together|to finish|make up|joining|construction|assembling|care)\W*$",
    re.IGNORECASE,
)
_MAKE = re.compile(
    r"\(?\s*(?:make|work|crochet)\s+(?P<n>\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)\b[^)]*\)?|[×x]\s?(?P<x>\d{1,3})\s*\)?\s*:?$|\(\s*[×x]?(?P<y>\d{1,2})\s*[×x]?\s*\)\s*:?$",
    re.IGNORECASE,
)
_SETUP = re.compile(
    r"^\s*(?:[-*]\s+)?(?:(?:to\s+)?(?:begin|start)(?:ing)?\s*(?:with)?\s*[:,]?\s*)?(?:(?:foundation|base|beginning|starting|set-?up|beg)(?:\s+(?:ch|chain|ring|row))?\s*[:.—–-]\s*)?"
    r"(?:(?:with|using|in|holding|hold)\b(?:[^.;:]|\.(?=\d)){0,80}?[,:]?\s+)?(?:(?:(?:colou?r|yarn|shade|main colou?r)\s?\w{0,10}|[A-Z]|MC|CC\d?)\s*:\s*)?(?:loosely\s+)?"
    r"(?:ch(?:ain)?s?\s*(?:a\s+|loosely\s+|-\s?)?\d|ch(?:ain)?\s+a\s+multiple|commence\s+with\s+\d|make\s+\d[\d\s:(),\[\]–—-]*ch|make\s+(?:a\s+|an\s+)?(?:magic|adjustable|slip\s?knot|\d+\s*ch|chain|loop|foundation|sliding)|magic\s+(?:ring|circle|loop)|mr\b|\d+\s*ch\b|work\s+\d+\s*ch|"
    r"(?:fsc|fhdc|fdc|ftr)\s+\d|\d+\s+(?:fsc|fhdc|fdc|ftr)|chain\s+(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|twenty|thirty|forty)|(?:begin|start)\s+with\s+(?:a\s+)?(?:magic|ch)|form\s+a\s+ring|wind\s+yarn|wrap\s+yarn)",
    re.IGNORECASE,
)
_RERUN = re.compile(
    r"^\s*(?:[-*]\s+)?(?:(?:rep(?:eat)?|continue|cont|work)\b[^.:;]{0,40}?\b(?:rows?|rnds?|rounds?)\b|rep(?:eat)?\s+(?:the\s+)?(?:last|these)\b|work\s+even\b|work\s+\d[\d\s(),\[\]–—-]*\s*(?:rows?|rnds?|rounds?)\b|for\s+(?:the\s+)?(?:next\s+)?\d[\d\s(),\[\]–—-]*\s*(?:rows?|rnds?|rounds?)\b|next\s+\d+\s+(?:rows?|rnds?|rounds?))",
    re.IGNORECASE,
)
_STARTERS = re.compile(
    r"^\s*(?:fasten|finish|fo\b|end off|cut\b|break|stuff|weave|insert|block\b|sew|attach|place (?:the )?(?:safety|eyes)|put|note|optional|tip|close|pull|thread|leave|fold|flatten|turn (?:right|inside)|if\b|"
    r"do not fasten|don't fasten|make sure|repeat for|steam|wash|join (?:the )?(?:squares|pieces|motifs)|embroider|mark\b|lay\b|press|pin\b|add\b|remember|switch|change|for (?:the )?(?:first|second|other)|with (?:right|wrong|RS|WS)|holding)\b",
    re.IGNORECASE,
)
_CONTINUES = re.compile(r"^\s*(?:[(\[{]|[—–=]|-\s|\d+\s+(?:sts?|sc|dc|hdc|tr)\b)")
_STITCHY = re.compile(
    r"\b(?:\d+\s*(?:sc|dc|hdc|tr|htr|ch|sts?)|(?:sc|dc|hdc|tr|htr|ch)\s*\d|in (?:next|each)|sk\b|rep\b)\b",
    re.IGNORECASE,
)


def _heading(text: str, above_blank: bool, ended: bool) -> bool:
    """True when a line looks like the name of a part."""
    bare = _MAKE.sub("", text).strip(" :–—-.*_=~#")
    if not bare or len(bare) > 48 or len(bare.split()) > 7:
        return False
    if not re.match(r"[A-Za-z0-9]", text.strip(" *_#~=")):
        return False
    if text.rstrip().endswith((".", ",", ";")) or "*" in bare or _STITCHY.search(bare) and not bare.isupper():
        return False
    if re.search(r"\d\s*(?:cm|mm|in|\")|[=]", bare):
        return False
    if _STARTERS.match(bare) and not bare.isupper():
        return False
    letters = [letter for letter in bare if letter.isalpha()]
    upper = all(letter.isupper() for letter in letters) and len(letters) > 2
    words = [w for w in re.split(r"[\s/&-]+", re.sub(r"\([^)]*\)", "", bare)) if w]
    small = {"and", "of", "the", "for", "to", "with", "in", "a", "on", "or", "from"}
    titled = (
        bool(words)
        and words[0][:1].isupper()
        and (all(w[0].isupper() or w.lower() in small or w[0].isdigit() for w in words) or len(words) <= 3)
    )
    if upper:
        return True
    return titled and (above_blank or ended or text.rstrip().endswith(":") or _MAKE.search(text) is not None)


def lay_out(text: str) -> Page:
    """The blocks of a cleaned text."""
    lines: list[tuple[int, int]] = []
    at = 0
    cut = False
    while at <= len(text):
        end = text.find("\n", at)
        end = len(text) if end < 0 else end
        line = text[at:end]
        starts = starts_in(line) if len(line) > 20 else []
        last = at
        for more in starts:
            lines.append((last, at + more))
            last = at + more
        lines.append((last, end))
        at = end + 1
        if len(lines) > MAX_LINES:
            cut = True
            break
    sizes = size_names(text)
    numbered = sum(1 for a, b in lines if b - a < 2000 and label_at(text[a:b]) is not None)
    bare = sum(1 for a, b in lines if b - a < 2000 and label_at(text[a:b], bare=True) is not None)
    allow_bare = bare >= 3 and (numbered == 0 or bare - numbered >= 3)
    blocks: list[Block] = []
    parts: list[tuple[str, int]] = []
    title = ""
    copies = 1
    part: str | None = None
    section = ""
    only: tuple[str, ...] = ()
    blank = True
    block: Block | None = None
    seen_row = False
    k = -1
    queue = list(lines)
    while k + 1 < len(queue):
        k += 1
        start, end = queue[k]
        raw = text[start:end]
        line = raw.strip()
        if not line or not any(ch.isalnum() or ch in "*([" for ch in line):
            if not line or set(line) <= set("-=_*~#. "):
                blank = True
                continue
        short_round = True
        label = label_at(raw, short_round, allow_bare) if section != "define-list" else None
        if label is not None and not title and not seen_row and label.numbers == () and blank and k == 0:
            label = None
        if label is not None:
            own = "edging" if False else label.kind
            del own
            block = Block("row", start + label.start, end, label, start + label.end, part, only)
            blocks.append(block)
            seen_row, blank, section = True, False, ""
            if not title:
                title = ""
            continue
        condition = condition_at(raw, sizes)
        if condition is not None and (condition[0] == () and "all" in raw.lower() or condition[0]):
            only, length = condition
            block = None
            if raw[length:].strip():
                queue.insert(k + 1, (start + length, end))
            blank = True
            continue
        if not title and not seen_row and not _SETUP.match(raw) and not blocks:
            title = " ".join(line.strip("*_#~= ").split())[:200]
            made = _MAKE.search(title)
            if made and "make" in made.group().lower():
                copies = _many(made)
            blocks.append(Block("title", start, end))
            block, blank = None, False
            continue
        ended = (
            block is None
            or block.job not in ("row", "setup", "rerun")
            or text[block.start : block.end].rstrip()[-1:] in (".", ")", "]", "}", ":", "!", "?")
        )
        setup = _SETUP.match(raw) is not None and section != "note-list"
        if _NOTES.match(line):
            section, block, blank = "note", None, True
            if (
                "abbrev" in line.lower()
                or "stitch" in line.lower()
                or "special" in line.lower()
                or "key" in line.lower()
            ):
                section = "define"
            continue
        if _WORKING.match(line):
            section, block, blank = "", None, True
            continue
        if _FINISHING.match(line):
            section, block, part, blank, only = "finishing", None, "Finishing", True, ()
            continue
        if (
            not setup
            and _heading(line, blank, ended)
            and not _RERUN.match(raw)
            and not (section in ("define",) and head_of(raw))
        ):
            follows = next(
                (
                    queue[j]
                    for j in range(k + 1, min(len(queue), k + 6))
                    if text[queue[j][0] : queue[j][1]].strip()
                ),
                None,
            )
            inline = head_of(raw)
            if follows is not None and (inline is None):
                name = _MAKE.sub("", line).strip(" :–—-.*_=~#(").strip()
                made = _MAKE.search(line)
                part = _titled(name) if name else part
                parts.append((part or "", _many(made) if made else 1))
                section, block, blank, only = "", None, True, ()
                continue
        defining = (
            head_of(raw)
            if (
                not seen_row
                or section == "define"
                or blank
                or block is None
                or block.job in ("define", "note", "aside", "title")
                or ended
            )
            else None
        )
        if defining is not None and not setup and (section == "define" or _defines(raw)):
            pieces = [
                hit.start()
                for hit in re.finditer(
                    r"(?<=\S)\s{2,}(?=[A-Za-z][\w ]{0,20}\s*=\s*\S)|(?<=\.)\s+(?=[A-Z][\w -]{0,20}\s*(?:\([^)]{1,14}\)\s*)?[:=]\s)",
                    raw,
                )
            ]
            if pieces:
                queue[k] = (start, start + pieces[0])
                queue.insert(k + 1, (start + pieces[0], end))
                end = start + pieces[0]
            block = Block("define", start, end, part=part)
            blocks.append(block)
            blank = False
            continue
        if (
            setup
            and section not in ("finishing",)
            and not (block is not None and block.job in ("row", "define") and not blank and not ended)
        ):
            block = Block("setup", start, end, part=part, sizes=only)
            blocks.append(block)
            blank, section = False, ""
            continue
        if (
            _RERUN.match(raw)
            and seen_row
            and (
                ended
                or blank
                or line[:1].isupper()
                and text[block.start : block.end].rstrip()[-1:] not in (",", ";", "*", "(")
                if block
                else True
            )
        ):
            block = Block("rerun", start, end, None, start, part, only)
            blocks.append(block)
            blank = False
            continue
        if block is not None and not blank:
            if (
                block.job in ("row", "setup", "rerun")
                and _STARTERS.match(raw)
                and ended
                and not re.match(
                    r"\s*(?:fasten off|fo\b|finish off|do not|don't|end off)", raw, re.IGNORECASE
                )
            ):
                block = Block("aside", start, end, part=part, sizes=only)
                blocks.append(block)
                continue
            block.end = end
            continue
        if (
            block is not None
            and block.job in ("row", "rerun")
            and line[:1].islower()
            and text[block.start : block.end].rstrip()[-1:] not in (".", ")", "]", "}", ":")
        ):
            block.end = end
            blank = False
            continue
        if block is not None and block.job in ("row", "rerun") and _CONTINUES.match(raw) and len(line) < 90:
            block.end = end
            blank = False
            continue
        job = "note" if not seen_row or section == "note" else "aside"
        block = Block(job, start, end, part=part, sizes=only)
        blocks.append(block)
        blank = False
    return Page(blocks, title, parts, sizes, copies, cut)


def _defines(line: str) -> bool:
    """True when the body of a line that looks like a definition speaks of stitches."""
    hit = head_of(line)
    if hit is None:
        return False
    body = hit["body"]
    if len(hit["name"].split()) > 4 and hit["mark"].strip() not in ("=", ":"):
        return False
    return bool(
        re.search(
            r"\b(?:\d+\s*\w*(?:sc|dc|tr|htr|hdc)\b|yo\b|yrh|yoh|insert hook|(?:single|double) crochets?\b|half (?:double|treble)|treble|(?:sc|dc|tr|hdc|htr|ch|sl st|ss)\b.*\b(?:in|into|ch|tog|same)\b|(?:sc|dc|hdc|tr)\d?tog|decrease|increase|ch \d|\d ch\b|yarn over)",
            body,
            re.IGNORECASE,
        )
    )


def _many(hit: re.Match[str]) -> int:
    word = hit["n"] or hit["x"] or hit["y"] or "1"
    return max(1, min(number_of(word) or 1, 9999))


def _titled(name: str) -> str:
    return name.capitalize() if name.isupper() else name
