"""Spoken words → tokens of the craft as they were meant: stitches, rows, chains, places, numbers; machine mishearings mended.

A token keeps the time and the very words it came from, so that nothing is shown otherwise than it was said.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .figures import ONES, SOUNDS, TENS, number_at, ordinal_at
from .lexicon import meanings, words
from .words import Word, ends_of_captions


@dataclass(frozen=True, slots=True)
class Token:
    """`kind`: "st" (a stitch name), "num", "ord", "row", or the word itself for words of the craft; "word" for all others.

    `text` the word as meant; `number` of numbers; `sure` 1 as heard, less where a sound was taken for it; `post` "front"/"back".
    """

    kind: str
    text: str
    at: float
    raw: str
    stop: bool = False
    number: int = 0
    sure: float = 1.0
    until: float = 0.0
    ends: str = ""
    """The mark that must stand behind it where nobody set one; see marks.py."""
    story: bool = False
    aside: bool = False
    thing: bool = False
    world: bool = False
    added: bool = False
    """Of numbers and stitches, what their sentences say of them: see asides.py."""
    led: bool = False
    """Of chains, whether this speaker tells their number before them: see chains_led.py."""

    @property
    def mark(self) -> str:
        """The mark behind the word, or its last letter."""
        return self.ends or self.raw[-1:]


_CROCHET = words("tokens", "crochet")
_SECOND = frozenset(["shay", "shea", "shade", "say", "shet", "che", "chet", "hey", "a", "say", "sheet", "shape"])
_CHAINS = ("chain", "ch", "chains")
_HALF = frozenset(["half", "have", "hoff", "halve", "hath", "haf"])
_HEADS = meanings("tokens", "heads")
_ABBREVIATIONS = meanings("tokens", "abbreviations")
_PHRASES = meanings("tokens", "phrases")
_TOG = {"sc2tog": "single crochet", "dc2tog": "double crochet", "hdc2tog": "half double crochet", "tr2tog": "treble"}
_AFTER_BARE = words("tokens", "after_bare")


def tokens_of(words: list[Word]) -> list[Token]:
    """Every word as a token; phrases of the craft as one token each."""
    out: list[Token] = []
    texts = [word.text for word in words]
    k = 0
    ends = ends_of_captions(words)
    while k < len(words):
        taken, made = _at(texts, words, k, out, ends)
        out += made
        k += taken
    return _numbers_by_place(out)


def _token(words: list[Word], k: int, taken: int, kind: str, text: str, number: int = 0, sure: float = 1.0) -> Token:
    raw = " ".join(word.raw for word in words[k : k + taken])
    last = words[k + taken - 1]
    return Token(kind, text, words[k].at, raw, last.stop, number, sure, last.until)


def _at(texts: list[str], words: list[Word], k: int, before: list[Token], ends: frozenset[int]) -> tuple[int, list[Token]]:
    """(words taken, tokens) at word k; `ends` the places behind which no number goes on."""
    stitch = _stitch_at(texts, words, k, before)
    if stitch is not None:
        name, taken, sure = stitch
        return taken, [_token(words, k, taken, "st", name, sure=sure)]
    for length in (2, 1):
        phrase = " ".join(texts[k : k + length])
        if k + length <= len(texts) and phrase in _PHRASES:
            kind = _PHRASES[phrase]
            if kind in _TOG:
                return length, [_token(words, k, length, "st", _TOG[kind]), _token(words, k, length, "together", "together")]
            doubt = kind.endswith("?")
            return length, [_token(words, k, length, kind.rstrip("?"), phrase, sure=0.5 if doubt else 1.0)]
    if _chain_misheard(texts, words, k):
        return 1, [_token(words, k, 1, "chain", "chains" if texts[k].endswith("s") else "chain", sure=0.9)]
    end = next((i + 1 for i in range(k, _number_end(words, k)) if i in ends), _number_end(words, k))
    ordinal = ordinal_at(texts[k:end], 0)
    if ordinal is not None and not (texts[k] == "second" and k and texts[k - 1] in ("one", "a", "per", "half")):
        return ordinal[1], [_token(words, k, ordinal[1], "ord", texts[k], ordinal[0])]
    number = number_at(texts[k:end], 0)
    if number is not None and number[1] == 2 and _multiplies(texts, k):
        number = number_at(texts[k : k + 1], 0) or number
    if number is not None:
        return number[1], [_token(words, k, number[1], "num", texts[k], number[0])]
    return 1, [_token(words, k, 1, "word", texts[k])]


def _multiplies(texts: list[str], k: int) -> bool:
    """Whether a number of tens is told before a product that makes it: "sixty, five times twelve", where nobody set a mark."""
    times = number_at(texts[k + 3 : k + 6], 0) if k + 3 < len(texts) and texts[k + 2] == "times" else None
    return times is not None and texts[k] in TENS and ONES.get(texts[k + 1], 0) * times[0] == TENS[texts[k]]


def _chain_misheard(texts: list[str], words: list[Word], k: int) -> bool:
    """Whether a "change" with a number behind it is what a machine wrote for a chain: "change three and turn", not "change two colours"."""
    if texts[k] not in ("change", "changes") or words[k].stop or k + 1 >= len(texts):
        return False
    counted = texts[k + 2] if k + 2 < len(texts) and not words[k + 1].stop else ""
    number = texts[k + 1] in ONES or texts[k + 1] == "won" or (texts[k + 1].isdigit() and int(texts[k + 1]) < 100)
    return number and not counted.startswith(("colo", "yarn", "thing", "hook", "ball", "row", "round"))


_POINTS = frozenset(("next", "each", "last", "that", "this", "every", "same", "the"))


def _number_end(words: list[Word], k: int, most: int = 6) -> int:
    """The place behind which a number cannot go on: "twenty. One" is no twenty-one, and "the next one, fifty six" no hundred."""
    if words[k].text == "one" and k and words[k - 1].text in _POINTS:
        return k + 1
    if words[k].text == "one" and k and words[k - 1].text in ("row", "round") and _stitches_told(words, k + 1):
        return k + 1  # "round one ten single crochet in the ring", where nobody set a mark
    if words[k].text == "one" and k + 1 < len(words) and (words[k + 1].until != words[k].until or (k and words[k - 1].text == "skip")):
        return k + 1  # "skip one", and in the next caption "ten times": no hundred and ten
    return next((i + 1 for i in range(k, min(k + most, len(words))) if words[i].stop), min(k + most, len(words)))


def _stitches_told(words: list[Word], k: int) -> bool:
    """Whether a number below a hundred at word k tells how many of a stitch: "forty two half doubles"."""
    number = number_at([word.text for word in words[k : k + 3]], 0)
    after = k + number[1] if number is not None and 1 < number[0] < 100 else len(words)
    return after < len(words) and (words[after].text in _HALF or words[after].text in _ABBREVIATIONS or words[after].text in _HEADS)


def _stitch_at(texts: list[str], words: list[Word], k: int, before: list[Token]) -> tuple[str, int, float] | None:
    """(name, words taken, sure) of a stitch name at word k, the way people and machines say it."""
    word = texts[k]
    if word in _ABBREVIATIONS:
        return _ABBREVIATIONS[word], 1, 1.0
    spelled = _spelled(texts, k)
    if spelled is not None:
        return spelled
    at, half = k, False
    if word in _HALF and k + 1 < len(texts):
        at = k + 2 if texts[k + 1] in ("a", "the") and k + 2 < len(texts) else k + 1
        half = True
        if texts[at] in ("ball", "bull", "bell") and (crochet := _crochet(texts, at + 1)):
            return "half double crochet", at + 1 + crochet - k, 0.9
        if _head(texts, at) in ("", "single"):
            return None
    if texts[at] == "sink" and (crochet := _crochet(texts, at + 1)):
        return "single crochet", 1 + crochet, 0.9
    if texts[at] == "sink" and at + 1 < len(texts) and texts[at + 1] in ("a", "all", "ill", "the"):
        crochet = _crochet(texts, at + 2)
        return ("single crochet", 2 + crochet - k + at, 1.0) if crochet else None
    if not _head(texts, at):
        return None
    return _headed(texts, words, k, at, half, before)


def _head(texts: list[str], at: int) -> str:
    """ "single", "double", "treble" or "triple" as it was heard at a word; by its sound alone only before "crochet"; "" where none."""
    if at >= len(texts):
        return ""
    word = texts[at]
    known = _HEADS.get(word) or _HEADS.get(word.removesuffix("s"))
    if known is not None:
        return known
    return _SOUND_OF_HEAD.get(_sound(word), "") if len(word) > 4 and _crochet(texts, at + 1) else ""


_SOUND_OF_HEAD = {"snkl": "single", "dpl": "double", "trpl": "treble", "dpln": "double", "snkn": "single", "tmpl": "treble"}
_CONSONANTS = str.maketrans({"c": "s", "z": "s", "g": "k", "q": "k", "b": "p", "v": "p"})


def _sound(word: str) -> str:
    """The consonants of a word, those a machine takes for one another as one: "dublin" and "double" both begin with "dpl"."""
    out = ""
    for letter in word.translate(_CONSONANTS):
        if letter not in "aeiouyh'" and letter != out[-1:]:
            out += letter
    return out.removesuffix("s")


_BEFORE_SEVERAL = frozenset(("the", "then", "a", "another", "is", "are", "it's", "they're", "all"))
_IN_A_LIST = frozenset(("single", "double", "treble", "half", "chain", "ch", "skip", "miss", "increase", "decrease", "shell"))
_GOES = frozenset(("up", "down", "along", "to", "across", "over", "all", "until"))
_LEADS_ON = frozenset(("then", "and", "now", "a", "it's"))
_AFTER_STOP = frozenset(("increase", "decrease", "inc", "dec", "two", "double", "then", "and"))


def _headed(texts: list[str], words: list[Word], k: int, at: int, half: bool, before: list[Token]) -> tuple[str, int, float] | None:
    head = _head(texts, at)
    honest = texts[at].rstrip("s") in ("single", "double", "treble", "triple")
    nxt = at + 1
    if head in ("double", "triple") and nxt < len(texts) and _head(texts, nxt) == "treble" and not half:
        crochet = _crochet(texts, nxt + 1)
        return f"{head} treble", nxt + 1 + crochet - k, 1.0
    crochet = _crochet(texts, nxt)
    name = {"single": "single crochet", "double": "double crochet", "treble": "treble", "triple": "treble"}[head]
    if crochet:
        return (f"half {name}" if half else name), nxt + crochet - k, 1.0 if honest else 0.9
    if half and (texts[k] == "half" or (honest and texts[k] == "have" and nxt < len(texts) and texts[nxt] in _AFTER_BARE)):
        return f"half {name}", nxt - k, 0.9
    if half:
        return None
    if texts[at] in ("treble", "trebles"):
        return name, 1, 1.0
    follows = texts[nxt] if nxt < len(texts) else ""
    told = before[-1] if before else None
    counted = told is not None and (told.kind == "num" or told.text in _BEFORE_SEVERAL or _more_of(before))
    numbered = told is not None and not told.stop and told.kind == "num" and told.number > 1
    ends = words[at].stop
    if head in ("single", "double") and honest and ends and not texts[at].endswith("s") and told is not None and told.text == "a":
        return name, 1, 0.7  # "every stitch gets a double."
    many = told is not None and (told.kind in ("num", "ord") or (told.text == "more" and len(before) > 1 and before[-2].kind == "num"))
    if head == "treble" and many and told is not None and not told.stop:
        return name, 1, 0.7  # "three troubles", "your first trouble"
    if head == "single" and honest and ends and follows in _AFTER_STOP and not texts[at].endswith("s"):
        return name, 1, 0.7  # "Single, decrease, five times."
    alone = told is None or told.stop or told.kind == "st" or told.text in _LEADS_ON
    if head in ("single", "double") and honest and ends and alone and not texts[at].endswith("s") and follows in _IN_A_LIST:
        return name, 1, 0.7  # "Single, single, chain one, skip one"
    leads = told is None or told.stop or told.text in ("just", "only", "plain", "all", "always", "simply")
    if head in ("single", "double") and honest and texts[at].endswith("s") and leads and (follows in _GOES or ends):
        return name, 1, 0.7  # "Singles up to the corner.", "Singles, one in each stitch."
    if head in ("single", "double") and honest and ends and not texts[at].endswith("s") and told is not None and _closes_list(before):
        return name, 1, 0.7  # "double, chain two, double.", "one single."
    if head in ("single", "double") and honest and not texts[at].endswith("s") and told is not None and _listed(texts, words, at, before):
        return name, 1, 0.7
    one = told is not None and not told.stop and (told.kind == "num" or told.text in ("a", "another", "last"))
    if (
        head in ("single", "double")
        and honest
        and one
        and (
            follows == "at"
            or (
                0 < (int(follows) if follows.isdigit() else ONES.get(follows, 0)) < 10
                and told is not None
                and told.kind == "num"
                and (_head(texts, nxt + 1) or texts[nxt + 1 : nxt + 2] in (["chain"], ["chains"], ["ch"]))
            )
        )
    ):
        return name, 1, 0.7  # "one single one double one single", "and a single at the end"
    stands = (nxt < len(texts) and texts[nxt] in ("chain", "ch", "and", "then", "turn")) or nxt >= len(texts)
    if (
        head in ("single", "double")
        and honest
        and (follows in _AFTER_BARE or (counted and texts[at].endswith("s")) or (numbered and (stands or ends)))
    ):
        if told is not None and told.text in ("every", "each", "any", "not"):
            return None
        return name, 1, 0.7
    return None


def _more_of(before: list[Token]) -> bool:
    """Whether "more" stands behind a number: "two more doubles", "too more doubles"."""
    return before[-1].text == "more" and len(before) > 1 and (before[-2].kind == "num" or before[-2].text in ("to", "too"))


def _listed(texts: list[str], words: list[Word], at: int, before: list[Token]) -> bool:
    """Whether a stitch told by half its name stands in a list of such, where nobody set a mark: "a single a half double a double a half
    double and a single", "single half double double half double single"."""
    told = before[-1]
    if not told.stop and told.kind != "num" and _halves(texts, words, at + 1) > 1:
        return True
    behind = told.kind == "st" or (told.text in ("a", "one", "and") and any(token.kind == "st" for token in before[-3:-1]))
    if not behind or told.stop:
        return False
    follows = texts[at + 1] if at + 1 < len(texts) else ""
    if at + 1 == len(texts) or words[at + 1].until != words[at].until or follows in ("a", "and", "in", "into", "then"):
        return True
    beside = at + 2 if follows == "half" else at + 1
    return _head(texts, beside) in ("single", "double") and not _crochet(texts, beside + 1)


