"""Where an instruction in running prose begins a row of its own: sentences that repeat, run on, shape, or are headed in capitals."""

from __future__ import annotations

import re

from ..pieces import remembered
from .onward import ONWARD
from .rows_on import PLAIN_ROWS, ROWS_ON

_OFTEN = (
    r"(?:(?:the\s)?\d{1,3}(?:st|nd|rd|th)[\w ,]{0,24}\srows?|(?:rows?|rnds?|rounds?)\s\d{1,3}(?:\s?(?:-|&|and)\s?\d{1,3})?)"
    r"\s(?:once|twice|(?:one|\d+)\s(?:more\s)?times?)"
)
"""Rows named with how often: "(then) 3rd and 4th rows once"."""
# Every form names the sign it begins with first: a search then stops at such signs only, and the words before it are looked at there.
REPEAT = re.compile(
    r"[.;)\],](?:(?<!,)(?<!\brep.)(?<!\brpt.)(?<!\breps.)\s{1,40}|(?<=,)\s(?=then\s(?:(?:one|1|\d)\smore\srow|"
    rf"(?:repeat\s|rep\s|work\s)?{_OFTEN})))(?=(?:then\s+|now\s+)?(?:(?:one|\d+)\smore\srow\b|{_OFTEN}\b|"
    r"(?:repeat|rep|rpt|reps)\.?\s+(?:from\s+)?(?:the\s+|these\s+|this\s+)?(?:in\s+(?:this|the|same)\b|for\s+\d+\s+more\s+r|last\s+(?:\d+\s+|two\s+|three\s+|"
    r"four\s+)?(?:patt?(?:ern|\.)?\s+)?(?:rows?|rounds?|rnds?)|(?:(?:inc|dec)\w*|patt?(?:ern|\.)?)\s+(?:rows?|rnds?|rounds?)\b|rows?\s+\d|rnds?\s+\d|rounds?\s+\d|r\d|these\b|this\b|\d{1,3}(?:st|nd|rd|th|d)\b|"
    r"(?:first|second|third|fourth|fifth|sixth|seventh|eighth|two|three|four)\b[^*]{0,20}\brows?|\d+\s+(?:patt?(?:ern|\.)?\s+)?rows|rows?\b|rounds?\b|(?:until|till?)\s(?:the\s|your\s)?(?:piece|work|strip|it\smeasures|it\sis|desired|required)\b)"
    r"|(?:carry|go)\s+on\s(?:in|like|as|until|to\s+inc|inc|working)\b[^.;]{0,60}\b(?:until|each|every|for)\b|(?:work|(?:go|keep|continue|carry\s+on|go\s+on)(?=\s+straight\s+(?:un)?till?\b|\s+straight\s+for\b))\s+(?:even|straight)\b|work\s+in\s+(?:pat|patt|pattern)\b|continue\s+(?:(?:thus|so|like\sthis)(?!\s(?:around|across|to\s|all|round|along))\b[^.;]{0,120}\b(?:until|for|each|every|having|always|inc\w*|dec\w*)\b|in(?!\s(?:this|that|the\ssame)\s(?:way|manner|fashion)\s(?:all\s(?:the\sway\s)?)?(?:a?round|across|along|to\s(?:the\s)?end)\b)|even|to\s+work|(?:to\s+)?rep(?:eat)?|working|as|until|to\s+inc\w*|to\s+dec\w*|increasing|decreasing)\b|"
    r"proceed\s+(?:with|as|thus|in)\b|(?:continue|carry\s+on|go\s+on)\s+with\s+(?:such|similar|like)\s+rows\b|"
    r"(?:(?:continue|commence|begin|start|proceed|go\s+on)\s+(?:again\s+)?(?:from|at)\s+(?:the\s+)?(?:rows?\s+\d|\d{1,3}(?:st|nd|rd|th|d)\s+row|(?:first|second|third|fourth|fifth|sixth)\s+row))|"
    r"cont\s+(?:in|even|(?:to\s+)?rep|until)\b|these\s+(?:two|2|3|4|three|four)\s+rows\b))",
    re.IGNORECASE,
)
_SO_OFTEN = r"(?:once|twice|thrice|\d+\s(?:more\s)?times|(?:two|three|four|five|six)\s(?:more\s)?times)"
ROWS_AGAIN = re.compile(
    r"(?:(?<=times)|(?<=once)|(?<=twice)|(?<=times more)|(?<=once more))(?:,?\s{1,3}(?:(?:and\s)?then|and)|,)\s{1,3}"
    r"(?=(?:repeat\s|rep\s|work\s)?(?:the\s)?(?:\d{1,3}(?:st|nd|rd|th|d)[\w ,]{0,24}\srows?|"
    r"last\s(?:\w+\s)?rows?)"
    rf"\s(?:more\s)?{_SO_OFTEN}\b)",
    re.IGNORECASE,
)
"""Rows repeated so often, and others so often: "Repeat 2nd and 3rd rows 3 times and 2nd row once"."""
NAMED_ON = re.compile(rf"[.;)\]](?<!\brep.)(?<!\brpt.)(?<!\breps.)\s{{1,40}}(?={ROWS_ON}|{PLAIN_ROWS})", re.IGNORECASE)
"""Rows named and how long, with no verb before them: "Ch 1, turn. Rows 2 and 3 in turn until …"."""
HEADED = re.compile(r"[.;)]\s{1,3}(?=(?!NOTE)[A-Z]{4,}(?:\s[A-Z]{2,}){0,3}\s?:\s+\S)")
_SMALL_PARTS = (
    "Loop|Hanger|Hanging loop|Thumb|Instep|Heel|Toe|Cuff|Band|Neckband|Edge|Edging|Border|Brim|Strap|Straps|Handle|Handles|Tie|Ties|Stem|"
    "Fringe|Collar|Crown|Sides|Ear|Ears|Flap|Belt|Heading|Scallop|Scallops|Finishing|Picot edge|Button loop|Ruffle|Frill|Flounce|"
    r"Tab|Cord|Loops|Opening|Insertion|Beading|(?:[A-Z][a-z]+\s)(?:opening|edge|edging|border|band|trim|loop)|Ribbing|Turning the corner|"
    r"(?:First|Second|Third|Fourth|Little|Ring|Middle|Index)\s[Ff]inger|Neck|Armholes?|Armbands?|Pocket|Top edge|Lining"
)
_HEADED_FOR = r"(?:Divide\s)?[Ff]or\s(?:the\s)?[a-z][a-z ]{2,24}|Shape\s(?:the\s)?[a-z][a-z ]{2,20}"
HEADED_SMALL = re.compile(
    rf"[.;)]\s{{1,3}}(?=(?:(?:{_SMALL_PARTS}|{_HEADED_FOR})\s?:\s+|(?:{_SMALL_PARTS}|Sleeves?|Neck)\s?\.?-{{1,2}}\s?|"
    rf"For\s(?:the\s)?(?:{_SMALL_PARTS.lower()})\b[a-z ]{{0,36}}(?::\s+|\.?-{{1,2}}\s?))[A-Z1-9*(])"
)
"""A small part that is headed in the running text, its name not in capitals."""
SHAPING = re.compile(r"[.;]\s{1,3}(?=(?:then\s|now\s)?(?:keeping\s[\w ]{3,24},\s)?(?:dec|inc|decrease|increase|even)\b)", re.IGNORECASE)

