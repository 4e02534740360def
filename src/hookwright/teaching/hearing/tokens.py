"""Spoken words → tokens of the craft as they were meant: stitches, rows, chains, places, numbers; machine mishearings mended.

A token keeps the time and the very words it came from, so that nothing is shown otherwise than it was said.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .figures import SOUNDS, TENS, number_at, ordinal_at
from .words import Word


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


_CROCHET = frozenset(
    "crochet crochets crocheting crocheted crotchet croche crochey croshay croshey crowshay croquet croquette crochette crush crushed crouch "
    "krochet kroshay croissant crow croach crosher crusher roche cochet coachet groshay crochete".split()
)
_SECOND = frozenset("shay shea shade say shet che chet hey a say sheet shape".split())
_HALF = frozenset("half have hoff halve hath haf".split())
_HEADS = {
    "single": "single", "singles": "single", "signal": "single", "sinkle": "single", "cingle": "single", "singled": "single", "singer": "single",
    "double": "double", "doubles": "double", "dubble": "double", "devil": "double", "doubled": "double", "dabble": "double", "duple": "double",
    "treble": "treble", "trebles": "treble", "trebel": "treble", "trouble": "treble", "tremble": "treble", "travel": "treble",
    "trebled": "treble", "trebble": "treble", "terrible": "treble", "triple": "triple", "tripled": "triple", "tribal": "treble",
    "troubled": "treble", "pebble": "treble",
}  # fmt: skip
_ABBREVIATIONS = {
    "sc": "single crochet", "scs": "single crochet", "hdc": "half double crochet", "hdcs": "half double crochet", "dc": "double crochet",
    "dcs": "double crochet", "tr": "treble", "trs": "treble", "trc": "treble", "htr": "half treble", "dtr": "double treble",
    "fpdc": "front post double crochet", "bpdc": "back post double crochet", "fptr": "front post treble", "bptr": "back post treble",
    "fphdc": "front post half double crochet", "bphdc": "back post half double crochet",
}  # fmt: skip
_PHRASES: dict[str, str] = {
    "slip stitch": "slip", "slip stitches": "slip", "slip stick": "slip", "slips ditch": "slip", "slip switch": "slip", "slipped stitch": "slip",
    "sleep stitch": "slip", "slip stich": "slip", "ss": "slip", "sl st": "slip", "slipstitch": "slip", "flip stitch": "slip", "slip titch": "slip",
    "chain": "chain", "chains": "chain", "chained": "chain", "ch": "chain", "chaining": "chain", "chane": "chain",
    "turn": "turn", "turned": "turn", "turning": "turn", "churn": "turn", "turns": "turn", "term your": "turn",
    "skip": "skip", "skipped": "skip", "skipping": "skip", "miss": "skip", "missing": "skip", "missed": "skip",
    "join": "join", "joined": "join", "joining": "join", "joint": "join",
    "stitch": "stitch", "stitches": "stitch", "stich": "stitch", "st": "stitch", "sts": "stitch", "stiches": "stitch", "stitched": "stitch",
    "ditches": "stitch", "switches": "stitch",
    "space": "space", "spaces": "space", "sp": "space", "sps": "space", "gap": "space", "gaps": "space", "hole": "space", "holes": "space",
    "increase": "increase", "increases": "increase", "inc": "increase", "in crease": "increase", "increased": "increase",
    "increasing": "increase", "incs": "increase",
    "decrease": "decrease", "decreases": "decrease", "dec": "decrease", "the crease": "decrease", "decreased": "decrease",
    "decreasing": "decrease", "d crease": "decrease", "decs": "decrease", "degrees": "decrease", "de crease": "decrease",
    "together": "together", "tog": "together", "2tog": "together",
    "repeat": "repeat", "repeating": "repeat", "repeats": "repeat", "rep": "repeat", "repeated": "repeat",
    "shell": "shell", "shells": "shell", "cluster": "cluster", "clusters": "cluster", "bobble": "bobble", "bobbles": "bobble", "bauble": "bobble",
    "puff": "puff", "puffs": "puff", "popcorn": "popcorn", "popcorns": "popcorn", "picot": "picot", "picots": "picot", "pico": "picot",
    "peco": "picot", "peacoat": "picot", "v stitch": "v-stitch", "v stitches": "v-stitch", "picos": "picot",
    "ring": "ring", "magic circle": "ring", "magic ring": "ring", "magic loop": "ring",
    "row": "row", "rows": "rows", "roe": "row", "rho": "row", "roes": "rows", "rowe": "row", "rose": "rows?", "road": "row?", "roads": "rows?",
    "wrote": "row?", "roll": "row?", "raw": "row?", "ro": "row?", "rogue": "row?", "grow": "row?", "throw": "row?", "rove": "row?",
    "round": "row", "rounds": "rows", "rnd": "row", "rnds": "rows", "rown": "row?", "ground": "row?", "brown": "row?", "bound": "row?",
    "around": "around", "rand": "row?", "rount": "row?",
    "front post": "front post", "back post": "back post", "front most": "front post", "back most": "back post",
    "sc2tog": "sc2tog", "dc2tog": "dc2tog", "hdc2tog": "hdc2tog", "tr2tog": "tr2tog",
}  # fmt: skip
_TOG = {"sc2tog": "single crochet", "dc2tog": "double crochet", "hdc2tog": "half double crochet", "tr2tog": "treble"}
_AFTER_BARE = frozenset("in into across around all each next the two 2 twice to too evenly inc".split())


def tokens_of(words: list[Word]) -> list[Token]:
    """Every word as a token; phrases of the craft as one token each."""
    out: list[Token] = []
    texts = [word.text for word in words]
    k = 0
    while k < len(words):
        taken, made = _at(texts, words, k, out)
        out += made
        k += taken
    return _numbers_by_place(out)


def _token(words: list[Word], k: int, taken: int, kind: str, text: str, number: int = 0, sure: float = 1.0) -> Token:
    raw = " ".join(word.raw for word in words[k : k + taken])
    return Token(kind, text, words[k].at, raw, words[k + taken - 1].stop, number, sure)


def _at(texts: list[str], words: list[Word], k: int, before: list[Token]) -> tuple[int, list[Token]]:
    """(words taken, tokens) at word k."""
    stitch = _stitch_at(texts, k, before)
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
    ordinal = ordinal_at(texts, k)
    if ordinal is not None:
        return ordinal[1], [_token(words, k, ordinal[1], "ord", texts[k], ordinal[0])]
    number = number_at(texts, k)
    if number is not None:
        return number[1], [_token(words, k, number[1], "num", texts[k], number[0])]
    return 1, [_token(words, k, 1, "word", texts[k])]


def _stitch_at(texts: list[str], k: int, before: list[Token]) -> tuple[str, int, float] | None:
    """(name, words taken, sure) of a stitch name at word k, the way people and machines say it."""
    word = texts[k]
    if word in _ABBREVIATIONS:
        return _ABBREVIATIONS[word], 1, 1.0
    spelled = _spelled(texts, k)
    if spelled is not None:
        return spelled
    at, half = k, False
    if word in _HALF and k + 1 < len(texts):
        at = k + 2 if texts[k + 1] == "a" and k + 2 < len(texts) else k + 1
        half = True
        if texts[at] not in _HEADS or _HEADS[texts[at]] == "single":
            return None
    if texts[at] == "sink" and at + 1 < len(texts) and texts[at + 1] in ("a", "all", "ill", "the"):
        crochet = _crochet(texts, at + 2)
        return ("single crochet", 2 + crochet - k + at, 1.0) if crochet else None
    if texts[at] not in _HEADS:
        return None
    return _headed(texts, k, at, half, before)


def _headed(texts: list[str], k: int, at: int, half: bool, before: list[Token]) -> tuple[str, int, float] | None:
    head = _HEADS[texts[at]]
    honest = texts[at].rstrip("s") in ("single", "double", "treble", "triple")
    nxt = at + 1
    if head in ("double", "triple") and nxt < len(texts) and _HEADS.get(texts[nxt]) == "treble" and not half:
        crochet = _crochet(texts, nxt + 1)
        return f"{head} treble", nxt + 1 + crochet - k, 1.0
    crochet = _crochet(texts, nxt)
    name = {"single": "single crochet", "double": "double crochet", "treble": "treble", "triple": "treble"}[head]
    if crochet:
        return (f"half {name}" if half else name), nxt + crochet - k, 1.0 if honest else 0.9
    if half and (texts[k] == "half" or honest and texts[k] == "have" and nxt < len(texts) and texts[nxt] in _AFTER_BARE):
        return f"half {name}", nxt - k, 0.9
    if half:
        return None
    if texts[at] in ("treble", "trebles"):
        return name, 1, 1.0
    follows = texts[nxt] if nxt < len(texts) else ""
    told = before[-1] if before else None
    counted = told is not None and (told.kind == "num" or told.text in ("the", "then", "a", "another"))
    if head in ("single", "double") and honest and (follows in _AFTER_BARE or (counted and texts[at].endswith("s"))):
        if told is not None and told.text in ("every", "each", "any", "not"):
            return None
        return name, 1, 0.7
    return None


def _crochet(texts: list[str], k: int) -> int:
    """How many words from k on were "crochet"; 0 where none."""
    if k >= len(texts):
        return 0
    if texts[k] in ("crow", "grow", "crew", "row", "cro", "kro", "crow's", "crowed", "cro") and k + 1 < len(texts) and texts[k + 1] in _SECOND:
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
    for letters, name in (("h d c", "half double crochet"), ("d c", "double crochet"), ("s c", "single crochet"), ("h t r", "half treble"), ("t r", "treble")):
        run = letters.split()
        if texts[k : k + len(run)] == run:
            return name, len(run), 1.0
    return None


_NOUNS = frozenset(("stitch", "st", "space", "chain", "shell", "cluster", "picot"))
_BEFORE_NUMBER = frozenset("next last first have has had of skip these those other total are is got count makes gives leaves".split())


def _numbers_by_place(tokens: list[Token]) -> list[Token]:
    """Sounds taken for numbers where a number must stand: after "row" and "chain", between "next" and a noun, before "times"."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        if token.kind == "word" and token.text in SOUNDS:
            number = _by_place(tokens, k, out)
            if number is not None:
                if isinstance(number, _Joined):
                    last = out.pop()
                    out.append(Token("num", last.text, last.at, f"{last.raw} {token.raw}", token.stop, number.value, 0.7))
                else:
                    out.append(Token("num", token.text, token.at, token.raw, token.stop, number, 0.7))
                continue
        out.append(token)
    return _tens_and_ones(out)


