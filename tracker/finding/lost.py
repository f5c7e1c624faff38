"""The answer to a maker who is lost: where they may be, the one question to ask, and what fits nowhere.

A fabric and Evidence come in; Found comes out: every place that fits and no other, the question that tells the rest of
them apart best, and, when none fits, where the work first departs from the pattern.
"""

from tracker.fabric.model import Fabric
from tracker.finding.evidence import Evidence
from tracker.finding.where.departure import Differs, departure
from tracker.finding.where.index import Index, index_of
from tracker.finding.where.places import Known, Places
from tracker.finding.where.questions import Question, best_question
from tracker.finding.where.spots import spots_of
from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Found:
    """Where a lost maker may be."""

    places: Places
    """Every place that fits, likeliest first."""
    ask: Question | None
    """What tells them apart best; None when there is one place, none, or nothing to tell them apart by."""
    differs: Differs | None
    """When there is no place: where the work departs from the pattern."""

    def shown(self) -> dict[str, object]:
        """As JSON has it."""
        return {
            "places": [place.shown() for place in self.places],
            "ask": self.ask.words if self.ask else None,
            "differs": self.differs.shown() if self.differs else None,
        }


def find(
    piece: Fabric | Index, evidence: Evidence, uk: bool = False, known_place: Known | None = None
) -> Found:
    """Every place of a piece at which the evidence holds; keep the Index of a piece to be answered at once."""
    index = piece if isinstance(piece, Index) else index_of(piece)
    places = Places(index, spots_of(index, evidence), uk, known_place)
    if len(places):
        return Found(places, best_question(index, places, uk), None)
    return Found(places, None, departure(index, evidence, uk) if index.looks else None)