_N = r"(?:\d{1,3}(?:\s?\([\d,\s-]{1,40}\))?|one|two|three|four|five|six|seven|eight|nine|ten|twelve|another|an?)"
RUN = re.compile(
    r"[.;)]\s{1,40}(?=(?:then\s+|now\s+)?(?:work|make|crochet|do|add)\s+(?:for\sthe\s[a-z]+\s)?(?:back\s(?:and|&)\sforth|backwards?\sand\sforwards?|to\sand\sfro\b|"
    r"(?:even|around|round|in\srows|in\srounds)\b|on\s(?:these|the|those)\b|on\s\d+\s|"
    rf"(?:a\sfurther\s)?{_N}\s(?:(?:more|complete|plain|full|whole|entire|additional|straight)\s){{0,2}}(?:rows?|rnds?|rounds?|rds?)\b|an?\s(?:second|third|further|final|last)\s(?:row|rnd|round)\sof\b|in\s(?:s\s?c|d\s?c|h\s?d\s?c|tr\s?c?|single|double|treble|half|afghan\sst(?:itch)?|tunisian)\b)"
    r"|with\s(?:1|one|the\slast)\sl(?:oo)?p\s(?:left\s|remaining\s)?on\s(?:the\s)?hook,)",
    re.IGNORECASE,
)
IN_COLOUR = re.compile(
    r"[.;)]\s{1,40}(?=(?:with|using)\s[\w' -]{2,24}?,?\s(?:work|make|crochet)\s(?:an?|one|two|\d{1,2}|another)\s"
    r"(?:(?:more|final|last|complete)\s)?(?:rows?|rnds?|rounds?)\s(?:of|in|all|a?round|even)\b)",
    re.IGNORECASE,
)
"""So many rows in a yarn named before them: "Work 9 rows even. With Tan work 1 row of s c around mat"."""
AS_ELSEWHERE = re.compile(
    r"[.;)]\s{1,40}(?=(?:then\s+|now\s+)?(?:work|complete|finish|shape\s(?:the\s)?[a-z]+)\b(?!\s(?:same\s)?as\s(?:for\s)?(?:the\s)?(?:1st|first)\s(?:motif|block|square|medallion|wheel|hexagon|octagon|flower|star|rosette))(?!\s(?:(?:the\s)?(?:rnd|round|row)|back|off)\b)[^.;,()*]{0,40}?\s(?:same\sas|as\sfor|to\s(?:correspond|match))\b)",
    re.IGNORECASE,
)
SPREAD = re.compile(
    r"[.;]\s{1,40}(?=(?:inc|dec)[a-z]*\s\d{1,2}\s(?:sts?|s ?c|d ?c)\s(?:evenly\s(?:spaced\s)?)?(?:on|in)\s"
    r"(?:each\sof\s)?(?:the\s)?next\s\d)",
    re.IGNORECASE,
)
_YARN = r"(?:yarn|thread|wool|cotton)"
NOT_CUT = re.compile(
    rf"[.;]\s{{1,40}}(?=(?:(?:do\snot|don'?t)\s(?:break|cut|fasten)(?:\soff)?(?:\s(?:the\s)?{_YARN})?|keep\s(?:the\s)?{_YARN}),?\s(?:but|and)\s|"
    rf"(?:do\snot|don'?t)\s(?:break|cut|fasten)(?:\soff)?(?:\s(?:the\s)?{_YARN})?[,;:.]\s(?:now\s|then\s)?(?:work|go|crochet|continue)\s"
    r"(?:on\s)?(?:along|down|up)\s)",
    re.IGNORECASE,
)
"""The yarn goes on into another row, told in the same breath: "Do not break off, but across the end work …", "don't cut the yarn; work
along one edge …"."""
REJOINED = re.compile(
    r"[.;](?:(?<=fasten off.)|(?<=finish off.)|(?<=break off.)|(?<=break yarn.)|(?<=cut yarn.)|(?<=cut thread.)|(?<=end off.))\s{1,40}"
    r"(?=(?:with\s[^.;]{3,60}?,\s)?(?:skip|attach|join|rejoin|working)\b[^.;]{0,160}?\b(?:complete|work|dec|inc|s ?c|d ?c|h ?d ?c|tr)\b)",
    re.IGNORECASE,
)
"""The yarn is cut and joined again: what follows is a row of its own."""
SKIPPED_TO = re.compile(
    r"[.;]\s{1,40}(?=(?:skip|sk|miss)\s(?:the\s|next\s|cent(?:er|re)\s)*\d[^.;]{0,50}?(?:[,.;]\s(?:and\s)?|\sand\s)(?:attach|join|re-?join)\b)",
    re.IGNORECASE,
)
"""What is passed over before the yarn is joined anew is told in a sentence of its own: the second side of a divided row."""
DOWN_SIDE = re.compile(
    r"[.;](?:(?<=not turn.)|(?<=n't turn.)|(?<=nt turn.)|(?<=rotate.)|(?<=rotate work.)|(?<=rotate piece.))\s{1,40}"
    r"(?=(?:now\s|then\s)?(?:go|going|work|continue|crochet)\s(?:on\s)?(?:down|up|along)\s(?:the|one|each|first|long|other)\s"
    r"(?:[a-z]+\s){0,2}(?:sides?|edges?)\b(?!\sof\s(?:the\s|your\s)?(?:[a-z]+\s)?ch))",
    re.IGNORECASE,
)
"""The work goes on along the rows' ends, not turned: what follows is a row of its own."""
BEGUN_ANEW = re.compile(
    r"[.;](?:(?<=length desired.)|(?<=length required.)|(?<=desired length.)|(?<=required length.)|(?<=any length.)|(?<=for pattern.))"
    r"\s{1,40}"
    r"(?=(?:with|using)\s[^.;]{2,60}?,?\sch(?:ain)?\s\d{2,3}\b)",
    re.IGNORECASE,
)
"""A stitch was told first, for any length; now the piece begins with its chain."""
HANGING = re.compile(
    r"[.;)]\s{1,40}(?=For\s(?:the|a|each)\s(?:hanger|hanging[ -]loop|button[ -]loop|loop|handle|tie|cord|strap|stem)s?,?\s"
    r"|(?:now\s|then\s)?make\sa\s(?:hanger|hanging[ -]loop|loop\s(?:for\shanging|to\shang\w*))\b)",
    re.IGNORECASE,
)
"""A loop, cord or handle told at the end of a round's text: no stitches of that round."""
FINISHED = re.compile(
    r"[.;)]\s{1,40}(?=(?:then\s|now\s)?(?:finish|edge|end|trim)\s(?:off\s)?(?:(?:the|each|all|both)\s)?(?:[a-z]+\s){0,3}with\s"
    r"(?:an?|one|two|three|\d{1,2})\s(?:more\s)?(?:rows?|rnds?|rounds?)\b)",
    re.IGNORECASE,
)
"""The edge told in a sentence: "Work even. Finish sleeve with 1 rnd sc.": a row of its own."""
THEN_ROWS = re.compile(
    rf",\s{{1,3}}(?=then\s(?:work|make|crochet|do|add)\s{_N}\s(?:(?:more|plain|full|whole|complete|final|last)\s){{0,2}}(?:rows?|rnds?|rounds?)\b)",
    re.IGNORECASE,
)
"""Rows of their own told in the same sentence: "Repeat the 2nd row 7 times, then work a row of sc all around"."""
_KIND = r"(?:s ?c|h ?d ?c|d ?c|tr|htr|dtr|sl\s?st|slip\s?stitch|(?:single|half\sdouble|double|treble)(?:\scrochet)?)"
_ON_EDGE = (
    r"(?:even(?:ly)?\s(?:spaced\s)?|all\s(?:the\sway\s)?){0,2}(?:a?round|along|across|on|down|up|over|in)\s"
    r"(?:(?:the|all|both|each|of|other|rem(?:aining)?|whole|entire|outer|outside|long|short|raw|row|right|left|top|bottom|\d|two|three|four)\s){0,4}"
    r"(?:sides?|edges?|ends|piece|outside|border|rectangle|square|perimeter|blanket|cloth)\b"
)
EDGED = re.compile(
    r"\b(?:repeat|rep|rpt)\.?\s(?:the\s)?(?:last\s|these\s)?(?:\w+\s)?(?:rows?|rnds?|rounds?)\b[^.;:*()\[\]]{0,70}?"
    r"\b(?:times|once|twice|thrice|more|rows|rounds)(?:\smore|\sin\sall|\saltogether)?(?:,\s(?:ending|finishing)\s[^.;,*]{3,40})?"
    r"(?P<stop>[,;]\s{1,3})(?:(?:and|then|now)\s){0,2}"
    r"(?=(?:(?:(?:do\snot|don'?t)\sturn|fasten\soff|rotate|turn(?:\s(?:work|piece))?|ch(?:ain)?\s\d|(?:re)?join\s[^.;,*]{3,50}?),?\s"
    r"(?:(?:and|then|now|but)\s){0,2}){0,4}"
    rf"(?:(?:(?:work|make|crochet|add)\s)?(?:an?|one|two|\d)\s(?:row|round|rnd)s?\s(?:of\s|in\s)?{_KIND}\s(?:sts?\s|stitches\s)?{_ON_EDGE}"
    rf"|(?:(?:work|make|crochet)\s)?{_KIND}\s{_ON_EDGE})"
    rf"|(?:ch(?:ain)?\s\d{{1,2}},?\sturn|turn,?\sch(?:ain)?\s\d{{1,2}}),?\s(?:(?:and|then)\s)?[*\[(]?\s?(?:\d\s)?{_KIND}\s)",
    re.IGNORECASE,
)
"""The edge, or one more row, told in the sentence that repeats others: "Repeat last 2 rows 3 times, then sc along the other sides"."""
WORKED_AS = re.compile(
    r"[.;]\s{1,40}(?=working\s[^.;,]{4,60},\s(?:repeat|rep)\s(?:from\s)?(?:the\s)?(?:\d{1,2}(?:st|nd|rd|d|th)|rows?|rounds?|rnds?|last)\b)",
    re.IGNORECASE,
)
"""How rows are worked again, told before they are named: "Working into the d c's as if they were s c, repeat from 2nd row"."""
_NUMBERED = (
    r"(?:rows?|rounds?|rnds?)\s\d{1,3}(?:(?:\s?(?:-|,|&|\+|to|thru|through|and)\s?|,\sand\s)(?:rows?\s)?\d{1,3}\b"
    r"(?!\s?(?:times|x\b|more\stimes)))*"
)
THEN_NUMBERED = re.compile(
    r"(?:(?<=times)|(?<=once)|(?<=twice)|(?<=thrice)|(?<=more)|(?<=again)|(?<=rows))(?:,\s{1,3}|\s)(?:and\s)?"
    rf"(?:followed\sby\s(?={_NUMBERED}\b)|(?=(?:then|finally|and)\s(?:(?:repeat|rep|work|do)\s)?(?:the\s)?{_NUMBERED}\b"
    rf"(?!\s?(?:sc|h?dc|tr|st))|{_NUMBERED}\s(?:once|twice|again|one\smore)\b))",
    re.IGNORECASE,
)
"""Other rows by number behind rows that are told so often: "Repeat rows 2-6 seven more times, then rows 2 and 3 once"."""
DANGLING = re.compile(r"[A-Z]{4,}[ \t]*\n[ \t]*\Z")
"""A heading broken over the line's end: what stands on the next line belongs to it."""
SIDE_OF_A_PIECE = re.compile(r"(?i)(?:shape\s)?(?:1st|2nd|first|second|left|right|other)\s(?:(?:front|back)\s)?(?:neck\s)?shoulder$")
"""The heading of one side of a divided piece: its rows go on there, though their numbers may begin again."""
FOUNDED = re.compile(r"(?i)\bfrom\s(?:the\s)?hook\b|\bmagic\b|\bring\b|\bch(?:ain)?\s\d{2}")
"""Words that found a piece of its own."""
NOT_A_PIECE = re.compile(
    r"(?i)(?:(?:to\s|for\s(?:the\s)?)?shap(?:e|ing)\b|(?:even|odd|straight|plain)\s(?:rows|rounds|rnds|section|part)\b|(?:armhole|neck|shoulder)s?\sshaping\b|(?:for\s|to\s)?(?:the\s)?(?:armhole|shoulder)s?$|"
    r"divide\b|(?:1st|2nd|3rd|first|second|other|left|right)\s(?:half|side)$|(?:inc|dec)(?:reas(?:e|es|ing))?s?(?:\s(?:rows?|rounds?|section|half|side|part))?$|turn$|"
    r"(?:begin|start|now|corner)\b[^.]{0,40}\b(?:in|de)creas(?:e|ing)\b)"
)
"""Headings inside a piece: what follows goes on with the same piece."""


