"""Choosing one of the pieces in hand: a list that is stepped through with next and back and taken from with yes.

A deed and the choice so far come in; the choice after it, a sentence, and the piece that was taken go out. A deed that
is none of a list's takes the piece that was offered, and is then to be done in it: who says "next" twice is only
looking, who asks "where am I" has found it.
"""

from tracker.records import dataclass, replace
from tracker.session import deeds
from tracker.session.deeds import Deed
from tracker.trade.numbers import spoken_number

HOW = "Yes, or the pedal held, takes it; next offers the one after; or say its number."


@dataclass(frozen=True, slots=True)
class Choice:
    """A list, and which of it is offered."""

    offers: tuple[str, ...]
    """What each is called and where it stands, as it is said."""
    at: int = 0


@dataclass(frozen=True, slots=True)
class Chose:
    """What came of a deed."""

    choice: Choice
    said: str = ""
    taken: int | None = None
    """Index of the one that was taken."""
    left: bool = False
    """True when the maker wants none."""
    undone: bool = False
    """True when the deed is still to be done, in the piece that was taken."""


def offered(choice: Choice) -> str:
    """The question: "Harbour windows, row nine? Yes takes it; …" """
    return f"{choice.offers[choice.at]}? {HOW if choice.at == 0 else ''}".strip()


def chose(choice: Choice, deed: Deed) -> Chose:
    """What a deed does to a choice."""
    match deed:
        case deeds.Onward() | deeds.No() | deeds.Back():
            step = -1 if isinstance(deed, deeds.Back) else 1
            moved = replace(choice, at=(choice.at + step) % len(choice.offers))
            return Chose(moved, f"{moved.offers[moved.at]}?")
        case deeds.Yes():
            return Chose(choice, taken=choice.at)
        case deeds.Number(number=number) | deeds.GoToCopy(number=number):
            if 1 <= number <= len(choice.offers):
                return Chose(replace(choice, at=number - 1), taken=number - 1)
            return Chose(choice, f"There are {spoken_number(len(choice.offers))}.")
        case deeds.Again() | deeds.Help():
            return Chose(choice, f"{choice.offers[choice.at]}? {HOW}")
        case deeds.Stop():
            return Chose(choice, "Nothing was opened.", left=True)
        case deeds.Pause() | deeds.Listen() | deeds.SpeakSo() | deeds.SetLength():
            return Chose(choice, f"{choice.offers[choice.at]}?")
        case _:
            return Chose(choice, taken=choice.at, undone=True)


def named(choice: Choice, words: str) -> int | None:
    """The one whose name begins so, typed; None when none or several do."""
    plain = words.casefold().strip()
    fits = [at for at, offer in enumerate(choice.offers) if plain and offer.casefold().startswith(plain)]
    return fits[0] if len(fits) == 1 else None
