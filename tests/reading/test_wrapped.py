"""However narrow the page, a row is the same row: lines broken anywhere, pages of blogs and of old sites."""

import textwrap
from html import escape

import pytest
from corpus_cases import RIGHT, cases

from tracker.files.webpage import lines_of_page
from tracker.load import load
from tracker.notation.pattern import Row

NAMES = (
    "popcorn_hexagon_whole frilly_tree_ornament frosted_star_motif pineapple_bookmark attic_granny_two_round "
    "popcorn_block half_granny_kerchief uk_hexagon_blanket_motif side_band_on_dc_rows rose_window_square "
    "short_row_wedge_potholder ripple_dc filet_diamond_mat ten_row_gift_tag onechain_doily "
    "shepherds_fingerless_mitts_uk twin_twist_panel aran_ridge_ear_warmer fern_leg_warmers caravan_flower_hexagon "
    "crossed_boot_cuffs overlay_lattice_pot_mat sprout_cardigan_yoke almanac_solid_square uk_granny granny_square post_rib_cuff"
).split()
TEXTS = {case.name: case.text for folder in RIGHT for case in cases(folder) if case.name in NAMES}


def rows(text: str) -> list[tuple[str, dict[str, int], bool]]:
    """Every row with what it makes, and whether it is understood."""
    return [
        (placed.label, placed.worked.makes, placed.worked.understood)
        for _, placed in load("a", text).fabric.rows()
    ]


def paragraphs(text: str) -> list[str]:
    """The lines of a pattern, those of one row in one."""
    loaded = load("a", text)
    spans = [(block.span.start, block.span.end) for block in loaded.pattern.blocks if isinstance(block, Row)]
    out: list[str] = []
    at = 0
    for line in loaded.source.text.split("\n"):
        if out and line.strip() and any(start < at < end for start, end in spans):
            out[-1] = f"{out[-1].rstrip()} {line.strip()}"
        else:
            out.append(line.strip())
        at += len(line) + 1
    return out


@pytest.mark.parametrize("name", NAMES)
def test_a_row_may_be_broken_at_any_place(name: str) -> None:
    """A line that begins with "in each", with the row that is named or with the rest of a bracket begins nothing."""
    lines = paragraphs(TEXTS[name])
    wanted = rows(TEXTS[name])
    for width in (38, 47, 58, 72):
        broken = [
            part for line in lines for part in textwrap.wrap(line, width, break_on_hyphens=False) or [""]
        ]
        assert rows("\n".join(broken)) == wanted, width


BLOG = """<!DOCTYPE html><html><head><title>{title}</title><script>var row = "Row 1: sc";</script></head><body>
<header class="site-header"><nav><ul><li>Home</li><li>Patterns</li></ul></nav></header><main><article>
<h1>{title}</h1><div class="entry-meta">Posted on <time>March 3</time> &bull; 14 comments</div>
<div class="adthrive-ad">Advertisement</div>{body}
<figure><figcaption>The first rows</figcaption></figure><div class="sharedaddy"><ul><li>Pin</li></ul></div></article>
<section id="comments" class="comments-area"><ol><li class="comment"><p>Row 3: should it be 99 sts?</p></li></ol></section>
</main><aside class="widget-area"><ul><li>Rows 1-10: a cowl</li></ul></aside><footer>All mine</footer></body></html>"""
OLD = """<HTML><BODY BGCOLOR=#ffeeff><TABLE WIDTH=100% BORDER=0><TR><TD WIDTH=120 VALIGN=top><A HREF=a>Home page</A><BR>
<A HREF=b>Afghans and more</A><BR><A HREF=c>Doilies</A><TD><CENTER><B>{title}</B></CENTER>{body}<HR>
<FONT SIZE=-2>You are visitor 10422.</FONT></TD></TR></TABLE></BODY></HTML>"""


@pytest.mark.parametrize(
    "name", [name for name in NAMES if name not in ("pineapple_bookmark", "fern_leg_warmers")]
)
def test_a_pattern_is_found_on_a_page_of_a_blog_and_of_an_old_site(name: str) -> None:
    """Among menus, advertisements and comments; in the cells of a table that lays out the page."""
    title, *lines = paragraphs(TEXTS[name])
    wanted = rows("\n".join((title, *lines)))
    paragraph = "".join(f"<p>{escape(line)}</p>" for line in lines if line)
    left_open = "".join(f"<P>{escape(line)}" if line else "<P>" for line in lines)
    listed = f"<ul>{''.join(f'<li><span>{escape(line)}</span></li>' for line in lines if line)}</ul>"
    for page, body in ((BLOG, paragraph), (BLOG, listed), (OLD, left_open), (OLD, paragraph)):
        assert rows(lines_of_page(page.format(title=escape(title), body=body))) == wanted, body[:40]


def test_a_table_within_the_table_that_lays_out_the_page_keeps_its_rows() -> None:
    """What stands before it and behind it, too; a menu of links is left out."""
    inner = "<table><tr><th>Row</th><th>Work</th><th>Sts</th></tr><tr><td>1</td><td>Sc in each ch</td><td>9 sc</td></tr></table>"
    page = (
        "<table><tr><td><a>First link here</a><br><a>Second link here</a></td>"
        f"<td>Ch 10.<br>Loosely.<br>With A.{inner}Fasten off.<br>Weave in ends.</td></tr></table>"
    )
    assert [line for line in lines_of_page(page).split("\n") if line] == [
        "Ch 10.",
        "Loosely.",
        "With A.",
        "Row 1: Sc in each ch (9 sc)",
        "Fasten off.",
        "Weave in ends.",
    ]
