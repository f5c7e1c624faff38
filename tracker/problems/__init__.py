"""What is wrong with a text, as values: where it is, how grave, what it says, what would mend it."""

from tracker.problems.codes import CODES, Code
from tracker.problems.problem import Fix, Label, Problem, Severity
from tracker.problems.source import Source, Span

__all__ = ["CODES", "Code", "Fix", "Label", "Problem", "Severity", "Source", "Span"]
