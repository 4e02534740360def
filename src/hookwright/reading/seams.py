"""How pieces are put together: sentences of sewing, seaming and joining motifs → `Seam`.

"Join 12 squares in 4 rows of 3", "whipstitch Back to Front along the shoulders", "sew bottom to body", "fold in half and sew the sides",
"sew the short ends together". A sentence that says that something is joined, but not what shape that gives, is kept in words ("told").
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from ..pattern import Seam, SeamKind, Span

_NUMBERS: Final = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen",
    "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
_WORDS: Final = {word: n for n, word in enumerate(_NUMBERS, start=1)}
_N = r"(\d{1,4}|" + "|".join(sorted(_WORDS, key=len, reverse=True)) + r")"
_MOTIF = (
    r"(?:(?:granny|corner|half)\s)?(?:squares|motifs|blocks|hexagons|octagons|grannies|triangles|pieces|strips|panels|medallions|circles|"
    r"rounds|tiles|wheels|flowers|rosettes)"
)
_SEWN = (
    r"(?:hand[\s-]?)?(?:sew|sewn|sewing|stitch|whip[\s-]?stitch\w*|mattress[\s-]?stitch\w*|graft|seam|seaming|slip[\s-]?stitch|sl st|"
    r"crochet|sc|join|joining)"
)
_VERB: Final = re.compile(
    rf"\b(?:sew|sewn|sewing|whip[\s-]?stitch\w*|mattress[\s-]?stitch\w*|graft|(?<=and )seam|(?<=then )seam|^\W*seam|seaming"
    rf"|(?:set(?:ting)? in|insert(?:ing)?) (?:the )?sleeves?|joining (?:the )?{_MOTIF}"
    rf"|(?<!not )(?<!n't )(?<!n’t )(?:join|crochet|slip[\s-]?stitch|sl st|sc)\b(?! in )[^.;]{{0,60}}?\b(?:{_MOTIF}|together|seams?)"
    rf"|fold\b[^.;]{{0,80}}|arrange\b[^.;]{{0,40}}\b{_MOTIF}|{_N}\srows\sof\s{_N}\s{_MOTIF})\b",
    re.I,
)
_SENTENCE = re.compile(r"[^.;!?\n]+(?:\.(?=\d)[^.;!?\n]+|\n(?!\s*\n|[#*\-])[^.;!?\n]+)*")
_LAYOUT = (
    re.compile(rf"\b{_N}\s(?:horizontal\s|vertical\s|long\s)?rows?\s(?:of|with)\s{_N}\b", re.I),
    re.compile(rf"\b{_N}\s(?:{_MOTIF}\s)?(?:wide|across)\b[^.;]{{0,12}}?\b{_N}\s(?:{_MOTIF}\s)?(?:long|high|down|deep|tall)", re.I),
    re.compile(rf"\b{_N}\s?(?:x|×|by)\s?{_N}\b(?=\s(?:{_MOTIF}|grid|layout|arrangement))|(?<=grid\sof\s){_N}\s?(?:x|×|by)\s?{_N}\b", re.I),
)
_ON_ROW = re.compile(rf"\b{_N}\s{_MOTIF}\s(?:on|in|per|to)\s(?:a|each|the|one|every)?\s?row\b", re.I)
_IN_ROWS = re.compile(rf"\bin(?:to)?\s{_N}\s(?:rows|strips)\b", re.I)
_STRIPS = re.compile(rf"\bstrips\sof\s{_N}\b", re.I)
_TOTAL = re.compile(rf"\b{_N}\s(?:[a-z]+\s){{0,2}}?{_MOTIF}\b", re.I)
_EDGES: Final = (
    (
        "sides",
        r"(?<!short )(?<!narrow )(?<!long )(?<!three )(?<!3 )(?<!four )(?<!all )\bsides?\b"
        r"(?!\s(?:up|out|in|down|facing|of the (?:work|fabric)))"
        r"|\bside (?:edges?|seams?)\b",
    ),
    ("shoulders", r"\bshoulders?\b"),
    ("bottom", r"\b(?:bottom|lower)\s(?:edges?|seams?)\b|\band (?:the )?bottom\b|\balong (?:the )?bottom\b"),
    ("top", r"\b(?:top|upper)\s(?:edges?|seams?)\b|\balong (?:the )?top\b"),
    (
        "ends",
        r"\b(?:short|narrow)\s(?:ends|edges|sides)\b|\b(?:two|both|the)\sends\b|\bends\stogether\b"
        r"|\bfirst\s(?:row\s)?(?:and|to)\s(?:the\s)?last\b",
    ),
    ("long edges", r"\blong\s(?:edges|sides|ends)\b|\bback seam\b|\bcent(?:er|re) back\b"),
    ("three sides", r"\b(?:three|3)\s(?:sides|edges)\b"),
    ("all round", r"\ball (?:the way )?(?:a?round)\b|\b(?:four|4|all)\s(?:sides|edges)\b|\baround (?:the )?(?:edges?|outside)\b"),
    ("lengthwise", r"\blengthwise\b|\blengthways\b"),
)  # fmt: skip
_EDGE = [(name, re.compile(pattern, re.I)) for name, pattern in _EDGES]
_RIGHT_SIDES = re.compile(
    r"\b(?:right|wrong)\s+sides?\b|\b(?:rs|ws)\b(?:\sside)?|\bon (?:the )?(?:inside|outside)\b|\bside by side\b", re.I
)
_TUBE = re.compile(r"\b(?:into|to (?:form|make)|forming)\s(?:an?\s)?(?:tube|ring|loop|cowl|circle)\b", re.I)
_BASE = re.compile(r"\b(?:bottom|base|sole|lid)\b(?!\s(?:edge|seam|loop|of|row))", re.I)
_ON = re.compile(r"\b(?:to|on|onto|inside|in|at|over|into|between)\b", re.I)
_HOW = (
    ("whipstitch", r"whip[\s-]?stitch"), ("mattress stitch", r"mattress"), ("sl st", r"\bsl st\b|slip[\s-]?stitch"),
    ("sc", r"\b(?:with|in|using|a|by|row of)\s+sc\b|\bsc\s(?:them|together)|single crochet|\bcrochet\b(?!\sthread)"),
)  # fmt: skip
_ROW_EDGES: Final = (
    ("last", r"\b(?:last|final)\s(?:row|round|rnd)s?\b|\b(?:top|upper)(?:\s(?:edges?|rows?|rim))?\b"),
    ("first", r"\bfirst\s(?:row|round|rnd)s?\b|\b(?:bottom|lower)(?:\s(?:edges?|rows?))?\b|\b(?:foundation|starting|beginning)\b"),
    ("side", r"(?<!three )(?<!3 )(?<!four )(?<!all )(?<!short )(?<!narrow )(?<!long )\bside(?:s|\sedges?|\sseams?)?\b"),
)
_EASED = re.compile(
    r"\beas(?:e|ed|ing)\b|\bgather\w*|\bstretch\w*|\bpleat\w*|\bleav(?:e|ing)\b|\bskip\w*|\bbetween\b|\bfrom\b|\bmarkers?\b"
    r"|\bmatching\b|\bcent(?:er|re)\w*\b|\bexcess\b|\boverlap\w*|\bextra\b",
    re.I,
)
_NOT = re.compile(
    r"\bleav(?:e|ing)\b[^.;]*\bfor sew\w*|\bsewing (?:thread|needle|machine)\b|\bseam(?:less|s? allowance)\b|\bto be sewn\b"
    r"|\b(?:join|joining|close)\s(?:(?:all|each|every|these|your|the)\s){0,2}rounds\s(?:with|by|using|in|to)\s"
    r"|\bneedle for\b|\btail (?:for|to)\b[^.;]*\bsew\w*",
    re.I,
)
_INSTRUCTS = re.compile(
    rf"\s*[*_•·-]*\s*(?:(?:to\s)?(?:assemble|finish|join)\s*:\s*)?(?:(?:with|using)\s[^,.]{{1,60}},\s)?"
    rf"(?:then\s|now\s)?(?:{_SEWN}\s(?:the\s|all\s|your\s)?(?:{_N}\s)?(?:[a-z]+\s){{0,2}}?{_MOTIF}\b(?!\s?[:=]))",
    re.I,
)  # fmt: skip


_GLOSSARY: Final = re.compile(
    r"(?m)^\W*(?:[a-z][\w/' -]{0,24}:\s|[A-Za-z][\w/' -]{0,30}\s?\([A-Za-z ]{1,8}\)\s?[:=–-]\s|[A-Za-z][\w/' -]{0,24}\s?=\s?(?!\d)"
    r"|(?i:abbreviations?|stitch key)\b)[^\n]*"
)
"""A line that tells what a word means ("whipstitch (ws): join two edges by sewing"): it joins nothing."""


def joins_pieces(text: str) -> bool:
    """Whether a paragraph begins by telling how pieces are joined ("Join the squares in 4 rows of 3"): prose, no row of stitches.

    >>> joins_pieces("Join 12 squares in 4 rows of 3."), joins_pieces("Join with sl st in first sc.")
    (True, False)
    """
    return bool(_INSTRUCTS.match(text))


def seams_of(pieces: Iterable[tuple[str, Span]], parts: Sequence[str]) -> tuple[Seam, ...]:
    """Every joining that the pieces of prose tell, in order. `pieces`: (text, its place); `parts`: the names of the pattern's parts."""
    found: dict[Span, Seam] = {}
    for text, at in pieces:
        whole = len(text) == at.end - at.start
        text = _GLOSSARY.sub(lambda line: "." * len(line[0]), text)
        if not _VERB.search(text):
            continue
        for sentence in _SENTENCE.finditer(text):
            words = sentence[0]
            if _VERB.search(words) and not (_NOT.search(words) and not re.search(r"\btogether\b", words, re.I)):
                span = Span(at.start + sentence.start(), at.start + sentence.end()) if whole else at
                for seam in _read(" ".join(words.split()), parts, span):
                    found[Span(span.start, span.end + len(found) * (not whole))] = seam
    return tuple(_completed(list(found.values())))


