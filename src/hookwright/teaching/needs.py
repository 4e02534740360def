"""What one needs, as the pattern tells it: under a heading, line by line with a label, or in sentences of its own."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..pattern import Pattern
from ..trade.terms import kind_of
from ..writing.materials import materials_of

MOST_LINES, LONGEST = 14, 160
"""Things taken at most, and letters of one: more is a story (ours)."""


def needed(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """Pairs of what and which; where the pattern tells its materials in its own words, these (with "" for what) and what they leave out."""
    own = tuple(dict.fromkeys(_own(pattern)))[:MOST_LINES]
    words = " ".join(own).lower()
    for what, which in materials_of(pattern):
        if not own or (what.partition(" ")[0].lower() not in words and what not in ("Notions", "Yarn")):
            yield what, which
    yield from (("", line) for line in own)


_HEAD = re.compile(
    r"(?i)^(?:(?:the |your )?materials?(?: and tools| for [\w ]+)?|supplies|tools and materials"
    r"|(?:for this )?you(?:['’]ll| will)?(?: also)? need|what (?:you need|you['’]ll need|you will need|i used)|i used"
    r"|shopping list|gather)\b(?: list| needed)?\s*[:.]?\s*(?P<rest>.*)$"
)
_LABEL = re.compile(
    r"(?i)^(?P<label>(?:main |contrast(?:ing)? )?(?:yarns?|wool|thread|cotton|colou?rs?|hooks?|needles?|notions|extras?|eyes|buttons?|beads"
    r"|filling|stuffing|haberdashery|accessories|fibre|fiber)|[\w-]+ (?:pad|form|insert|handles?)|MC|CC ?\d?|yarn [A-Z]|colou?r [A-Z])"
    r"\s*(?::|=|\s[–-]\s)\s*(?P<rest>\S.*)$"
)
_OTHER = re.compile(
    r"(?i)^(?:abbreviations?|gauge|tension|notes?|sizes?|finished|(?:US|UK) terms|terms|skill|special|pattern|instructions?|directions?"
    r"|stitch(?:es)? used|difficulty|measurements?|level|techniques?)\b"
)
_KEY = re.compile(r"^(?P<short>[\w*]+(?: ?\w+)?)\s*(?:=|–|\s-\s|:)\s+(?P<rest>\S.*)$")
_FRONT = re.compile(r"\A---\s*\n.*?\n---\s*\n", re.S)
_MARKS = re.compile(r"^\s*(?:[-*+>•]\s+|#+\s+)+|[*_]{2,}")
_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z0-9(])")
_THING = re.compile(
    r"(?i)\b(?:yarns?|wool|cotton|acrylic|linen|alpaca|merino|mohair|bamboo|silk|jute|raffia|chenille|twine|thread|hooks?|dk|worsted|aran"
    r"|chunky|sport(?: weight)?|fingering|lace ?weight|4[- ]?ply|four[- ]ply|bulky"
    r"|tapestry needle|yarn needle|stitch markers?"
    r"|safety eyes|stuffing|toy filling|buttons?|zip|cushion pad|pillow form)\b"
)
_AMOUNT = re.compile(
    r"(?i)(?:\d[\d.,]*|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|half|an?|some|pair))[\s-]*(?:x\s*)?(?:of\s)?"
    r"(?:\d+\s*)?(?:mm|millimet\w+|mil\b|g\b|grams?|oz|ounces?|m\b|met(?:re|er)s?|yds?\b|yards?|balls?|skeins?|hanks?|cones?|scraps?)"
)
_SMALL = re.compile(
    r"(?i)\b(?:tapestry needle|yarn needle|stitch markers?|safety eyes|stuffing|toy filling|buttons?|zip|cushion pad|pillow form|dk|worsted"
    r"|aran|chunky|fingering|4[- ]?ply|four[- ]ply|bulky)\b"
)
_WORK = re.compile(
    r"(?i)\b(?:leave|leaving|cut|tail|fasten|rows?|rounds?|rnds?|sts?|stitches|gauge|tension|turn|work|insert|yarn over|yo|joine?d?"
    r"|chain|ch|if you|change|counts?)\b|\bto 10 ?cm\b"
)


def _own(pattern: Pattern) -> Iterator[str]:
    """The maker's own words for what one needs, in their order, before the first row."""
    rows = [row.span.start for part in pattern.parts for row in part.rows if row.steps]
    listing, taken = False, 0
    for raw in _lines(_FRONT.sub("", pattern.source[: min(rows, default=0)])):
        line = " ".join(_MARKS.sub("", raw).split()).strip("* ")
        line = re.sub(r"(?i)^(?:written in )?(?:US|UK) terms[,;.]?\s*", "", line)
        if not line:
            listing = listing and not (taken and not raw.strip())  # a blank line ends a list that has begun
            continue
        head, label = _HEAD.match(line), _LABEL.match(line)
        if head is not None:
            listing, taken = True, 0
            if head["rest"]:
                taken = 1
                yield from _things(head["rest"])
        elif raw.lstrip().startswith("#") or _OTHER.match(line):
            listing = False
            yield from _prose(line) if not raw.lstrip().startswith("#") else ()
        elif label is not None:
            yield _told(f"{label['label']}: {label['rest']}")
        elif listing and not _short(line):
            taken += 1
            yield from _things(line)
        elif not listing:
            yield from _prose(line)


def _lines(source: str) -> Iterator[str]:
    """Lines, and paragraphs of running text as one."""
    for block in re.split(r"\n\s*\n", source):
        lines = block.splitlines()
        running = len(lines) > 1 and not any(re.match(r"\s*(?:[-*+>•#]|\w[\w ]{0,14}\s*[:=])", line) for line in lines)
        yield from [" ".join(lines)] if running and len(lines[0]) > 60 else lines
        yield ""


def _short(line: str) -> bool:
    """Whether a line explains an abbreviation: "sc = single crochet"; "A = night blue (4 balls)" is a yarn."""
    key = _KEY.match(line)
    if key is None:
        return False
    explained = kind_of(key["rest"].lower().rstrip("."), "US") or kind_of(key["short"].lower(), "US")
    return bool(explained) or (key["short"].islower() and not _THING.search(line))


def _things(line: str) -> Iterator[str]:
    """A line of a list; of a longer one the sentences that tell of things."""
    if len(line) <= LONGEST and not _OTHER.match(line):
        yield _told(line)
    else:
        yield from _prose(line)


def _prose(line: str) -> Iterator[str]:
    """The sentences of running text that tell of yarn, hook or notions with how much or how thick."""
    for sentence in _SENTENCE.split(line):
        tells = _THING.search(sentence) and (_AMOUNT.search(sentence) or (_SMALL.search(sentence) and len(sentence) < 60))
        if tells and len(sentence) <= LONGEST and not _WORK.search(sentence) and not _short(sentence):
            yield _told(sentence)


def _told(line: str) -> str:
    return f"{line[0].upper()}{line[1:]}".rstrip(" .;,")
