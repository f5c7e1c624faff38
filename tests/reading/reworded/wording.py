"""What a rewording is: the words of one designer, and what another writes for the same."""

import re
from collections.abc import Callable
from dataclasses import dataclass

Put = str | Callable[[re.Match[str]], str]


@dataclass(frozen=True, slots=True)
class Rewording:
    """Words of one designer, and what another writes for them."""

    name: str
    words: str
    """A regular expression over the whole text."""
    put: Put
    """What stands there instead, as `re.sub` takes it."""
    but_not: str = ""
    """Names of patterns in which the other words would say something else."""

    where: str = ""
    """A regular expression that the text must hold: "1 htr" is said where the terms are UK."""

    def of(self, text: str) -> str:
        """The text in the other words; the same text where there is nothing to reword."""
        if self.where and not re.search(self.where, text):
            return text
        return re.sub(self.words, self.put, text)


def ways(what: str, words: str, *puts: str, but_not: str = "") -> tuple[Rewording, ...]:
    """The same words put in several others, each called by what it is about and by its own."""
    return tuple(Rewording(f"{what}: {put}", words, put, but_not) for put in puts)


def filled(
    what: str,
    words: str,
    fields: Callable[[re.Match[str]], dict[str, object] | None],
    *forms: str,
    but_not: str = "",
) -> tuple[Rewording, ...]:
    """The same words put in several forms, "{b} {n} times", filled with what is found; None of `fields` leaves them."""

    def put(form: str) -> Callable[[re.Match[str]], str]:
        def filled_in(match: re.Match[str]) -> str:
            found = fields(match)
            return match[0] if found is None else form.format(**found)

        return filled_in

    return tuple(Rewording(f"{what}: {form}", words, put(form), but_not) for form in forms)


IN_WORDS = tuple("zero one two three four five six seven eight nine ten eleven twelve".split())


def in_words(number: int) -> str:
    """A small number in words, a greater one in figures."""
    return IN_WORDS[number] if number < len(IN_WORDS) else str(number)


def ordinal(number: int) -> str:
    """ "1st", "12th", "22nd"."""
    end = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th") if number % 100 // 10 != 1 else "th"
    return f"{number}{end}"


BEGINS = r"(?:(?<=[,;.:*(\[] )|(?<=[*(\[]))"
"""Behind it a phrase begins."""
US = r"\b[hs]c\b|\b[hs]dc\b|\bsc2tog\b"
"""Words that only US terms have."""
UK = r"\bUK\b|\bhtr\b|\b[Mm]iss\b"
"""Words that only UK terms have."""
