"""The stitches that a pattern defines for itself ("Shell: 5 dc in one st"): their names join its vocabulary, with what they are made of."""

from __future__ import annotations

import re
from dataclasses import replace

from ..pattern import Chain, Choice, Make, Place, Span, Special, Step, Together, Trouble
from .abbreviations_told import OWN, abbreviations_told, letters_meant
from .lining.layout import Layout
from .phrases.crossings import crosses, in_sequence
from .rows import Context, Lexicon, read_row
from .shift import placed
from .shown import shown
from .wording.terms import Terms, bare_single_slips, long_treble_stands_higher, single_slips
from .wording.vocabulary import Entry, base_entries

_LINE = re.compile(
    r"(?im)^[ \t*_=#>(•·-]{0,8}(?:special(?:\s(?:st(?:itch)?(?:es)?|abbreviations?))?[*_]{0,3}\s?:[ \t*_]{0,4}|[A-Za-z][A-Za-z' ]{2,40}[*_]{0,3}:[ \t*_]{1,4}(?=[^=\n]{1,40}=))?(?P<name>(?:\d-?\s?)?[A-Za-z][\w' -]{0,38}?)\s?(?:\((?P<abbr>[A-Za-z][\w -]{0,40})\))?[*_=]{0,3}\s?(?P<sep>:|=|--| - )[*_=]{0,3}[ \t]?(?P<what>[^\n]{3,600})"  # noqa: E501
)
_IN_LINE = re.compile(
    r"(?im)(?:^|[;.:]\s{1,3})(?P<name>shell|fan|cluster|puff|popcorn|bobble|v[- ]st)s?\b(?:\sst)?(?P<abbr>)\s?(?P<sep>-{1,2}|=)\s?"
    r"(?P<what>[^;\n]{6,200})"
)
"""A group told in a list of stitches on one line: "s c, the short stitch; fan, 4 d c, 1 ch, 4 d c in one place" (with dashes)."""
_IN_PROSE = re.compile(
    r"(?im)(?:^|[.;:,]\s{1,3})(?:for\s|to\smake\s|by\s)?(?:(?:an?|each|every|the|one)\s)?(?:(?P<abbr>[a-z]{1,3})\.,?\s)?"
    r"(?P<name>shell|fan|cluster|puff|popcorn|bobble|v[- ]st)s?\b(?:\sst(?:itch)?)?"
    r"(?:(?P<listed>,\s|,?\s\(|:\s)(?:(?:work|make)\s)?(?=\d)|,?\s\(?(?P<sep>(?:(?:which|that|this)\s)?(?:(?:is|are)(?:\s(?:meant|made|formed|composed|worked|always))?(?:\s(?:thus|of|by|up\sof|with|as\sfollows))?"
    r"|consist(?:s|ing)?\sof|being|mean(?:s|ing)?|of|work|make))[:,]?\s)"
    r"(?P<what>\d[^;]{3,160}?\b(?:in(?:to)?|under)\s(?:one|(?:the\s)?same|an?|each|any)\s(?:\w+\s)?(?:place|st(?:itch)?|sp(?:ace)?|loop|hole|ch(?:ain)?)\b)"
)
"""A group told in a sentence: "A shell is 3 dc, 2 ch, 3 dc, all in one place", "sh., shell, which is 5 tr in same st"."""
_GROUP = re.compile(
    r"(?im)(?:^|[.;:,(]\s{1,3})(?:(?:an?|each|every|the|one|1)\s)?(?:\d[- ])?(?P<name>groups?|grp?s?)\b\.?"
    r"(?:,?\s?[(=]?\s?(?:groups?|grp?s?)\b\.?\)?)?,?\s?"
    r"(?P<sep>-{1,2}|=|:|\(|(?:is|are|means?|signif(?:y|ies)|consists?|stands?)\b(?:\s(?:made|formed|worked|composed|meant))?"
    r"(?:\s(?:of|by|for|up of|thus))?[:,]?|of)\s?(?P<what>(?:work(?:ing)?\s)?\d[^;.:\n]{1,14}\.?[^;:\n]{0,120}?"
    r"\b(?:in(?:to)?|under|on|over)\s(?:one|(?:the\s)?same|an?|each|any|next)\s(?:\w+\s)?"
    r"(?:place|st(?:itch)?|sp(?:ace)?|loop|lp|hole|ch(?:ain)?|ring|sc|dc|tr|d\.c|s\.c)\b)"
)
"""What a "group" is made of, the plain word for several stitches in one place: "gr., group-3 tr. worked into the same place"."""
_GROUPS = ("group", "groups", "gr", "grs", "grp", "grps")
_GROUP_OF = re.compile(
    r"(?i)\b(?:an?|one|1)\s(?P<name>group|set|pair|scallop)\sof\s(?:\d|two|three|four|five)\s?(?:[shd]{1,2}\s?c|d?\s?tr(?:\s?c)?|trebles?)\s"
    r"(?:in(?:to)?|under)\s(?:the\s|same\s|next\s|each\s|a\s|corner\s|1st\s|first\s|ring\b|ch)"
)
"""A plain word for several stitches that a row says it works, with what it is made of: "a Pair of 2 d c in ring"."""
_NOT_NAMES = re.compile(
    r"(?i)^(?:rows?|rnds?|rounds?|r\d*|note|notes|hook|yarn|gauge|size|sizes|materials|finished|tension|terms|tip|"
    r"step|us|uk|ch|st|sts|sc|dc|hdc|tr|sp|sk|rep|sl st|beg|rem|rs|ws|mc|cc|weight|colou?rs?|supplies|"
    r"level|skill.*|multiple|foundation|next.*|abbreviations|title|pattern|version|row \d.*|blocks?|fringe|base|"
    r"handles?|width|length|center|body|head|.*\brow|.*\brnd|.*round)$"
)
_LONG_NAME = re.compile(r"[a-z][a-z\d' -]{2,40}:\s(?=\S)")
"""What a short form stands for, before what it is made of: "C4 - cable over 4: skip 2 sts, …"."""
_SPELLED = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*|\d+")
"""The words and numbers of a name, as tokens part them: "C4F" is c, 4, f."""
_BEGINS = re.compile(r"^(?:beginning|beg|starting|start)[ -]")
_SKIPPED = re.compile(r"(?i)\b(?:skip|sk|miss)\w*\b.{3,200}\b(?:skipped|missed|unworked)\b")
"""Places passed over and come back to, as in cables."""
SLIPS: Entry = ("st", "sl st")
LONG_TREBLE = (("long", "treble"), ("long", "trebles"), ("long", "tr"), ("l", "tr"), ("ltr",))
KNOT: Entry = ("st", "knot st")
"""The love knot: a long loop closed by a single crochet; where one is told, "knots" are its own."""
_KNOWN = {
    "shell",
    "shells",
    "v-st",
    "v st",
    "v-stitch",
    "cl",
    "cluster",
    "puff",
    "puff st",
    "puff stitch",
    "popcorn",
    "pc",
    "bobble",
    "picot",
    "fan",
    "petal",
    "corner",
    "beg shell",
    "beginning shell",
    "crossed dc",
    "cross st",
}


