"""Three renderings of one problem: with the words underlined, as a spoken sentence, as JSON.

None of them prints; the front ends do. Control characters cannot reach the terminal through them, because a
source is cleaned before anything is read from it.
"""

from collections.abc import Mapping

from tracker.problems.problem import Problem
from tracker.problems.source import Source


def underlined(problem: Problem, source: Source) -> str:
    """The problem in lines: headline, the line of the pattern with the words underlined, the help."""
    line, column = source.position(problem.label.span.start)
    last_line, end = source.position(problem.label.span.end)
    text = source.line(line)
    width = max(1, (end if last_line == line else len(text) + 1) - column)
    gutter = " " * len(str(line))
    rows = [
        f"{problem.severity.value} {problem.code}: {problem.headline}",
        f"{gutter}--> {source.name}, line {line}",
        f"{line} | {text}",
        f"{gutter} | {' ' * (column - 1)}{'^' * min(width, max(1, len(text) - column + 1))}"
        + (f" {problem.label.text}" if problem.label.text else ""),
    ]
    if problem.help:
        rows.append(f"{gutter} = {problem.help}")
    return "\n".join(rows)


def spoken(problem: Problem) -> str:
    """The problem as a sentence or two for the ear, with no signs that a voice would stumble over."""
    headline = problem.headline.replace("“", "").replace("”", "").rstrip(".")
    help_text = problem.help.replace("“", "").replace("”", "").rstrip(".")
    return f"{headline}. {help_text}." if help_text else f"{headline}."


def as_json(problem: Problem, source: Source) -> Mapping[str, object]:
    """The problem as other tools read it."""
    line, column = source.position(problem.label.span.start)
    last_line, end = source.position(problem.label.span.end)
    return {
        "code": problem.code,
        "severity": problem.severity.value,
        "headline": problem.headline,
        "row": problem.row,
        "index": problem.index,
        "part": problem.part,
        "line": line,
        "column": column,
        "end_column": end if last_line == line else len(source.line(line)) + 1,
        "help": problem.help,
    }
