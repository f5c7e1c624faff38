"""A plain alphabet of our own in squares, five wide and seven high. Words come in, a Grid goes out.

Letters with accents lose them; a sign that is not in the table is named in a sentence.
"""

import unicodedata

from tracker.filet.grid import FILLED, OPEN, Grid, NoGrid, grid_of

HIGH = 7
"""Squares from the top of a letter to its foot."""

# Seven rows of each letter from the top, as figures in base 2: the highest bit is the leftmost square of the letter.
_TABLE = {
    "A": "01110 10001 10001 11111 10001 10001 10001",
    "B": "11110 10001 10001 11110 10001 10001 11110",
    "C": "01110 10001 10000 10000 10000 10001 01110",
    "D": "11110 10001 10001 10001 10001 10001 11110",
    "E": "11111 10000 10000 11110 10000 10000 11111",
    "F": "11111 10000 10000 11110 10000 10000 10000",
    "G": "01110 10001 10000 10011 10001 10001 01111",
    "H": "10001 10001 10001 11111 10001 10001 10001",
    "I": "111 010 010 010 010 010 111",
    "J": "00111 00010 00010 00010 00010 10010 01100",
    "K": "10001 10010 10100 11000 10100 10010 10001",
    "L": "10000 10000 10000 10000 10000 10000 11111",
    "M": "10001 11011 10101 10101 10001 10001 10001",
    "N": "10001 11001 10101 10101 10011 10001 10001",
    "O": "01110 10001 10001 10001 10001 10001 01110",
    "P": "11110 10001 10001 11110 10000 10000 10000",
    "Q": "01110 10001 10001 10001 10101 10010 01101",
    "R": "11110 10001 10001 11110 10100 10010 10001",
    "S": "01111 10000 10000 01110 00001 00001 11110",
    "T": "11111 00100 00100 00100 00100 00100 00100",
    "U": "10001 10001 10001 10001 10001 10001 01110",
    "V": "10001 10001 10001 10001 01010 01010 00100",
    "W": "10001 10001 10001 10101 10101 11011 10001",
    "X": "10001 10001 01010 00100 01010 10001 10001",
    "Y": "10001 10001 01010 00100 00100 00100 00100",
    "Z": "11111 00001 00010 00100 01000 10000 11111",
    "0": "01110 10001 10011 10101 11001 10001 01110",
    "1": "010 110 010 010 010 010 111",
    "2": "01110 10001 00001 00110 01000 10000 11111",
    "3": "11110 00001 00001 01110 00001 00001 11110",
    "4": "00010 00110 01010 10010 11111 00010 00010",
    "5": "11111 10000 11110 00001 00001 10001 01110",
    "6": "00110 01000 10000 11110 10001 10001 01110",
    "7": "11111 00001 00010 00100 00100 01000 01000",
    "8": "01110 10001 10001 01110 10001 10001 01110",
    "9": "01110 10001 10001 01111 00001 00010 01100",
    " ": "000 000 000 000 000 000 000",
    "-": "000 000 000 111 000 000 000",
    ".": "0 0 0 0 0 0 1",
    "!": "1 1 1 1 1 0 1",
    "?": "01110 10001 00001 00110 00100 00000 00100",
    "&": "01100 10010 10100 01000 10101 10010 01101",
    "+": "00000 00100 00100 11111 00100 00100 00000",
    "'": "1 1 0 0 0 0 0",
    "♥": "01010 11111 11111 11111 01110 00100 00000",
}
LETTERS: dict[str, tuple[str, ...]] = {sign: tuple(rows.split()) for sign, rows in _TABLE.items()}
"""Every letter, by rows from the top; "1" is a filled square."""


def lettered(words: str, border: int = 1) -> Grid:
    """Words in squares, open squares around them; `|` begins a new line.

    >>> print(lettered("I", 0).text, end="")
    ###
    .#.
    .#.
    .#.
    .#.
    .#.
    ###
    """
    lines = [_line(part.strip()) for part in words.replace("\n", "|").split("|")]
    wide = max(len(rows[0]) for rows in lines)
    if not wide:
        raise NoGrid("There is no letter in these words; write what is to stand in the filet.")
    squares: list[str] = []
    for nth, rows in enumerate(lines):
        squares += [OPEN * wide] * (border if nth else 0)
        squares += [row.center(wide, OPEN) for row in rows]
    framed = [OPEN * wide] * border + squares + [OPEN * wide] * border
    return grid_of(tuple(OPEN * border + row + OPEN * border for row in framed))


def _line(words: str) -> list[str]:
    apart = unicodedata.normalize("NFKD", words.replace("’", "'").replace("–", "-"))
    letters = [sign for sign in apart.upper() if not unicodedata.combining(sign)]
    for sign in letters:
        if sign not in LETTERS:
            raise NoGrid(
                f"The alphabet has no {sign}; it has A to Z, 0 to 9, and "
                f"{' '.join(s for s in LETTERS if not s.isalnum() and s != ' ')}."
            )
    return [
        OPEN.join("".join(FILLED if bit == "1" else OPEN for bit in LETTERS[sign][row]) for sign in letters)
        for row in range(HIGH)
    ]
