"""What a starting chain counts as, told once for the whole pattern: "Ch 3 counts as dc throughout", "beginning ch 2 does not count"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from ..pattern import Aside, Chain, Colour, Even, Join, Make, Repeat, Step, Together, Turn, slips
from .pieces import remembered
from .wording.terms import Terms, us_id
from .wording.vocabulary import NUMBERS

ANY = 0
"""The key of a rule that names no number of chains."""

_CHAIN = (
    r"(?:(?:the|any|all|each|every|your)\s+)?(?:(?P<which>beg(?:inning|\.)?|turning|starting|start|initial|first|t)[\s-]+)?"
    r"(?:(?P<before>\d)[\s-]?)?(?:ch|chain|tch)(?:s|ains?)?(?:\s?-?\s?(?:of\s)?(?:ch\s)?(?P<number>\d|one|two|three|four|five)(?:\s?s)?)?"
    r"(?P<when>(?:,?\s+(?:at|to|used|made|worked|for|in|of|from|that|which|turn\w*|beg\w*|start\w*|the|each|every|all|a|row|rows|rnd|rnds|round|rounds|and|throughout|here|begin|this|pattern|end|begins?|is|are)\b)*)"
)
_RULE = re.compile(
    rf"(?im)(?<![\w-]){_CHAIN}[,:]?\s+(?:always\s+|will\s+|here\s+and\s+throughout\s+|throughout\s+)*"
    r"(?P<not>(?:does|do|is|are|will|should)\s*(?:not|n['’]t)\s+(?:be\s+)?|doesn['’]?t\s+|don['’]?t\s+|never\s+|not\s+)?"
    r"(?:be\s+)?(?P<says>counts?|counted|counting|stands?|is\s+counted|are\s+counted|equals?|is(?=\s(?:the\s)?(?:first|a|one|1)\s)|for(?=\s(?:the\s)?(?:first|one|1)\s)|=)(?!\s+down)\s*"
    r"(?P<as>(?:as|for|toward|towards|in)?\s*(?:(?:the\s)?first\s(?:[sdh]\.\s?){1,2}c\.)?"
    r"(?:(?!,?\s(?:and\s)?(?:the\s)?ch(?:ain)?[ -]?\d\s(?:[^.,;\n]{1,40}?\s)?(?:counts?|does|stands|is)\b)(?:[^.\n;]|\n(?=[a-z\d]))){0,60})"
)
_STITCH = re.compile(
    r"(?i)\b(h\.?\s?d\.?\s?c|half[ -]double|htr|half[ -]treble|d\.?\s?c|double crochet|sc|single crochet|tr|treble|dtr|stitch|st)\b"
)
_OVER = re.compile(
    r"(?i)(?:\+|,|and|plus|&|with)\s*(?:a\s)?(?:(?P<before>\d|one|two|three)\s)?(?:ch|chain)[\s-]?(?P<after>\d|one|two|three)?"
)
_SPELLED = {"half double": "hdc", "half treble": "htr", "double crochet": "dc", "single crochet": "sc", "treble": "tr"}


@dataclass(frozen=True, slots=True)
class Rule:
    """Whether the chain counts, and as what."""

    counts: bool
    stands: tuple[str, ...] = ()


def starting_rules(pieces: Iterable[str], terms: Terms) -> dict[int, Rule]:
    """The rules told in the notes, by number of chains (0: whatever the number); the first told holds.

    >>> starting_rules(["In every row the ch 5 made in turning is the first d. c. and 2 ch."], "US")
    {5: Rule(counts=True, stands=('dc', 'ch 2'))}

    >>> starting_rules(["Ch 5 to turn at every row for the first d c and 2 ch."], "US")
    {5: Rule(counts=True, stands=('dc', 'ch 2'))}

    >>> starting_rules(["Ch 3 at beg of each row counts as a dc. The turning ch-1 does not count as a stitch."], "US")
    {3: Rule(counts=True, stands=('dc',)), 1: Rule(counts=False, stands=())}
    """
    rules: dict[int, Rule] = {}
    for piece in pieces:
        for match in _RULE.finditer(piece):
            word = match["number"] or match["before"]
            if word is None and not (match["which"] or re.search(r"(?i)turn|beg|start", match["when"])):
                continue
            number = ANY if word is None else NUMBERS.get(word.lower()) or int(word)
            rule = _rule(match, terms)
            if rule is not None:
                rules.setdefault(number, rule)
    return rules


_HOLDS_ON = re.compile(r"(?i)\b(?:here and throughout|now and throughout|throughout|here and on every|from here on|each time|always)\b")


@remembered
def _holds_on(text: str) -> bool:
    return _HOLDS_ON.search(text) is not None


def holding_on(text: str, steps: Iterable[Step]) -> dict[int, Rule]:
    """The rule that a row tells for all rows after it ("ch 3 (counts as first dc here and throughout)")."""
    told = [(step, step.counts) for step in steps if isinstance(step, Chain) and step.counts is not None]
    if not told or not _holds_on(text):
        return {}
    return {
        step.number.values[0] or 0: Rule(counts, step.stands_for) for step, counts in told if not step.foundation and not step.number.many
    }


def _rule(match: re.Match[str], terms: Terms) -> Rule | None:
    if match["not"]:
        return Rule(False)
    told = _STITCH.search(match["as"])
    if told is None:
        return None
    name = re.sub(r"[ -]", " ", told[1].lower())
    name = letters if (letters := re.sub(r"[. ]", "", name)) in ("sc", "dc", "hdc") else name
    stands = "st" if name in ("st", "stitch") else us_id(_SPELLED.get(name, name), terms)
    over = _OVER.search(match["as"])
    many = (over["before"] or over["after"] or "1").lower() if over else ""
    chains = f"ch {NUMBERS.get(many) or int(many)}" if many else ""
    if stands == "st":
        return Rule(True)
    return Rule(True, (stands, chains) if chains else (stands,))


def with_rules(steps: tuple[Step, ...], rules: Mapping[int, Rule]) -> tuple[Step, ...]:
    """The row's steps with what the notes say of the chain it begins with, and of the one it makes for the next row."""
    if not rules:
        return steps
    out = list(steps)
    first = next((k for k, step in enumerate(out) if not isinstance(step, (Aside, Colour, Turn, Join)) and not slips(step)), None)
    if first is not None and isinstance(out[first], Chain):
        out[first] = _told(out[first], rules, _stitch_after(out[first + 1 :]))
    last = next((k for k in range(len(out) - 1, -1, -1) if not isinstance(out[k], (Aside, Turn, Join))), None)
    if last is not None and last != first and isinstance(out[last], Chain) and any(isinstance(step, Turn) for step in out):
        out[last] = _told(out[last], rules, "")
    return tuple(out)


def _told(chain: Step, rules: Mapping[int, Rule], stitch: str) -> Step:
    if not isinstance(chain, Chain) or chain.counts is not None or chain.foundation or chain.number.many:
        return chain
    number = chain.number.values[0] or 0
    rule = rules.get(number) or (rules.get(ANY) if number <= 4 else None)
    if rule is None or (rule.counts and number >= 3 and stitch in ("sc", "sl st")):
        return chain  # a loop to work into, not a stitch
    if rule.stands and stitch and number not in rules and rule.stands[0] != stitch:
        return replace(chain, counts=rule.counts)
    return replace(chain, counts=rule.counts, stands_for=rule.stands)


def _stitch_after(steps: list[Step]) -> str:
    for step in steps:
        if isinstance(step, Make):
            return step.main or step.stitch
        if isinstance(step, (Together, Repeat)):
            return _stitch_after(list(step.body))
        if isinstance(step, Even):
            return step.stitch or ""
    return ""
