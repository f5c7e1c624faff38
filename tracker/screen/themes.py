"""How each role is drawn: themes of our own, dark, light and black and white, and one that leaves colours
to the terminal.

A role has the same attributes in every theme (what is in hand is reversed, what is marked is reversed, keys
are bold), so that nothing is told by colour alone. A test measures the contrast of each pair of colours.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from rich.style import Style


@dataclass(frozen=True, slots=True)
class Theme:
    """Colours as "#rrggbb", or names of the terminal's own; empty means the terminal's own ground or ink."""

    name: str
    ground: str
    ink: str
    faint: str
    """What is to come, and what is said beside the work."""
    lead: str
    """What is in hand."""
    work: str
    """What is done."""
    alert: str
    bar: str
    """Ground of the first lines and the last."""


THEMES = (
    Theme("dark", "#14110e", "#f4ecdd", "#b9ad96", "#ffc861", "#d8c49a", "#ffb3a1", "#221d17"),
    Theme("light", "#fdf9f0", "#1c1814", "#4a4238", "#6b2b00", "#2f3f2a", "#8a0f0f", "#efe8d8"),
    Theme("black and white", "#000000", "#ffffff", "#ffffff", "#ffffff", "#ffffff", "#ffffff", "#000000"),
    Theme("terminal", "", "", "", "", "", "", ""),
)
"""The first is the usual one; the last leaves every colour to the terminal, and is used under NO_COLOR."""
TERMINAL = THEMES[-1]


def theme_named(name: str) -> Theme:
    """A theme by its name; the usual one for a name that is none."""
    return next((theme for theme in THEMES if theme.name == name), THEMES[0])


def after(theme: Theme) -> Theme:
    """The next one round."""
    return THEMES[(THEMES.index(theme) + 1) % len(THEMES)]


def styles(theme: Theme) -> Mapping[str, Style]:
    """The style of each role."""
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
