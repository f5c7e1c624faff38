"""Numbers in words and figures: the one owner of that conversion.

Unknown words give None; nothing raises.
"""

_UNITS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
).split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_ORDINALS = (
    "zeroth first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth "
    "fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth"
).split()

NUMBER_WORDS: dict[str, int] = {word: value for value, word in enumerate(_UNITS)}
NUMBER_WORDS |= {word: 10 * (at + 2) for at, word in enumerate(_TENS)}
TIMES_WORDS: dict[str, int] = {"once": 1, "twice": 2, "thrice": 3}
ORDINAL_WORDS: dict[str, int] = {word: value for value, word in enumerate(_ORDINALS) if value}


def number_of(words: str) -> int | None:
    """The number that figures or words name.

    >>> number_of("twenty-four"), number_of("24"), number_of("one hundred and five"), number_of("dc")
    (24, 24, 105, None)
    """
    text = words.strip().lower()
    if text.isascii() and text.isdigit():
        return int(text) if len(text) < 16 else None
    total = current = 0
    seen = False
    for word in text.replace("-", " ").split():
        if word == "and" and seen:
            continue
        if word in NUMBER_WORDS:
            current += NUMBER_WORDS[word]
        elif word == "hundred":
            current = max(1, current) * 100
        elif word == "thousand":
            total, current = total + max(1, current) * 1000, 0
        else:
            return None
        seen = True
    return total + current if seen else None


def spoken_number(value: int) -> str:
    """A number in words, as it is said.

    >>> spoken_number(31), spoken_number(105), spoken_number(2000)
    ('thirty-one', 'one hundred and five', 'two thousand')
    """
    if value < 0:
        return "minus " + spoken_number(-value)
    if value < 20:
        return _UNITS[value]
    if value < 100:
        tens, unit = divmod(value, 10)
        return _TENS[tens - 2] + (f"-{_UNITS[unit]}" if unit else "")
    if value < 1000:
        hundreds, rest = divmod(value, 100)
        return f"{_UNITS[hundreds]} hundred" + (f" and {spoken_number(rest)}" if rest else "")
    if value < 1_000_000:
        thousands, rest = divmod(value, 1000)
        joint = " and " if 0 < rest < 100 else " "
        return f"{spoken_number(thousands)} thousand" + (joint + spoken_number(rest) if rest else "")
    return str(value)


def spoken_times(value: int) -> str:
    """How often, in words.

    >>> spoken_times(1), spoken_times(2), spoken_times(12)
    ('once', 'twice', 'twelve times')
    """
    return {1: "once", 2: "twice"}.get(value, f"{spoken_number(value)} times")


def spoken_ordinal(value: int) -> str:
    """The ordinal in words: "third", "twenty-first".

    >>> spoken_ordinal(3), spoken_ordinal(21), spoken_ordinal(40), spoken_ordinal(112)
    ('third', 'twenty-first', 'fortieth', 'one hundred and twelfth')
    """
    if 0 < value <= 20:
        return _ORDINALS[value]
    words = spoken_number(value)
    head, mark, last = words.rpartition("-")
    if not mark:
        head, mark, last = words.rpartition(" ")
    if last in _UNITS and _UNITS.index(last):
        return head + mark + _ORDINALS[_UNITS.index(last)]
    return head + mark + (last[:-1] + "ieth" if last.endswith("y") else last + "th")


def read_back(value: int) -> str:
    """A number said so that it cannot be misheard: digits apart where "-teen" and "-ty" sound alike.

    >>> read_back(13), read_back(24)
    ('thirteen, one three', 'twenty-four')
    """
    alike = 13 <= value <= 19 or (value % 10 == 0 and 30 <= value <= 90)
    digits = " ".join(_UNITS[int(digit)] for digit in str(value)) if alike else ""
    return f"{spoken_number(value)}, {digits}" if digits else spoken_number(value)


def ordinal_figure(value: int) -> str:
    """The ordinal in figures: "3rd".

    >>> [ordinal_figure(n) for n in (1, 2, 3, 11, 22)]
    ['1st', '2nd', '3rd', '11th', '22nd']
    """
    ending = "th" if 10 <= value % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(value % 10, "th")
    return f"{value}{ending}"
