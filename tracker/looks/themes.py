"""THE TABLE of themes: colours of our own, dark, light and black and white, and one that leaves colours to
the terminal.

Nothing comes in; values go out, for the screen and for the page alike. A test measures the contrast of each
pair of colours that lie on each other.
"""

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Theme:
    """Colours as "#rrggbb"; empty means the terminal's own ground or ink."""

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


_SIXTEEN = {
    "dark": Theme("dark", "#000000", "#ffffff", "#ffffff", "#ffff55", "#ffffff", "#ffff55", "#000000"),
    "light": Theme("light", "#ffffff", "#000000", "#000000", "#000000", "#000000", "#000000", "#ffffff"),
}
"""What is left of a theme on a terminal with sixteen colours, where ours would fall together or lose their contrast."""


def in_sixteen(theme: Theme) -> Theme:
    """The theme for a terminal with sixteen colours."""
    return _SIXTEEN.get(theme.name, theme)


def theme_named(name: str) -> Theme:
    """A theme by its name; the usual one for a name that is none."""
    return next((theme for theme in THEMES if theme.name == name), THEMES[0])


def after(theme: Theme) -> Theme:
    """The next one round."""
    return THEMES[(THEMES.index(theme) + 1) % len(THEMES)]