def lexicon_of(text: str, layout: Layout, terms: Terms, sizes: int, troubles: list[Trouble]) -> Lexicon:
    """A pattern's own words, read from its special-stitch sections and from definitions among its notes."""
    words: dict[tuple[str, ...], Entry] = {}
    specials: dict[str, Special] = {}
    context = Context(terms=terms, sizes=sizes)
    sections = [(a, b, True) for a, b in layout.specials] + [
        (a, b, False) for a, b in _whole(layout.notes, text) if not any(start <= a < end for start, end in layout.specials)
    ]
    rows = " ¦ ".join(text[row.start : row.end] for part in layout.parts for row in part.rows[:200])[:60_000]
    first = min((row.start for part in layout.parts for row in part.rows[:1]), default=0)
    if single_slips(text, terms):
        words.update(dict.fromkeys((("sc",), ("s", "c"), ("single", "crochet"), ("single",)), SLIPS))
    if bare_single_slips(text, terms):
        words[("single",)] = SLIPS
    if long_treble_stands_higher(text, terms):
        words.update(dict.fromkeys(LONG_TREBLE, ("st", "dtr")))
    elif terms == "UK":
        words.update(dict.fromkeys(LONG_TREBLE[-2:], ("st", "dtr")))  # the short form is never that of the old long stitch
    for short, meaning in abbreviations_told(text[: min(first, 20_000)]):
        words.setdefault(short, meaning)
    words.update(letters_meant(text[: min(first, 20_000)], rows))
    for match in _GROUP_OF.finditer(rows):
        name = match["name"].lower()
        if _worked_by_name(name, rows):
            words.update(dict.fromkeys(((name,), (name + "s",)), ("grp", name)))
    asks = _WORKED.search(rows) is not None
    for a, b, sure in sections:
        for match in _LINE.finditer(text[a : min(b, a + 20_000)]):
            _define(match, a, sure, context, words, specials, troubles, rows)
        told = text[a : min(b, a + 20_000)]
        if "group" not in specials and asks and (group := _GROUP.search(told)) is not None:
            _define_group(group, a, context, words, specials)
        for match in (*_IN_LINE.finditer(told), *_IN_PROSE.finditer(told)):
            if match["name"].lower().replace(" ", "-") not in specials:
                _define(match, a, sure, context, words, specials, troubles, rows)
    return Lexicon(tuple(words.items()), tuple(specials.items()))