def _read(words: str, parts: Sequence[str], span: Span) -> Iterator[Seam]:
    """The seam of one sentence."""
    plain = _RIGHT_SIDES.sub(" ", words)
    named, how = _named(words, parts), _how(words)
    edges = tuple(name for name, pattern in _EDGE if pattern.search(plain))
    rows, across, total = _laid_out(words)
    yield Seam(
        words=words.strip(" *_#:"), kind=_kind(words, named, edges, rows, total), parts=named, edges=edges, rows=rows, across=across,
        number=total, how=how, meets=_meets(plain, named), eased=bool(_EASED.search(plain)), span=span,
    )  # fmt: skip


def _meets(words: str, named: Sequence[str]) -> tuple[str, ...]:
    """Which edge of each of two pieces is joined; none where the sentence leaves it open.

    >>> _meets("Sew the top of Back to the bottom of Front", ["Back", "Front"])
    ('last', 'first')
    >>> _meets("Sew Back to Front along the last rows", ["Back", "Front"])
    ('last', 'last')
    """
    if len(named) != 2 or re.search(r"\bfold", words, re.I):
        return ()
    told = {edge for edge, pattern in _ROW_EDGES if re.search(pattern, words, re.I)}
    if len(told) == 1:
        return (*told, *told)
    own = []
    for name in named:
        of = rf"\s(?:of|on)\s(?:the\s)?{re.escape(name)}"
        own += [edge for edge, pattern in _ROW_EDGES if re.search(rf"(?:{pattern}){of}", words, re.I)][:1]
    return tuple(own) if len(own) == 2 else ()