def row_breaks(text: str, start: int, end: int, *, shaping: bool, ranged: bool = False) -> list[tuple[int, int]]:
    """Where, in a row's own text, sentences begin that are rows of their own, in order: (the stop before it, its first word), as places in
    `text`; `shaping`: also "Dec 1 st …"; `ranged`: its label numbers several rows, so that rows named after others are among them."""
    found = [(start + stop, start + first) for stop, first in (_shaping_breaks if shaping else _breaks)(text[start:end])]
    if not ranged:
        return found
    among = {match.end() for match in THEN_NUMBERED.finditer(text, start, end)}
    return [one for one in found if one[1] not in among]


_MAY_BREAK = re.compile(
    r"[.;)\]]\s{1,40}\w|,\s{1,3}(?:then|without|do|not|start|begin|commence|work|make|continue|proceed|go|and|rows?|rounds?|rnds?|followed)|"
    r"(?:times|once|twice|thrice|more|again|rows),?\s{1,3}(?:and|then|\d|the|last|rep|row|followed|finally)|"
    r"(?:times|once|twice|thrice|more|rows|rounds|all|altogether)[,;]\s{1,3}\w",
    re.IGNORECASE,
)
"""A stop with a word behind it, as every form has it; behind a comma only the words that some of them begin with."""
KEPT_GOING = re.compile(
    r"[.)]\s{1,40}(?=(?:keep|cont(?:inue|\.)?|carry\son|go\son)\s(?:on\s|going\s|working\s|crocheting\s){0,2}"
    r"(?:(?:back\s(?:and|&)\sforth|to\sand\sfro|in\srows)\b[^.;]{0,60}?\b(?:until|till?|for)\b"
    r"|(?:until|till?)\b[^.;\n]{0,40}\d\s?(?:\"|''|in(?:ch(?:es)?)?\b|cm\b|rows\b)"
    r"|for\s\d{1,3}\smore\s(?:rows|rounds|rnds)\b))",
    re.IGNORECASE,
)
""" "Keep going back and forth on those 6 sts till strap is 24\" long": the row before, again and again. """
_FORMS = (
    KEPT_GOING,
    REPEAT, NAMED_ON, HEADED, HEADED_SMALL, ONWARD, RUN, IN_COLOUR, AS_ELSEWHERE, REJOINED, EDGED, NOT_CUT, SPREAD, SKIPPED_TO, DOWN_SIDE,
    BEGUN_ANEW, HANGING, FINISHED, THEN_ROWS, WORKED_AS, ROWS_AGAIN, THEN_NUMBERED,
)  # fmt: skip


