"""Choosing one of the pieces in hand, or of a pattern's sizes, stepped through with next and back, taken with yes.

A deed and the choice so far come in; the choice after it, a sentence, and the piece that was taken go out. A deed that
is none of a list's takes the piece that was offered, and is then to be done in it: who says "next" twice is only
looking, who asks "where am I" has found it. A question that names what it asks for, "Which size?", it does not answer.
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
    asking: str = ""
    """What is asked before the first of them."""


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
    offer = choice.offers[choice.at].replace(" Rnd ", " round ")  # it is heard as well as read
    return f"{choice.asking} {offer}? {HOW if choice.at == 0 else ''}".strip()


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
            # of sizes 34, 36 and 38 "thirty-six" is one by its name
            at = choice.offers.index(str(number)) if str(number) in choice.offers else number - 1
            if 0 <= at < len(choice.offers):
                return Chose(replace(choice, at=at), taken=at)
            return Chose(choice, f"There are {spoken_number(len(choice.offers))}.")
        case deeds.Again() | deeds.Help():
            return Chose(choice, f"{choice.offers[choice.at]}? {HOW}")
        case deeds.Stop():
            return Chose(choice, "Nothing was opened.", left=True)
        case deeds.Pause() | deeds.Listen() | deeds.SpeakSo() | deeds.SetLength():
            return Chose(choice, f"{choice.offers[choice.at]}?")
        case _ if choice.asking:
            return Chose(choice, f"{choice.offers[choice.at]}? {HOW}")  # afterwards the stitches are made
        case _:
            return Chose(choice, taken=choice.at, undone=True)


def named(choice: Choice, words: str) -> int | None:
    """The one that is called so, or whose name begins so, typed; None when none or several do."""
    plain, offers = words.casefold().strip(), [offer.casefold() for offer in choice.offers]
    for fits in (
        [at for at, offer in enumerate(offers) if offer == plain],
        [at for at, offer in enumerate(offers) if plain and offer.startswith(plain)],
    ):
        if len(fits) == 1:
            return fits[0]
    return None
