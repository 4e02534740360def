"""US and UK terms: one stitch, two names. Everything here goes by structure, never by replacing text.

From single crochet upward the UK name stands one step higher than the US one (sc → dc, hdc → htr, dc → tr, tr → dtr, dtr → trtr); chain
and slip stitch are shared; together-, post, foundation and extended names follow the stitch they are built on.
Source: Crochet terms by country, funcrochetdesigns.com; the taller steps: crochetforall.com; UK trtr is also printed ttr.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, TypeAlias

from .kinds import TUNISIAN, base

System: TypeAlias = Literal["US", "UK"]

UK_OF: dict[str, str] = {
    "ch": "ch",
    "sl st": "sl st",
    "sc": "dc",
    "hdc": "htr",
    "dc": "tr",
    "tr": "dtr",
    "dtr": "trtr",
    "trtr": "quadtr",
    "qtr": "quintr",
    "esc": "edc",
    "ehdc": "ehtr",
    "edc": "etr",
    "etr": "edtr",
    "fsc": "fdc",
    "fhdc": "fhtr",
    "fdc": "ftr",
    "ftr": "fdtr",
    "rev sc": "rev dc",
    "ldc": "ltr",
    "ltr": "ldtr",
    "crossed dc": "crossed tr",
}
"""UK abbreviation of a US id. Kinds that are not here (puff, shell, picot …) are called the same in both."""

US_NAMES: dict[str, str] = {
    "ch": "chain",
    "sl st": "slip stitch",
    "sc": "single crochet",
    "hdc": "half double crochet",
    "dc": "double crochet",
    "tr": "treble crochet",
    "dtr": "double treble crochet",
    "trtr": "triple treble crochet",
    "qtr": "quadruple treble crochet",
    "esc": "extended single crochet",
    "ehdc": "extended half double crochet",
    "edc": "extended double crochet",
    "etr": "extended treble crochet",
    "fsc": "foundation single crochet",
    "fhdc": "foundation half double crochet",
    "fdc": "foundation double crochet",
    "ftr": "foundation treble crochet",
    "rev sc": "reverse single crochet",
    "inv dec": "invisible decrease",
    "cl": "cluster",
    "puff": "puff stitch",
    "bobble": "bobble",
    "popcorn": "popcorn",
    "shell": "shell",
    "V-st": "V-stitch",
    "picot": "picot",
    "tss": "Tunisian simple stitch",
    "tks": "Tunisian knit stitch",
    "tps": "Tunisian purl stitch",
    "trs": "Tunisian reverse stitch",
    "tfs": "Tunisian full stitch",
    "tes": "Tunisian extended stitch",
}

UK_NAMES: dict[str, str] = {
    **US_NAMES,
    "sc": "double crochet",
    "hdc": "half treble",
    "dc": "treble",
    "tr": "double treble",
    "dtr": "triple treble",
    "trtr": "quadruple treble",
    "qtr": "quintuple treble",
    "esc": "extended double crochet",
    "ehdc": "extended half treble",
    "edc": "extended treble",
    "etr": "extended double treble",
    "fsc": "foundation double crochet",
    "fhdc": "foundation half treble",
    "fdc": "foundation treble",
    "ftr": "foundation double treble",
    "rev sc": "reverse double crochet",
}

_US_ALSO = {
    "trc": "tr",
    "ss": "sl st",
    "slst": "sl st",
    "sl": "sl st",
    "exsc": "esc",
    "quadtr": "qtr",
    "rsc": "rev sc",
    "invdec": "inv dec",
    "hd": "hdc",
    "bo": "bobble",
    "mb": "bobble",
    "ps": "puff",
    "pc": "popcorn",
    "pop": "popcorn",
    "sh": "shell",
    "vst": "V-st",
}
_UK_ALSO = {
    "ttr": "dtr",
    "qtr": "trtr",
    "quadtr": "trtr",
    "quintr": "qtr",
    "ss": "sl st",
    "slst": "sl st",
    "bo": "bobble",
    "mb": "bobble",
    "ps": "puff",
    "pc": "popcorn",
}

ONLY_US = ("sc", "hdc", "esc", "ehdc", "fsc", "fhdc", "sc2tog", "sc3tog", "hdc2tog", "FPsc", "BPsc", "FPhdc", "BPhdc")
"""Abbreviations that occur in US terms only: one of them settles the matter."""
ONLY_UK = ("htr", "ttr", "ehtr", "fhtr", "htr2tog", "FPhtr", "BPhtr", "quintr")
"""Abbreviations that occur in UK terms only."""

WORDS: dict[str, tuple[str, str]] = {
    "skip": ("skip", "miss"),
    "gauge": ("gauge", "tension"),
    "yarn over": ("yarn over", "yarn round hook"),
    "yo": ("yo", "yrh"),
    "color": ("color", "colour"),
    "center": ("center", "centre"),
    "fasten off": ("fasten off", "fasten off"),
}
"""Other words of the craft that differ: (US, UK)."""

_TOG = re.compile(r"^(?P<of>.+?)(?P<n>\d+)tog$")
_COUNT = ("two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@lru_cache(maxsize=1024)
def abbr(kind: str, system: System) -> str:
    """The abbreviation of a stitch id in `system`.

    >>> [abbr(kind, "UK") for kind in ("dc2tog", "FPdc", "BPhdc", "esc", "fsc", "sl st", "puff", "FPtr2tog")]
    ['tr2tog', 'FPtr', 'BPhtr', 'edc', 'fdc', 'sl st', 'puff', 'FPdtr2tog']
    >>> abbr("dc2tog", "US")
    'dc2tog'
    """
    if kind in TUNISIAN:
        return kind.capitalize()
    if system == "US":
        return kind
    together = _TOG.match(kind)
    if together:
        return f"{abbr(together['of'], system)}{together['n']}tog"
    if kind[:2] in ("FP", "BP"):
        return kind[:2] + abbr(kind[2:], system)
    return UK_OF.get(kind, kind)


@lru_cache(maxsize=1024)
def name(kind: str, system: System) -> str:
    """The full name of a stitch id in `system`.

    >>> name("dc2tog", "UK"), name("FPdc", "US"), name("BPsc", "UK")
    ('treble two together', 'front post double crochet', 'back post double crochet')
    """
    together = _TOG.match(kind)
    if together:
        number = int(together["n"])
        return f"{name(together['of'], system)} {_COUNT[number - 2] if 2 <= number <= 10 else number} together"
    if kind[:2] in ("FP", "BP"):
        return f"{'front' if kind[0] == 'F' else 'back'} post {name(kind[2:], system)}"
    return (US_NAMES if system == "US" else UK_NAMES).get(kind, kind)


@lru_cache(maxsize=1024)
def kind_of(word: str, system: System) -> str | None:
    """The stitch id that an abbreviation or a full name means in `system`; None when it is none.

    >>> kind_of("tr", "UK"), kind_of("tr", "US"), kind_of("trtr", "UK"), kind_of("trtr", "US"), kind_of("tr2tog", "UK")
    ('dc', 'tr', 'dtr', 'trtr', 'dc2tog')
    >>> kind_of("fptr", "UK"), kind_of("half treble", "UK"), kind_of("hat", "US"), kind_of("edc", "UK")
    ('FPdc', 'hdc', None, 'esc')
    """
    text = " ".join(word.lower().replace("-", " ").split()) if "-" in word and word.lower() != "v-st" else " ".join(word.lower().split())
    together = _TOG.match(text)
    if together:
        inner = kind_of(together["of"], system)
        return None if inner is None else f"{inner}{together['n']}tog"
    found = _table(system).get(text)
    if found is None and text[:2] in ("fp", "bp"):
        inner = kind_of(text[2:], system)
        return None if inner is None or inner != base(inner) else text[:2].upper() + inner
    return found


@lru_cache(maxsize=2)
def _table(system: System) -> dict[str, str]:
    names = US_NAMES if system == "US" else UK_NAMES
    out = {full: kind for kind, full in names.items()}
    out |= {full.removesuffix(" crochet"): kind for full, kind in list(out.items()) if "treble" in full}
    if system == "US":
        out |= {kind.lower(): kind for kind in (*UK_OF, *US_NAMES)}
        out["triple crochet"] = "tr"
        return out | _US_ALSO
    out |= {kind.lower(): kind for kind in US_NAMES if kind not in UK_OF}
    return out | {uk.lower(): kind for kind, uk in UK_OF.items()} | _UK_ALSO


def say(word: str, system: System) -> str:
    """A word of the craft in `system` ("skip" → "miss").

    >>> say("skip", "UK"), say("gauge", "US"), say("marker", "UK")
    ('miss', 'gauge', 'marker')
    """
    pair = WORDS.get(word)
    return word if pair is None else pair[0 if system == "US" else 1]


def spelled(text: str, system: System) -> str:
    """A message of ours with its US stitch words turned: every `{kind}` in braces is written in `system`.

    >>> spelled("4 {dc}, {skip} 1", "UK")
    '4 tr, miss 1'
    """
    return re.sub(r"\{([^{}]+)\}", lambda match: say(match[1], system) if match[1] in WORDS else abbr(match[1], system), text)
