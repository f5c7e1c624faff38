"""How each role is drawn in a theme.

A role has the same attributes in every theme (what is in hand is reversed, what is marked is reversed, keys
are bold), so that nothing is told by colour alone. A test measures the contrast of each pair of colours.
"""

from collections.abc import Mapping

from rich.style import Style

from tracker.looks.themes import TERMINAL, THEMES, Theme, after, in_sixteen, theme_named

__all__ = ["TERMINAL", "THEMES", "Theme", "after", "styles", "theme_named"]


def styles(theme: Theme, *, few: bool = False) -> Mapping[str, Style]:
    """The style of each role; `few`: for a terminal with sixteen colours."""
    theme = in_sixteen(theme) if few else theme
    ink, faint, lead, work, alert = theme.ink, theme.faint, theme.lead, theme.work, theme.alert

    def style(
        colour: str, *, bar: bool = False, bold: bool = False, dim: bool = False, reverse: bool = False
    ) -> Style:
        ground = theme.bar if bar else theme.ground
        return Style(color=colour or None, bgcolor=ground or None, bold=bold, dim=dim, reverse=reverse)

    return {
        "ground": style(ink),
        "head": style(ink, bar=True),
        "title": style(ink, bar=True, bold=True),
        "side": style(faint, bar=True),
        "row": style(lead, bar=True, bold=True),
        "repeats": style(ink, bar=True),
        "resting": style(alert, bar=True, bold=True),
        # Black on white in every theme with colours, as a camera wants it; else as the terminal has it.
        "code": Style(color="#ffffff", bgcolor="#000000") if theme.ground else style(""),
        "rule": style(faint, dim=not theme.ground),
        "big": style(lead, bold=True),
        "said": style(ink),
        "ask": style(lead, bold=True, reverse=True),
        "then": style(faint),
        "beat": style(lead, bold=True),
        "hand": style(ink, bold=True),
        "under": style(faint),
        "edge": style(work, bold=True),
        "done": style(work),
        "now": style(lead, bold=True),
        "stitch now": style(lead, bold=True, reverse=True),
        "coming": style(faint, dim=not theme.ground),
        "fill done": style(work),
        "fill now": style(lead, bold=True),
        "fill coming": style(faint, dim=not theme.ground),
        "text": style(faint),
        "mark": style(lead, reverse=True, bold=True),
        "foot": style(faint, bar=True),
        "key": style(ink, bar=True, bold=True),
        "warn": style(alert, bar=True, bold=True),
    }
