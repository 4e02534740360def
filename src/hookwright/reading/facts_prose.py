"""Facts from prose lines: "Gauge: 14 dc and 7 rows = 10 cm", "Hook: 5 mm", "Finished size 8 x 8 in", "A: 200 m / 100 g"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from ..pattern import Facts, FinishedSize, Gauge, Span, Yarn
from ..trade import hooks, units
from ..trade.kinds import base
from .facts_motif import bare_size, motif_cm
from .wording.terms import Terms, us_id

_MOST = 20_000
"""Characters of prose that are searched: facts stand near the top or in notes."""
_GAUGE = re.compile(r"\b(?:gauge|tension)\b[^\n]{0,12}?[:=.…\-–—]*", re.I)
_AFTER = r"(?=\s*(?:,|;|and\b|&|x\b|×|\+|/|by\b|=|to\b|make|over|in\b|per|measur|equal|\())"
_PAIR = re.compile(rf"({units.NUMBER})\s*(?P<noun>[A-Za-z][A-Za-z .\-]{{0,22}}?){_AFTER}", re.I)
_HOOK = re.compile(r"\b(?:crochet\s+)?hooks?\b", re.I)
_MM = re.compile(r"\b(\d{1,2}(?:[.,]\d{1,2})?)[ \u00a0]?mm\b", re.I)
_LETTER = re.compile(r"\b(?:size\s+|US\s+)?([B-S])(?:[\-/ ]?(\d{1,2}(?:[ \-]?1/2|½)?))?(?![A-Za-z'’])")
_SIZE = re.compile(
    r"\b(?:finished|final|completed|approximate)?\s*(?:size|measurements?|dimensions?)\b[^\n:=]{0,30}[:=\-–—]?|\bmeasures?\b", re.I
)
_YARN_LINE = re.compile(r"\b(?:yarn|ball|skein|wool|cotton|thread|hank|materials?)s?\b|^\s*(?:colou?r\s+)?[A-H]\s*[:=(]", re.I | re.M)
_LETTERED = re.compile(
    r"^\s*[*•\-]?\s*(?:(?:main\s+)?(?:yarn|colou?r)\s+)?(?P<id>[A-H]|MC|CC)\s*[:=(\-–]\s*(?P<name>[^\n(;,:]{0,40})", re.M
)


def prose_facts(text: str, spans: Sequence[tuple[int, int]], terms: Terms) -> Facts:
    """What the prose pieces of a text tell; keys not told are left empty. `spans` are the pieces set aside from the rows."""
    gauges: list[Gauge] = []
    finished: tuple[FinishedSize, ...] = ()
    hook: float | None = None
    motif: float | None = None
    yarns: dict[str, Yarn] = {}
    places: dict[str, Span] = {}
    left = _MOST
    for start, end in spans:
        piece = text[start : min(end, start + left)]
        left -= len(piece)
        if left <= 0:
            break
        for span, gauge in _gauges(piece, terms):
            places.setdefault(f"gauge.{len(gauges)}", _moved(span, start))
            gauges.append(gauge)
        for span, across in _motifs(piece, terms) if motif is None else ():
            motif, places["motif"] = across, _moved(span, start)
        for span, size in _hook(piece) if hook is None else ():
            hook, places["hook"] = size, _moved(span, start)
        for span, sides in _finished(piece) if not finished else ():
            finished, places["finished"] = sides, _moved(span, start)
        for span, yarn in _yarns(piece):
            if yarn.id not in yarns:
                yarns[yarn.id], places[f"yarns.{yarn.id}"] = yarn, _moved(span, start)
    finished = finished or bare_size(text, spans)
    return Facts(gauge=tuple(gauges), finished=finished, motif_cm=motif, hook_mm=hook, yarns=yarns, spans=places)


def _moved(span: Span, by: int) -> Span:
    return Span(span.start + by, span.end + by)


def _gauges(piece: str, terms: Terms) -> Iterator[tuple[Span, Gauge]]:
    for told in _GAUGE.finditer(piece):
        window = piece[told.end() : told.end() + 220]
        window = re.split(r"\n\s*\n|\n#", window)[0]
        gauge = gauge_told(window, terms)
        if gauge is not None:
            yield Span(told.start(), told.end() + len(window.rstrip())), gauge


def _motifs(piece: str, terms: Terms) -> Iterator[tuple[Span, float]]:
    """A motif's size, where it stands for a gauge."""
    for told in _GAUGE.finditer(piece):
        window = re.split(r"\n\s*\n|\n#", piece[told.end() : told.end() + 160])[0]
        across = motif_cm(window) if gauge_told(window, terms) is None else None
        if across is not None:
            yield Span(told.start(), told.end() + len(window.rstrip())), across


@lru_cache(maxsize=256)
def gauge_told(window: str, terms: Terms) -> Gauge | None:
    """The gauge that words tell ("18 sts and 20 rows = 10 cm in sc"); None where they tell none."""
    measures = units.find(window)
    lengths = [(a, b, m) for a, b, m in measures if m.dimension == "length" and m.unit != "mm"]
    if not lengths:
        return None
    stitches: tuple[float, str, float] | None = None
    rows: tuple[float, float] | None = None
    for match in _PAIR.finditer(window):
        number = units.parse_number(match[1])
        noun = match["noun"].strip().lower().rstrip(".")
        after = next((m for a, _, m in lengths if a >= match.end()), lengths[-1][2])
        over = float(after.to("cm").number)
        if number is None or not 0 < number < 500 or units.unit_of(noun) or over <= 0:
            continue
        if re.match(r"(?:rows?|rnds?|rounds?)\b", noun):
            rows = rows or (float(number), over)
        elif stitches is None:
            kind = _stitch(noun, terms)
            if kind:
                stitches = (float(number), kind, over)
    if stitches is None:
        return None
    worked, kind, over = stitches
    if kind == "st":
        named = re.search(r"\bin\s+(?:pattern\s+of\s+)?([a-z]{2,3})\b", window, re.I)
        kind = us_id(named[1].lower(), terms) if named and _stitch(named[1].lower(), terms) else "st"
    same = rows is None or abs(rows[1] - over) < 0.01
    return Gauge(
        stitch=kind, stitches=worked, rows=rows[0] if rows else None, over_cm=over, over_rows_cm=None if same or rows is None else rows[1]
    )


