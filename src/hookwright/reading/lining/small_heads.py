"""Names of limbs and small parts that head a piece in small letters: "ears (make 2)" before its first round, "leaf: ch 7, …"."""

from __future__ import annotations

import re

_LIMB = (
    r"(?:heads?|body|bodies|ears?|arms?|legs?|tails?|noses?|snout|muzzle|eyes?|eyelids?|cheeks?|wings?|feet|foot|paws?|hooves|hoof|horns?|"
    r"beak|leaf|leaves|stems?|stalks?|hat|scarf|bow|belly|tummy|hair|fins?|flippers?|trunk|mane|tusks?|antennae?|crest|comb|spikes?|spines?|"
    r"wheels?|buttons?|lid|straps?|handles?|brim|crown|cuff|thumb|bottom|top|petals?|spots?|base|sides?|shell|caps?)"
)
_WHICH = r"(?:(?:front|back|left|right|outer|inner|big|small|large|upper|lower|first|second|long|short)\s)?"
_MADE = r"(?:\s?[(\[](?:make\s|x\s?|both|all)?[\w ]{0,12}[)\]]|\s?(?:x\s?\d|\d\s?x)\b|,?\s(?:make\s)?(?:2|4|3|6|8|two|three|four))?"
_HEAD = re.compile(rf"[ \t]{{0,8}}[-*_=]{{0,3}}(?P<name>{_WHICH}{_LIMB})(?P<made>{_MADE})\s?(?P<end>:|-(?=\s)|)[*_=]{{0,3}}")
_FIRST = re.compile(
    r"(?i)[ \t*_=]{0,6}(?:(?:row|rnd|round|rd|r)\s?0?1\b|(?:1st|first)\s(?:row|rnd|round)|1\s?[.):=-]|ch(?:ain)?\s\d|\d{1,3}\s?ch\b|"
    r"(?:in\s(?:a\s)?)?(?:mr|magic)\b|(?:with|using|in)\s[a-z ]{2,20}[:,]?\s*$)"
)
_FOUNDED = re.compile(
    r"(?i)\s*(?:ch(?:ain)?\s?\d{1,3}|\d{1,3}\s?ch(?:ain)?)\b[^\n]{0,60}\b(?:from\s(?:the\s)?hook|join|ring)\b|\s*(?:mr|magic)\b"
)


def small_head(text: str, place: int, end: int) -> re.Match[str] | None:
    """The name that heads a piece on the line from `place` to `end`: alone, before its first round, or with a chain behind it."""
    head = _HEAD.match(text, place, end)
    if head is None:
        return None
    if not text[head.end() : end].strip():
        return head if _FIRST.match(text[end:].lstrip("\n")) else None
    return head if head["end"] and _FOUNDED.match(text, head.end(), end) else None