def _halves(texts: list[str], words: list[Word], k: int) -> int:
    """How many stitches told by half their names follow one another from word k on."""
    found = 0
    while k < len(texts):
        at = k + 1 if texts[k] == "half" else k
        if _head(texts, at) not in ("single", "double") or _crochet(texts, at + 1):
            break
        found, k = found + 1, at + 1
        if words[at].stop:
            break
    return found


def _closes_list(before: list[Token]) -> bool:
    """Whether a stitch told by half its name ends a list of work, or is told as one: "single, chain three, single.", "and one single."."""
    told = before[-1]
    if not told.stop:
        return told.kind == "num" and told.number == 1 and len(before) > 1 and before[-2].stop
    return told.mark == "," and any(token.kind in ("chain", "st", "skip") for token in before[-3:])


def _crochet(texts: list[str], k: int) -> int:
    """How many words from k on were "crochet"; 0 where none."""
    if k >= len(texts):
        return 0
    if (
        texts[k] in ("crow", "grow", "crew", "row", "cro", "kro", "crow's", "crowed", "cro")
        and k + 1 < len(texts)
        and (texts[k + 1] in _SECOND or (texts[k + 1][:2] in ("sh", "ch") and len(texts[k + 1]) <= 5 and texts[k + 1] not in _CHAINS))
    ):
        return 2
    if texts[k] in _CROCHET and texts[k] != "crow":
        return 1
    return 1 if _skeleton(texts[k]) in ("krs", "krst", "krk", "krkt", "krss", "krsn") and len(texts[k]) > 4 else 0


