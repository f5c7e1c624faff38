"""What comes of a deed, as values: what is to be kept, said, shown and settled. Who called `apply` carries it out."""

from collections.abc import Mapping

from tracker.records import dataclass, field


@dataclass(frozen=True, slots=True)
class Keep:
    """To be committed to the journal before anything is shown."""

    deed: str
    """The frozen name."""
    arguments: Mapping[str, int | str | list[int]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Say:
    """A sentence for the eye and the ear."""

    text: str
    aloud: str | None = None
    """What is said aloud where that is less: "" for nothing but a tone. None: the whole text."""

    @property
    def spoken(self) -> str:
        """What is said aloud."""
        return self.text if self.aloud is None else self.aloud


@dataclass(frozen=True, slots=True)
class Show:
    """Lines for the eye alone."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """The maker puts the work down."""


@dataclass(frozen=True, slots=True)
class Settle:
    """To be kept with the maker's settings, and to hold at once."""

    what: str
    """"length", or a manner of speaking."""
    to: str = ""


Effect = Keep | Say | Show | Rest | Settle


def with_more(told: list[Effect], words: str) -> list[Effect]:
    """What is said, with words behind it in the same breath."""
    last = told[-1] if told else None
    if not words:
        return told
    if not isinstance(last, Say):
        return [*told, Say(words)]
    return [*told[:-1], Say(f"{last.text} {words}", f"{last.spoken} {words}".strip())]