def _stitch(noun: str, terms: Terms) -> str | None:
    words = noun.replace(".", " ").replace("-", " ").split()
    if not words:
        return None
    if words[0] in ("st", "sts", "stitch", "stitches"):
        return "st"
    joined = "".join(words[:2]) if len(words[0]) == 1 else words[0]
    kind = us_id(joined.removesuffix("s") if joined not in ("sts",) else "st", terms)
    return kind if base(kind) in ("sc", "hdc", "dc", "tr", "dtr", "esc", "edc") else None


def _hook(piece: str) -> Iterator[tuple[Span, float]]:
    for told in _HOOK.finditer(piece):
        a, b = max(0, told.start() - 30), min(len(piece), told.end() + 40)
        a = max(a, piece.rfind("\n", 0, told.start()) + 1)
        stop = piece.find("\n", told.end())
        b = min(b, stop if stop != -1 else b)
        window = piece[a:b]
        mm = _MM.search(window)
        if mm:
            size = float(mm[1].replace(",", "."))
            if 0.4 <= size <= 40:
                yield Span(a + mm.start(), a + mm.end()), size
                return
        for letter in _LETTER.finditer(window):
            found = hooks.named(letter[0])
            if found:
                yield Span(a + letter.start(), a + letter.end()), found[0].mm
                return


def _finished(piece: str) -> Iterator[tuple[Span, tuple[FinishedSize, ...]]]:
    for told in _SIZE.finditer(piece):
        if _GAUGE.search(piece, piece.rfind("\n", 0, told.start()) + 1, told.start()):
            continue  # "gauge: each motif measures 4 inches" tells no finished size
        stop = piece.find("\n", told.end())
        end = stop if stop != -1 else len(piece)
        window = piece[told.end() : min(end, told.end() + 120)]
        sides = _sides(window)
        if sides:
            yield Span(told.start(), told.end() + len(window.rstrip())), sides
            return


@lru_cache(maxsize=256)
def _sides(window: str) -> tuple[FinishedSize, ...]:
    lengths = [(a, b, m) for a, b, m in units.find(window) if m.dimension == "length" and m.unit != "mm"]
    if not lengths or lengths[0][0] > 60:
        return ()
    bare = re.search(rf"({units.NUMBER})\s*(?:x|×|by)\s*({units.NUMBER})\s*(in|inch|inches|cm|\"|″|”)", window, re.I)
    if bare:
        unit = units.unit_of(bare[3]) or "in"
        numbers = [units.parse_number(bare[1]), units.parse_number(bare[2])]
        if all(numbers):
            a, b = (float(units.Amount(n, unit).to("cm").number) for n in numbers if n is not None)
            return (FinishedSize(what="width", cm=(a,)), FinishedSize(what="length", cm=(b,)))
    first = float(lengths[0][2].to("cm").number)
    if re.search(r"diamet|across", window, re.I):
        return (FinishedSize(what="diameter", cm=(first,)),)
    if len(lengths) > 1 and re.search(r"\b(?:x|×|by|wide|long)\b|×", window, re.I) and lengths[0][2].unit == lengths[1][2].unit:
        return (FinishedSize(what="width", cm=(first,)), FinishedSize(what="length", cm=(float(lengths[1][2].to("cm").number),)))
    return ()


def _yarns(piece: str) -> Iterator[tuple[Span, Yarn]]:
    for told in _LETTERED.finditer(piece):
        stop = piece.find("\n", told.end())
        end = stop if stop != -1 else len(piece)
        line = piece[told.start() : min(end, told.start() + 200)]
        length, mass = _ball(line)
        if length or mass:
            name = told["name"].strip(" -–—")
            yield (
                Span(told.start(), told.start() + len(line)),
                Yarn(id=told["id"], name=name, ball_m=length, ball_g=mass),
            )
    if not _YARN_LINE.search(piece):
        return
    for row in re.finditer(r"[^\n]+", piece):
        if not _YARN_LINE.search(row[0]) or _LETTERED.match(row[0]):
            continue
        length, mass = _ball(row[0])
        if length and mass:
            yield Span(row.start(), row.end()), Yarn(id="A", ball_m=length, ball_g=mass)
            return


@lru_cache(maxsize=256)
def _ball(line: str) -> tuple[float | None, float | None]:
    """Metres and grams of one ball told in a line ("236 yd / 215 m, 5 oz / 141 g"): metric figures before converted ones."""
    found = [m for _, _, m in units.find(line)]
    lengths = sorted((m for m in found if m.unit in ("m", "yd")), key=lambda m: m.unit != "m")
    masses = sorted((m for m in found if m.unit in ("g", "oz")), key=lambda m: m.unit != "g")
    length = float(lengths[0].to("m").number) if lengths else None
    mass = float(masses[0].to("g").number) if masses else None
    return (length if length and length > 5 else None), mass or None