def _found(words: str, forms: tuple[re.Pattern[str], ...]) -> tuple[tuple[int, int], ...]:
    if not _MAY_BREAK.search(words):
        return ()
    found = {match.end(): (_stop(match), match.end()) for form in forms for match in form.finditer(words) if not _of_the_row(words, match)}
    return tuple(found[at] for at in sorted(found))


def _stop(match: re.Match[str]) -> int:
    """Where the sentence before ends: what the form looks at may begin earlier."""
    return match.start("stop") if "stop" in match.re.groupindex else match.start()


_UNIT_AGAIN = re.compile(
    r"(?:repeat|rep|rpt)\.?\s+(?:this|these|those)\s+(?:(?:\w+\s+)?(?:steps|sts|stitches|instructions|sequence|pattern|section)\s+)?"
    r"(?:(?!rows?\b|rnds?\b|rounds?\b)\w+\s+(?:more\s+)?(?:times|x)\b|around\b|across\b|to\s+(?:the\s+)?end\b"
    r"|all\s+(?:the\s+way\s+)?(?:a)?round\b)",
    re.IGNORECASE,
)
_ON_SIDES = re.compile(
    r"(?:repeat|rep|rpt)\.?\s+this\s+(?:on|for|in|at|along)\s+(?:the\s+|all\s+|of\s+)*(?:each|every|other|remaining|rem|next|rest|\d|two|three|four)\b"
    r"[^.;:\n]{0,24}\b(?:sides?|corners?|points?|petals?)\b",
    re.IGNORECASE,
)
""" "Repeat this on the other three sides": of what a round has told of one side. """
_WHOLE_ROW = re.compile(
    r"\b(?:turn|across|around|all\s+round|to\s+(?:the\s+)?end|(?:each|every)\s+(?!of\b)|join|sl\s?st|rows?|rounds?|rnds?)\b", re.IGNORECASE
)
"""What a row says that is told to its end, so that "repeat this" can only mean the row."""


def _of_the_row(words: str, match: re.Match[str]) -> bool:
    """ "*sc, inc; repeat this 6 times", "Sc in next 2 sts, inc. Repeat this around.": a unit of the row, not the row."""
    if _ON_SIDES.match(words, match.end()):
        return True
    if not _UNIT_AGAIN.match(words, match.end()):
        return False
    label = words.find(":", 0, 24) + 1
    return words[match.start()] == ";" or not _WHOLE_ROW.search(words, label, match.start())


@remembered
def _breaks(words: str) -> tuple[tuple[int, int], ...]:
    found = _found(words, _FORMS)
    if not found:
        return found
    first = found[0][1]  # after a run of rows "Dec 1 st …" is no longer of the labelled row
    shaped = [one for one in _shaping_breaks(words) if one[1] > first]
    return tuple(sorted({*found, *shaped}, key=lambda one: one[1]))


@remembered
def _shaping_breaks(words: str) -> tuple[tuple[int, int], ...]:
    return _found(words, (*_FORMS, SHAPING))