def _whole(notes: list[tuple[int, int]], text: str) -> list[tuple[int, int]]:
    """The notes, those joined again whose sentence runs on over a line's end ("… all in one / place.")."""
    out: list[tuple[int, int]] = []
    for a, b in notes:
        before = text[out[-1][0] : out[-1][1]].rstrip()[-1:] if out and out[-1][1] == a else "."
        if before not in ".:!?" and text[a : a + 1].islower():
            out[-1] = (out[-1][0], b)
        else:
            out.append((a, b))
    return out


def _define(
    match: re.Match[str],
    offset: int,
    sure: bool,
    context: Context,
    words: dict[tuple[str, ...], Entry],
    specials: dict[str, Special],
    troubles: list[Trouble],
    rows: str,
) -> None:
    name = " ".join(match["name"].replace("*", "").split()).lower().strip()
    abbr = (match["abbr"] or "").lower().strip()
    ring = base_entries().get(_spelled(match["what"]), ("",))[0] == "mring"  # "mc - magic circle"
    if (_NOT_NAMES.match(name) and not ring) or not name:
        return
    base = base_entries()
    keys = [tuple(_SPELLED.findall(one)) for one in (name, abbr) if one]
    if base.get(keys[0]) == KNOT:
        for key in (*keys[1:], ("knot",)):
            words.setdefault(key, KNOT)
            words.setdefault((*key[:-1], key[-1] + "s"), KNOT)
        return
    known = next((base[key] for key in keys if key in base and base[key][0] in ("grp", "inc", "dec")), None)
    if known is None and not _SAME.search(match["what"]) and any(_together(one, context) for one in (name, abbr) if one):
        return  # "sc2tog: insert hook in next st and draw up a loop, twice, …": the craft's own, told once more
    letter = len(name) == 1
    ours = not sure and known is None and not letter and (match["sep"] or "which is") in "=:" and _asked_for(name, rows)
    if ours and (keys[0] not in base or base[keys[0]][0] in _PLAIN_NOUNS) and _own(keys[0], name, match, offset, context, words, specials):
        return
    if known is None and any(key in base for key in keys[:1]) and not letter:
        return
    if known is not None and known[1] != "beg shell" and _BEGINS.match(name):
        return  # "Beg-cl: ch 2, …": a cluster like the others
    if (known is None or letter) and _alias(keys, match, sure or (letter and _asked_for(name, rows)), words, context):
        return
    if letter:
        return
    known_name = known[1] if known else ""
    lexicon = Lexicon(tuple(words.items()), tuple(specials.items()))
    long = _LONG_NAME.match(match["what"])
    begun = match.start("what") + (long.end() if long else 0)
    what = match["what"][long.end() :] if long else match["what"]
    cable = bool(_SKIPPED.search(what))
    if not sure and known is None and name not in _KNOWN and not cable:
        return
    reading = read_row(what, context, lexicon)
    group = _BEGINS.sub("beg ", str(known_name or abbr or name))
    steps = _body(reading.steps) or _body(read_row(re.split(r"\.\s", what)[0], context, lexicon).steps)
    if group in ("inc", "dec"):
        return
    start = offset + match.start()
    if steps:
        moved = placed(offset + begun, 0)
        steps = moved(steps)
    if known is None and not sure and not (steps and (name in _KNOWN or crosses(steps))):
        return
    if known is None:
        for key in keys:
            words[key] = ("grp", group)
            plural = (*key[:-1], key[-1] + "s")
            words.setdefault(plural, ("grp", group))
    if group in specials and steps and specials[group].steps and shown(steps) != shown(specials[group].steps):
        span = Span(start, offset + match.end())
        message = f"'{group}' is told twice, as {shown(specials[group].steps)} and as {shown(steps)}"
        troubles.append(Trouble(kind="word-with-two-meanings", span=span, message=message, data={"word": group}))
    if group not in specials:
        specials[group] = Special(name=group, steps=steps, counts=_counts(steps), span=Span(start, offset + match.end()))