def _kind(words: str, named: Sequence[str], edges: Sequence[str], rows: int | None, total: int | None) -> SeamKind:
    low = words.lower()
    several = bool(re.search(rf"\b{_MOTIF}\b", low)) and not re.search(r"\b(?:back|front|both|two|2) pieces\b", low)
    if rows is not None or (several and (total or 3) > 2 and not edges):
        return "motifs"
    if re.search(r"\bfold(?:ed)?\b", low):
        return "fold" if edges or re.search(r"\bin half\b|\bdouble\b", low) else "told"
    if _BASE.search(low) and re.search(r"\bto\b|\bonto\b", low):
        return "base"
    if _TUBE.search(low) or (set(edges) & {"ends", "long edges"} and len(named) < 2):
        return "tube"
    if edges and not (named and set(edges) <= {"top", "bottom"} and not re.search(r"\btogether\b|\bseam", low)):
        return "edges"
    if len(named) >= 2 and re.search(r"\btogether\b|\band\b", low):
        return "edges"
    return "attached" if named and _ON.search(low) else "told"


def _named(words: str, parts: Sequence[str]) -> tuple[str, ...]:
    """The parts that a sentence names, in the order it names them, each once; the plural of a name counts as the name."""
    found: list[tuple[int, str]] = []
    for name in dict.fromkeys(parts):
        if len(name) < 2:
            continue
        match = re.search(rf"(?<!\w){re.escape(name)}(?:e?s)?(?!\w)", words, re.I)
        if match is None and name.lower().endswith("s"):
            match = re.search(rf"(?<!\w){re.escape(name[:-1])}(?!\w)", words, re.I)
        if match is not None:
            found.append((match.start(), name))
    return tuple(name for _, name in sorted(found))


def _how(words: str) -> str:
    return next((how for how, pattern in _HOW if re.search(pattern, words, re.I)), "sewn")


def _laid_out(words: str) -> tuple[int | None, int | None, int | None]:
    """(rows, motifs in a row, motifs in all) as far as they are told or follow from each other."""
    rows, across = _layout(words)
    total = _number(_TOTAL.search(words))
    if (rows and across) or total in (rows, across):
        return rows, across, total if total not in (rows, across) else None
    if total and across and total % across == 0:
        return total // across, across, total
    if total and rows and total % rows == 0:
        return rows, total // rows, total
    return rows, across, total


def _layout(words: str) -> tuple[int | None, int | None]:
    """(rows, motifs in a row) as far as they are told."""
    for k, pattern in enumerate(_LAYOUT):
        match = pattern.search(words)
        if match is not None:
            a, b = (_value(group) for group in [group for group in match.groups() if group][:2])
            return (a, b) if k == 0 else (b, a)
    on_row = _ON_ROW.search(words)
    if on_row is not None:
        return (None, _number(on_row))
    into, strips = _IN_ROWS.search(words), _STRIPS.search(words)
    if strips is not None:
        return (_number(into), _number(strips))
    return (_number(into), None)


def _number(match: re.Match[str] | None) -> int | None:
    return None if match is None else _value(match[1])


def _value(word: str) -> int:
    return int(word) if word.isdigit() else _WORDS[word.lower()]


def _completed(seams: list[Seam]) -> list[Seam]:
    """Seams without those that only say again, in other words, that motifs are joined which were laid out already."""
    laid_out = any(seam.kind == "motifs" and seam.rows for seam in seams)
    return [seam for seam in seams if not (laid_out and seam.kind == "motifs" and not seam.rows and not seam.parts)]


__all__ = ["joins_pieces", "seams_of"]