@dataclass(frozen=True, slots=True)
class _Joined:
    value: int


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
    if before.kind == "row" and not (after is not None and after.kind in ("row", "num")) and not before.stop:
        return number
    if before.kind == "rows" and after is not None and after.kind in ("num", "word") and not (after.kind == "num" and token.text in ("to", "too") and False):
        return number
    if before.kind == "chain" and token.text not in ("mine", "heaven") and not before.stop:
        return number if not (token.text in ("for", "to") and after is not None and after.text in ("the", "a", "this", "your", "turn")) else None
    if after is not None and after.text == "times":
        return number
    if noun and (before.text in _BEFORE_NUMBER or before.kind in ("skip", "decrease")):
        return number
    if token.text in ("to", "too") and before.kind == "st" and after is not None and after.kind == "together":
        return 2
    return None


def _tens_and_ones(tokens: list[Token]) -> list[Token]:
    """ "20 4 stitches" as one number."""
    out: list[Token] = []
    for k, token in enumerate(tokens):
        last = out[-1] if out else None
        if (
            last is not None and token.kind == "num" and last.kind == "num" and last.number in TENS.values() and 0 < token.number < 10
            and not last.stop and k + 1 < len(tokens) and tokens[k + 1].kind in _NOUNS
        ):  # fmt: skip
            out[-1] = Token("num", last.text, last.at, f"{last.raw} {token.raw}", token.stop, last.number + token.number, 0.8)
        else:
            out.append(token)
    return out


def raw_of(tokens: Iterable[Token]) -> str:
    """The very words of some tokens."""
    return " ".join(token.raw for token in tokens)
