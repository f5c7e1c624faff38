"""The page itself: one document with its style and its script in it, so that a browser asks once.

Comes in: a nonce, and whether the page may move the work. Goes out: HTML. Nothing of a pattern is in it; all
of that comes with each step, and is set as text. Its looks are the screen's own themes.
"""

from functools import cache
from pathlib import Path

from tracker.looks.themes import THEMES, Theme

_HERE = Path(__file__).resolve().parent
_FIRST = {"light": "light", "more": "black and white"}
"""What a tablet asks for (prefers-color-scheme, prefers-contrast), and our theme for it."""


def page(nonce: str, touch: bool, silence_ms: int = 12_000) -> str:
    """The document. After so many milliseconds of silence it holds itself out of touch, and asks anew."""
    document, style, script = _parts()
    keys = "" if touch else " hidden"
    return (
        document.replace("{nonce}", nonce)
        .replace("{keys}", keys)
        .replace("{silence}", str(silence_ms))
        .replace("{style}", style)
        .replace("{script}", script)
    )


@cache
def _parts() -> tuple[str, str, str]:
    document, style, script = (
        (_HERE / f"follow.{kind}").read_text(encoding="utf-8") for kind in ("html", "css", "js")
    )
    return document, looks() + style, script


def looks() -> str:
    """The themes as a stylesheet has them: each by its name, and the one a tablet asks for until one is chosen."""
    named = [theme for theme in THEMES if theme.ground]
    out = [f":root {{ {_colours(named[0])} }}"]
    by_name = {theme.name: theme for theme in named}
    out.append(f"@media (prefers-color-scheme: light) {{ :root {{ {_colours(by_name[_FIRST['light']])} }} }}")
    out.append(f"@media (prefers-contrast: more) {{ :root {{ {_colours(by_name[_FIRST['more']])} }} }}")
    out += [f':root[data-look="{theme.name}"] {{ {_colours(theme)} }}' for theme in named]
    return "\n".join(out) + "\n"


def _colours(theme: Theme) -> str:
    names = ("ground", "ink", "faint", "lead", "work", "alert", "bar")
    return " ".join(f"--{name}: {getattr(theme, name)};" for name in names)