def _skeleton(word: str) -> str:
    """The consonants one hears, roughly: what "crochet" and its mishearings share."""
    sounds = word.replace("ch", "s").replace("sh", "s").replace("ck", "k").replace("qu", "k")
    table = {"c": "k", "k": "k", "g": "k", "q": "k", "r": "r", "s": "s", "z": "s", "t": "t", "n": "n", "d": "t"}
    out = ""
    for letter in sounds:
        sound = table.get(letter, "")
        if sound and (not out or out[-1] != sound):
            out += sound
    return out.removesuffix("t") if out.endswith("st") and word.endswith("t") else out


def _spelled(texts: list[str], k: int) -> tuple[str, int, float] | None:
    """Letters said one by one: "d c", "h d c", "s c"."""
    for letters, name in (
        ("h d c", "half double crochet"),
        ("d c", "double crochet"),
        ("s c", "single crochet"),
        ("h t r", "half treble"),
        ("t r", "treble"),
    ):
        run = letters.split()
        if texts[k : k + len(run)] == run:
            return name, len(run), 1.0
    return None


_NOUNS = frozenset(("stitch", "st", "space", "chain", "shell", "cluster", "picot"))
_BEFORE_NUMBER = words("tokens", "before_number")


def _numbers_by_place(tokens: list[Token]) -> list[Token]:
    """Sounds taken for numbers where a number must stand: after "row" and "chain", between "next" and a noun, before "times"."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        if token.kind == "word" and token.text in SOUNDS:
            number = _by_place(tokens, k, out)
            if number is not None:
                if isinstance(number, _Joined):
                    last = out.pop()
                    out.append(Token("num", last.text, last.at, f"{last.raw} {token.raw}", token.stop, number.value, 0.7, token.until))
                else:
                    out.append(Token("num", token.text, token.at, token.raw, token.stop, number, 0.7, token.until))
                continue
        out.append(token)
    return _tens_and_ones(out)


@dataclass(frozen=True, slots=True)
class _Joined:
    value: int


_PLACED = frozenset(("the", "a", "an", "this", "that", "your", "where", "my", "our", "here", "there"))


def _by_place(tokens: list[Token], k: int, out: list[Token]) -> int | _Joined | None:
    token = tokens[k]
    number = SOUNDS[token.text]
    before = out[-1] if out else None
    after = tokens[k + 1] if k + 1 < len(tokens) else None
    noun = after is not None and after.kind in _NOUNS
    if before is None:
        return None
    if before.kind == "num" and before.number in TENS.values() and number < 10 and noun and not before.stop:
        return _Joined(before.number + number)
    if before.kind == "num" and before.number in TENS.values() and number < 10 and not before.stop and _ends_range(out):
        return _Joined(before.number + number)
    ends = after is None or after.until != token.until
    if before.kind == "num" and before.number in TENS.values() and number < 10 and not before.stop and ends:
        return _Joined(before.number + number)  # "you should have thirty too", the caption's end
    if before.kind == "num" and before.number == number - 1 and not before.stop and _counting(out, after, number):
        return number  # "one two three for five"
    if token.text == "for" and before.text == "next" and not before.stop:
        return number  # "single crochet in the next for"
    stitches = after is not None and after.kind in ("st", "stitch")
    if stitches and token.text in _NO_WORDS and before.kind != "num":
        return number  # "ate single crochet"
    if stitches and token.text == "for" and before.until != token.until and _last_in_caption(tokens, k + 1):
        return number  # "for single crochets", a caption of its own
    if before.kind == "row" and len(out) > 1 and out[-2].kind == "ord" and not out[-2].stop:
        return None  # "from the third row to the thirtieth row"
    if before.kind == "row" and token.text in ("to", "too", "for") and after is not None and after.text in _PLACED:
        return None  # "go on like that round to the join"
    if before.kind == "row" and not (after is not None and after.kind in ("row", "num")) and not before.stop:
        return number
    if before.kind == "rows" and after is not None and after.kind in ("num", "word"):
        return number
    if before.kind == "chain" and token.text not in ("mine", "heaven") and not before.stop:
        return (
            number
            if not (token.text in ("for", "to") and after is not None and after.text in ("the", "a", "this", "your", "turn"))
            else None
        )
    if after is not None and after.text == "times":
        return number
    if noun and (before.text in _BEFORE_NUMBER or before.kind in ("skip", "decrease")):
        return number
    if token.text in ("to", "too") and before.text in ("then", "and") and after is not None and after.text in ("in", "into"):
        return 2  # "then to in the next"
    if (
        token.text in ("to", "too")
        and before.text in _MAKES
        and (ends or token.stop or (after is not None and after.text in ("so", "and")))
    ):
        return 2  # "and in the last stitch we put too so five six"
    if token.text in ("to", "too") and before.kind == "st" and after is not None and after.kind == "together":
        return 2
    if token.text in ("to", "too") and after is not None and after.text == "more" and k + 2 < len(tokens) and tokens[k + 2].kind == "st":
        return 2  # "chain three, too more doubles"
    return None


_MAKES = frozenset(("put", "work", "make", "places", "place"))
_NO_WORDS = frozenset(("ate", "sicks", "sics", "fife", "fore", "tu"))
"""Sounds of numbers that are hardly a word of a tutorial themselves."""


def _counting(out: list[Token], after: Token | None, number: int) -> bool:
    """Whether a number is one of those counted aloud: two before it, or the next one behind it."""
    two = len(out) > 1 and out[-2].kind == "num" and out[-2].number == number - 2 and not out[-2].stop
    return two or (after is not None and after.kind == "num" and after.number == number + 1)


def _last_in_caption(tokens: list[Token], k: int) -> bool:
    return k + 1 >= len(tokens) or tokens[k + 1].until != tokens[k].until


def _ends_range(out: list[Token]) -> bool:
    """Whether the last number ends a range of rows: "rows nine through thirty"."""
    return len(out) > 3 and out[-2].text in ("to", "through", "thru") and out[-3].kind == "num" and out[-4].kind in ("row", "rows")


def _tens_and_ones(tokens: list[Token]) -> list[Token]:
    """ "20 4 stitches", "row 20 four", "20 one" as one number."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        last = out[-1] if out else None
        if last is not None and _belong(out, last, token, tokens[k + 1] if k + 1 < len(tokens) else None):
            out[-1] = Token("num", last.text, last.at, f"{last.raw} {token.raw}", token.stop, last.number + token.number, 0.8, token.until)
        else:
            out.append(token)
    return out


def _belong(out: list[Token], last: Token, token: Token, after: Token | None) -> bool:
    """Whether a number below ten belongs to the tens before it."""
    if last.kind != "num" or token.kind != "num" or last.stop or last.number not in TENS.values() or not 0 < token.number < 10:
        return False
    if last.text.isdigit() and not token.text.isdigit():
        return True
    named = len(out) > 1 and out[-2].kind in ("row", "rows")
    return named or (after is not None and after.kind in _NOUNS)


def raw_of(tokens: Iterable[Token]) -> str:
    """The very words of some tokens."""
    return " ".join(token.raw for token in tokens)
