"""Numbers in speech: words, figures, ordinals, and what a machine hears for them."""

from __future__ import annotations

_TEENS = ("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")
_BELOW_TEN = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
ONES = {w: n for n, w in enumerate((*_BELOW_TEN, *_TEENS))}
_TEN_WORDS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
TENS = {w: n * 10 for n, w in enumerate(_TEN_WORDS, start=2)} | {"fourty": 40}
SOUNDS = {
    "to": 2, "too": 2, "tu": 2, "tool": 2, "for": 4, "fore": 4, "won": 1, "wan": 1, "ate": 8, "tree": 3, "free": 3, "sex": 6, "sicks": 6,
    "sics": 6, "tin": 10, "fife": 5, "hive": 5, "nein": 9, "mine": 9, "heaven": 7,
}  # fmt: skip
"""What a machine writes for a number; taken for one only where a number must stand."""
_FIRST_TO_NINTH = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
ORDINALS = {
    **{w: n for n, w in enumerate(_FIRST_TO_NINTH, start=1)},
    **{"twelfth" if w == "twelve" else f"{w}th": n for n, w in enumerate(_TEENS, start=10)},
    **{f"{word[:-1]}ieth": n for word, n in TENS.items() if word.endswith("y")},
    "forth": 4,
}
_TEEN_STEMS = {"thir": 13, "for": 14, "four": 14, "fif": 15, "fifth": 15, "six": 16, "seven": 17, "eight": 18, "ate": 18, "nine": 19}


def number_at(words: list[str], k: int) -> tuple[int, int] | None:
    """(number, words taken) of a number that begins at word k; None where none does.

    >>> number_at("one hundred and thirteen stitches".split(), 0), number_at(["24"], 0), number_at("twenty four".split(), 0)
    ((113, 4), (24, 1), (24, 2))
    >>> number_at("for teen stitches".split(), 0), number_at("a hundred".split(), 0), number_at("a dozen".split(), 0)
    ((14, 2), (100, 2), (12, 2))
    >>> number_at("two dozen stitches".split(), 0), number_at("half a dozen".split(), 0)
    ((24, 2), (6, 3))
    """
    word = words[k]
    if word == "a" and k + 1 < len(words) and words[k + 1] in ("hundred", "dozen"):
        return _hundreds(words, k + 1, 1) if words[k + 1] == "hundred" else (12, 2)
    if word in SOUNDS and k + 1 < len(words) and words[k + 1] == "hundred" and SOUNDS[word] < 10:
        return _hundreds(words, k + 1, SOUNDS[word])
    if word == "dozen":
        return 12, 1
    if word == "half" and words[k + 1 : k + 3] == ["a", "dozen"]:
        return 6, 3
    if k + 1 < len(words) and words[k + 1] in ("teen", "teens") and word in _TEEN_STEMS:
        return _TEEN_STEMS[word], 2
    small = _below_hundred(words, k)
    if small is None:
        return None
    number, taken = small
    if k + taken < len(words) and words[k + taken] == "dozen" and 1 < number < 10:
        return number * 12, taken + 1
    if k + taken < len(words) and words[k + taken] == "hundred" and number < 100:
        return _hundreds(words, k + taken, number, taken)
    if number == 1 and taken == 1 and word == "one":  # "one thirteen" for 113
        rest = _below_hundred(words, k + 1) if k + 1 < len(words) else None
        if rest is not None and 10 <= rest[0] < 100 and not words[k + 1].isdigit():
            return 100 + rest[0], 1 + rest[1]
    return number, taken


def _hundreds(words: list[str], at: int, head: int, before: int = 1) -> tuple[int, int]:
    """`at` is the word "hundred"."""
    number, taken = head * 100, before + 1
    nxt = at + 1
    if nxt < len(words) and words[nxt] == "and":
        nxt += 1
    rest = _below_hundred(words, nxt) if nxt < len(words) else None
    if rest is not None and rest[0] < 100:
        return number + rest[0], taken + (nxt - at - 1) + rest[1]
    return number, taken


def _below_hundred(words: list[str], k: int) -> tuple[int, int] | None:
    word = words[k]
    if word.isdigit() and len(word) <= 4:
        return int(word), 1
    if word in TENS:
        if k + 1 < len(words) and words[k + 1] in ONES and 0 < ONES[words[k + 1]] < 10:
            return TENS[word] + ONES[words[k + 1]], 2
        if k + 1 < len(words) and words[k + 1].isdigit() and len(words[k + 1]) == 1 and words[k + 1] != "0":
            return TENS[word] + int(words[k + 1]), 2
        return TENS[word], 1
    return (ONES[word], 1) if word in ONES else None


def ordinal_at(words: list[str], k: int) -> tuple[int, int] | None:
    """(number, words taken) of an ordinal: "third", "3rd", "twenty first".

    >>> ordinal_at(["twenty", "first"], 0), ordinal_at(["3rd"], 0), ordinal_at(["row"], 0)
    ((21, 2), (3, 1), None)
    """
    word = words[k]
    if word in ORDINALS:
        return ORDINALS[word], 1
    if word[:-2].isdigit() and word[-2:] in ("st", "nd", "rd", "th") and len(word) <= 6:
        return int(word[:-2]), 1
    if word in TENS and k + 1 < len(words) and ORDINALS.get(words[k + 1], 99) < 10:
        return TENS[word] + ORDINALS[words[k + 1]], 2
    if word in ("one", "a", "two", "three") and words[k + 1 : k + 2] == ["hundred"]:
        at = k + 3 if words[k + 2 : k + 3] == ["and"] else k + 2
        rest = ordinal_at(words, at) if at < len(words) else None
        return (100 * ONES.get(word, 1) + rest[0], at - k + rest[1]) if rest is not None and rest[0] < 100 else None
    return None


def sound_alike(said: int, meant: int) -> bool:
    """Whether a machine may write `said` for `meant`: thirteen for thirty, or a number that lost its end or its beginning.

    >>> sound_alike(13, 30), sound_alike(20, 24), sound_alike(24, 20), sound_alike(8, 58), sound_alike(12, 13)
    (True, True, False, True, False)
    """
    low, high = sorted((said, meant))
    teen = 13 <= low <= 19 and high == (low - 10) * 10
    head_lost = said == low and ((low < 10 and high > 20 and high % 10 == low) or (high > 100 and high % 100 == low))
    return teen or head_lost or lost_end(said, meant)


def lost_end(said: int, meant: int) -> bool:
    """Whether `said` is `meant` without its last words: twenty for twenty-four, one hundred for one hundred and three."""
    if said >= 100 and said % 100 == 0 and said < meant < said + 100:
        return True
    return said >= 20 and said % 10 == 0 and said < meant < said + 10