_WORKED = re.compile(r"(?i)(?:(?:\d|\ban?|\bone)\s|[,;:*(]\s?)(?:gro?u?ps?|gr)\b\.?\s(?:in(?:to)?|under|over|on)\b")
"""Rows that work groups, and do not only speak of them."""


def _define_group(
    match: re.Match[str], offset: int, context: Context, words: dict[tuple[str, ...], Entry], specials: dict[str, Special]
) -> None:
    """The word and its short forms become the name of what is told."""
    steps = _body(read_row(match["what"], context, Lexicon(tuple(words.items()), tuple(specials.items()))).steps)
    if not steps:
        return
    for spelling in _GROUPS:
        words[(spelling,)] = ("grp", "group")
    steps = placed(offset + match.start("what"), 0)(steps)
    specials["group"] = Special(name="group", steps=steps, counts=_counts(steps), span=Span(offset + match.start(), offset + match.end()))


_PLAIN_NOUNS = frozenset(("side", "sp", "corner", "mesh", "noun", "end", "base", "top"))
"""Words of the craft that name no stitch; a pattern may call one of its own so ("Edge = single crochet through both loops")."""


_SAME = re.compile(r"(?i)\bsame\b")
"""What makes stitches worked together a cluster of its own: they stand in one place."""


def _together(name: str, context: Context) -> bool:
    """Whether a name is that of stitches worked together, each in the next place: "sc2tog", "half double crochet 2 together"."""
    steps = read_row(name, context, Lexicon()).steps if "tog" in name else ()
    return len(steps) == 1 and isinstance(steps[0], Make) and steps[0].closes > 1


def _asked_for(name: str, rows: str) -> bool:
    """Whether the rows ask for it by its name alone, between two commas or behind a number."""
    item = rf"(?i)(?:[,:\[(*¦.-]|\d)\s{{0,3}}{re.escape(name)}s?\s{{0,2}}(?=[,.;\])*¦]|$)"
    return len(re.findall(item, rows)) > 1


def _worked_by_name(name: str, rows: str) -> bool:
    """Whether rows work a group by its name alone: "a Pair in next sp", "[a Pair, ch 2, a Pair] in corner"."""
    return (
        re.search(rf"(?i)(?:[,;:*\[(]\s?|\b(?:work|more)\s)(?:(?:an?|one|\d)\s)?(?:more\s)?{name}s?(?=\sin(?:to)?\s|,\sch\b|\])", rows)
        is not None
    )


def _own(
    key: tuple[str, ...],
    name: str,
    match: re.Match[str],
    offset: int,
    context: Context,
    words: dict[tuple[str, ...], Entry],
    specials: dict[str, Special],
) -> bool:
    """A stitch of the pattern's own, told in its key and asked for in its rows: one plain stitch, a group in one place, or steps in a row
    ("beg sp = ch 5, turn, skip 2 sts, dc in next dc"). True when it was understood and taken."""
    lexicon = Lexicon(tuple(words.items()), tuple(specials.items()))
    for what in (match["what"], re.split(r"\.\s", match["what"])[0], re.split(r"\.\s|\(", match["what"])[0]):
        steps = read_row(what, context, lexicon).steps
        kept = tuple(step for step in steps if type(step).__name__ not in ("Aside", "Colour"))
        if kept and not any(type(step).__name__ == "Unread" for step in kept):
            break
    else:
        return False
    one = _one_stitch(kept)
    if one is not None:
        words[key] = one
        return True
    body = kept if in_sequence(kept) else _body(kept)
    if not body:
        return False
    words[key] = ("grp", name)
    words.setdefault((*key[:-1], key[-1] + "s"), ("grp", name))
    moved = placed(offset + match.start("what"), 0)
    span = Span(offset + match.start(), offset + match.end())
    specials[name] = Special(name=name, steps=moved(body), counts=_counts(body), span=span)
    return True


