"""A sheet as a web page that stands alone: a screen reader walks it by headings, one for each row, and by its lists.

A Leaf comes in, HTML goes out: no script, nothing fetched. In large print the same page, 24 points, one column.
"""

from html import escape

from tracker.paper.leaf import Chapter, Entry, Leaf

_STYLE = """
body { font: 12pt/1.5 Verdana, "DejaVu Sans", Arial, sans-serif; color: #000; background: #fff;
       max-width: 46em; margin: 0 auto; padding: 1.5em; text-align: left; }
h1 { font-size: 1.8em; } h2 { font-size: 1.4em; border-bottom: 2px solid #000; } h3 { font-size: 1em; margin: 1em 0 0; }
p, ul { margin: .2em 0; } .count { font-weight: bold; } ol.rows { list-style: none; padding: 0; }
ol.rows > li { border-bottom: 1px solid #999; padding-bottom: .6em; } li { break-inside: avoid; }
input { width: 1.2em; height: 1.2em; vertical-align: middle; margin-right: .4em; }
.done label { margin-right: 1em; white-space: nowrap; }
table { border-collapse: collapse; } td, th { border: 1px solid #000; padding: .2em .6em; text-align: left; }
svg { max-width: 100%; height: auto; }
@page { margin: 1in; } @media print { body { padding: 0; max-width: none; } }
"""
_LARGE = """
body { font-size: 24pt; max-width: none; } h1, h2, h3 { font-size: 28pt; } h3 { font-size: 24pt; }
"""


def webpage(leaf: Leaf, chart: str = "", large: bool = False) -> bytes:
    """The page; `chart` is an SVG to put in, with its own words for those who cannot see it, or nothing."""
    out = [
        "<!DOCTYPE html>",
        f'<html lang="en"><head><meta charset="utf-8"><title>{escape(leaf.title)}</title>',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<style>{_STYLE}{_LARGE if large else ''}</style></head><body><main>",
        f"<h1>{escape(leaf.title)}</h1>",
        *(f"<p>{escape(line)}</p>" for line in leaf.about),
        *_list("Cautions", leaf.cautions),
    ]
    for heading, lines in leaf.before:
        out += _list(heading, lines)
    for nth, chapter in enumerate(leaf.chapters):
        out += _chapter(chapter, nth)
    if leaf.after:
        out += _chapter(Chapter("When the rows are done", leaf.after), len(leaf.chapters))
    out += _list("How they lie", leaf.layout)
    if leaf.measured:
        out += _measured(leaf)
    if not large:
        out += _counts(leaf)
    if chart and not large:
        out += [
            "<h2>Chart</h2>",
            "<p>The rows above say all that the chart shows.</p>",
            f"<figure>{chart}</figure>",
        ]
    return "\n".join([*out, "</main></body></html>", ""]).encode()


def _list(heading: str, lines: tuple[str, ...]) -> list[str]:
    if not lines:
        return []
    return [f"<h2>{escape(heading)}</h2>", "<ul>", *(f"<li>{escape(line)}</li>" for line in lines), "</ul>"]


def _chapter(chapter: Chapter, at: int) -> list[str]:
    out = [f"<h2>{escape(chapter.heading)}</h2>", '<ol class="rows" role="list">']
    for nth, entry in enumerate(chapter.entries):
        out += ["<li>", *_entry(entry, f"c{at}-{nth}"), "</li>"]
    return [*out, "</ol>"]


def _entry(entry: Entry, name: str) -> list[str]:
    head = ", ".join(word for word in (entry.label, entry.side) if word)
    out = [f"<h3>{escape(head)}</h3>"] if head else []
    if not head and entry.boxes == 1 and entry.words:
        # what has no heading is itself the name of its box, so that it is not read out twice
        first, *words = entry.words
        out.append(f'<p><label><input type="checkbox" id="{name}-1">{escape(first)}</label></p>')
    else:
        words = list(entry.words)
    out += [f"<p>{escape(line)}</p>" for line in words]
    if entry.count:
        out.append(f'<p class="count">Count: {escape(entry.count)}.</p>')
    if entry.cues:
        out += ["<ul>", *(f"<li>{escape(cue)}</li>" for cue in entry.cues), "</ul>"]
    if head or entry.boxes > 1:
        boxes = (
            f'<label><input type="checkbox" id="{name}-{nth}">{escape(_done(entry, nth))}</label>'
            for nth in range(1, entry.boxes + 1)
        )
        out.append(f'<p class="done">{" ".join(boxes)}</p>')
    return out


def _done(entry: Entry, nth: int) -> str:
    """What a box is for: "Rnd 1 done"; of several copies "Rnd 1 done, copy 2"."""
    what = entry.label or "Done"
    done = f"{what} done" if entry.label else what
    return done + (f", copy {nth}" if entry.boxes > 1 else "")


def _measured(leaf: Leaf) -> list[str]:
    rows = [
        f'<tr><th scope="row">{escape(name)}</th>'
        + (
            f'<td colspan="2">{escape(size)}</td></tr>'
            if (size := leaf.size_of(nth))
            else "<td></td><td></td></tr>"
        )
        for nth, name in enumerate(leaf.measured)
    ]
    return [
        "<h2>Blocked sizes</h2>",
        "<table><caption>Write down what each measures when it is blocked and dry</caption>",
        '<thead><tr><th scope="col">Which</th><th scope="col">Across</th><th scope="col">Down</th></tr></thead>',
        f"<tbody>{''.join(rows)}</tbody></table>",
    ]


def _counts(leaf: Leaf) -> list[str]:
    rows = [
        f'<tr><th scope="row">{escape(entry.label)}</th>'
        f"<td>{escape(entry.side)}</td><td>{escape(entry.count)}</td></tr>"
        for chapter in leaf.chapters
        for entry in chapter.entries
        if entry.label
    ]
    return [
        "<h2>All counts</h2>",
        "<table><caption>What stands on each row when it is done</caption>",
        '<thead><tr><th scope="col">Row</th><th scope="col">Side</th><th scope="col">Count</th></tr></thead>',
        f"<tbody>{''.join(rows)}</tbody></table>",
    ]
