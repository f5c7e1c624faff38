"""A sheet as plain lines: for a terminal, a braille display, a message. A Leaf comes in, text goes out."""

from tracker.paper.leaf import Chapter, Entry, Leaf


def lines(leaf: Leaf) -> str:
    """The whole sheet; `[ ]` is a box to tick."""
    out = [leaf.title, *leaf.about]
    for heading, said in (("Cautions", leaf.cautions), *leaf.before):
        if said:
            out += ["", heading.upper(), *said]
    chapters = [*leaf.chapters]
    if leaf.after:
        chapters.append(Chapter("When the rows are done", leaf.after))
    for chapter in chapters:
        out += ["", chapter.heading.upper()]
        for entry in chapter.entries:
            out += _entry(entry)
    if leaf.layout:
        out += ["", "HOW THEY LIE", *leaf.layout]
    if leaf.measured:
        out += [
            "",
            "BLOCKED SIZES",
            *(f"{name}: {leaf.size_of(nth) or '____ x ____'}" for nth, name in enumerate(leaf.measured)),
        ]
    return "\n".join(out) + "\n"


def _entry(entry: Entry) -> list[str]:
    boxes = "[ ] " * entry.boxes
    head = ", ".join(word for word in (entry.label, entry.side) if word)
    count = f" ({entry.count})" if entry.count else ""
    if len(entry.words) == 1:
        first = f"{boxes}{head}{': ' if head else ''}{entry.words[0]}{count}"
        return [first, *(f"    {cue}" for cue in entry.cues)]
    body = [f"    {words}" for words in (*entry.words, *([f"Count: {entry.count}."] if entry.count else []))]
    return [f"{boxes}{head}".rstrip(), *body, *(f"    {cue}" for cue in entry.cues)]