def _alias(keys: list[tuple[str, ...]], match: re.Match[str], sure: bool, words: dict[tuple[str, ...], Entry], context: Context) -> bool:
    """A name for what the craft knows ("MC: magic circle", "X = single crochet") or for a stitch of its own that is one plain stitch
    ("mdc (mosaic double crochet): dc in the stitch 2 rows below …"): taken as that. True when so taken."""
    base = base_entries()
    meaning = _spelled(match["what"])
    entry = base.get(meaning)
    if entry is None:
        told = [key for key in (*keys, meaning) if len(key) > 1]
        entry = next((found for key in told if (found := _last_words(key)) is not None), None)
        if entry is None and sure and context.terms == "US" and len(keys[0]) == 1:
            known = Lexicon(tuple(words.items()))
            clauses = (
                match["what"],
                *re.split(r"[,;.(]\s?", match["what"]),
            )
            entry = next((one for clause in clauses if (one := _one_stitch(read_row(clause, context, known).steps)) is not None), None)
    if entry is None or entry[0] not in ("st", "mring", "inc", "dec", "sp", "skip"):
        return False
    for key in keys:
        letter = len(key) == 1 and len(key[0]) == 1
        if (letter and entry[0] in ("st", "inc", "dec") and match["name"].strip("* ").isupper()) or (not letter and key not in base):
            words.setdefault(key, entry)
    return True


def _spelled(what: str) -> tuple[str, ...]:
    return tuple(re.split(r"[.;(,]", what)[0].lower().replace("-", " ").replace("*", "").split())


def _last_words(key: tuple[str, ...]) -> Entry | None:
    """The stitch that a name of several words ends in ("mosaic double crochet", "linked treble")."""
    base = base_entries()
    for k in range(1, len(key)):
        entry = base.get(key[k:])
        if entry is not None and entry[0] == "st":
            return entry if all(word in OWN for word in key[:k]) else None
    return None


def _one_stitch(steps: tuple[Step, ...]) -> Entry | None:
    """The stitch of a definition that makes one, wherever it goes ("dc in the front loop 2 rows below, skip the st behind")."""
    made = [step for step in steps if isinstance(step, (Make, Together))]
    others = all(type(step).__name__ in ("Make", "Skip", "Aside") for step in steps)
    if len(made) != 1 or not others or not isinstance(made[0], Make) or made[0].closes != 1 or made[0].each.values != (1,):
        return None
    return ("st", made[0].stitch) if made[0].places != "rest" and made[0].places.values == (1,) else None


def _body(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The stitches of a group, all of them in its one place; () when the words were not wholly read."""
    if any(type(step).__name__ == "Unread" for step in steps):
        return ()
    kept = [step for step in steps if type(step).__name__ not in ("Aside", "Colour")]
    if len(kept) == 1 and isinstance(kept[0], Choice):
        kept = list(kept[0].answers[0])  # "3 dc, ch 1, 3 dc in same st", told of a group: all of it there
    if len(kept) == 1 and isinstance(kept[0], Together):
        return tuple(_here(step) for step in kept[0].body)
    if crosses(kept):
        return tuple(kept)
    if not kept or not all(isinstance(step, (Make, Chain, Together)) or type(step).__name__ in ("Skip", "Repeat") for step in kept):
        return ()
    return tuple(_here(step) for step in kept)


def _here(step: Step) -> Step:
    """Its place is the group's place."""
    if (
        isinstance(step, Make)
        and step.at.where in ("next", "same")
        and step.places != "rest"
        and step.at.what in ("st", "ch", "sp", "ring")
        and step.at.loop == "both"
    ):
        if step.each.values == (1,) and step.places.values != (1,):
            return replace(step, each=step.places, places=step.each, at=Place(where="same"))
        return replace(step, at=Place(where="same"))
    return step


def _counts(steps: tuple[Step, ...]) -> int:
    return sum(step.each.values[0] or 1 for step in steps if isinstance(step, Make)) or 1
