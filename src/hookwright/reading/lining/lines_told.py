"""The expressions by which lines are told apart: headings, facts, instructions, sentences that repeat rows."""

from __future__ import annotations

import re

from ..pieces import anywhere

_IN_PATTERN = (
    r"(?:keeping|maintaining|continuing|cont)\s(?:(?:in|to|with)\s)?(?:the\s|your\s)?patt(?:ern|\.)?"
    r"(?:\s(?:as\s(?:set|established|before|is)|correct|straight))?,?\s+"
)
CRAFT_START = re.compile(
    r"[\s*_=#>(\[{•·-]*(?:(?:all|both|every)\s+sizes?\s?:\s*|(?:for\s+)?size\s[^:\n]{1,16}:\s*|(?:for\s+)?(?:x?small|"
    r"medium|x?large|\dx)[\w /]{0,14}(?:only)?:\s*)?(?:then\s+(?:it'?s\s)?(?:just\s)?|now\s+|first(?:ly)?,?\s+|"
    r"(?:very\s)?loosely,?\s+|(?:start|beg(?:in)?|set\s?-?up):\s+|to begin,?\s+|" + _IN_PATTERN + r"|"
    r"\(?\s?(?:rs|"
    r"ws)\)?\s+|"
    r"with\s(?:the\s)?(?:rs|ws|(?:right|wrong|same)\sside)(?:\sof\s[\w ]{1,24}?)?\s(?:facing|towards?)(?:\syou)?,?\s+)?"
    r"(?:(?:(?:still\s|working\s)?with|w|using|in)\s+[\w. ]{1,24}?,?\s+(?:(?:loosely\s)?ch|chain|make|work\b|attach\b|and\b|"
    r"(?:s ?c|d ?c|h ?d ?c)\b|"
    r"magic\b|mr\b|"
    r"\d{1,2}\s?(?:sc|hdc|dc|tr)\sin(?:to)?\s(?:an?\s|the\s)?(?:mr|magic|ring|loop)\b|"
    r"\d+(?:\s?\([\d,: ]{1,40}\))?\s?ch(?:ain)?\b)|"
    r"(?:at|from|for)\s(?:the\s)?[a-z][a-z ]{1,24}?,?\s+ch(?:ain)?\s?\d|"
    r"(?:commenc(?:e|ing)|begin|start)\s(?:at|in|from|on)\s[^.;:\n]{2,40}?(?:,\s|\s(?=(?:with|by)\s))(?:(?:with|by|making|make|work)\s){0,2}(?:a\s)?"
    r"(?:\d{1,3}[ -]?ch\b|\d{1,3}\schain|ch(?:ain)?\s(?:of\s)?\d)|"
    r"starting at|beginning|ch(?:ain)?s?(?=\d|\b)|"
    r"make a (?:ch|loop|slip|magic|chain)|sl\b|slip[ -]st|s\.\s?s\.|"
    r"\d+(?:\s?\([\d,: ]{1,40}\))?\s?(?:sc|s c|dc|d c|hdc|tr|ch|inc|dec|sl|st)\b|"
    r"(?:put|place)\s\d+\s?(?:sc|h?dc|tr)\b|"
    r"\d+\s?f(?:sc|hdc|dc)\b|s ?c\b|d ?c\b|h ?d ?c\b|tr\b|sc\d?|dc\d?|fsc|fdc|fhdc|repeat|rep\b|rpt\b|reps\b|"
    r"(?:re-?)?join|fasten|finish off|fo\b|proceed\b|"
    r"end off|break|cut (?:yarn|thread)|keep (?:repeating|working|going|(?:in|de)creasing|adding)\b|"
    r"turn\b|skip|sk\b|miss\b|attach|work\b|in (?:next|each|same|ring|first)|inc|"
    r"dec|"
    r"shell|continue|cont\b|change|drop|magic|mr\b(?!\.?\s(?-i:[A-Z][a-z]))|m\.r|magic ring|\*\s?\w|rows? \d|place|leave|complete|hdc|"
    r"using [\w ]{1,20}?,? (?:ch|chain)|form|adjustable|chain|these \d+ rows|even\s(?:\d|until\b|till\b|for\b)|"
    r"(?:do\s?not|don'?t)\s(?:turn|join|fasten|cut|break)|1 (?:sc|dc|"
    r"s c|d c))",
    re.IGNORECASE,
)
WORK_START = re.compile(r"(?i)(?:using|starting|make|with|working|join|attach|hold|picking|over\sa|(?:a)?round)\b")
"""How an instruction may begin behind the name of its piece ("Heading: Working along straight edge, …")."""
_ONE_SIDE = (
    r"(?:the\s)?(?:1st|2nd|first|second|left|right|other)\s(?:(?:hand|front|back|neck)\s){0,2}(?:shoulder|side|front|back|half|strap|edge)"
)
HEADED_SHAPING = re.compile(
    r"(?i)\s*[*_=]{0,3}(?:to\s)?(?:shape|shaping|divide\sfor|for)\s[\w' ]{2,28}?\s?[*_=]{0,3}(?::|\.?\s?-{1,2})[*_=]{0,3}\s"
)
"""A heading inside a piece, before the instruction on its line: "Shape Armholes : Slip-stitch over 4 sts."."""
HEADED_SIDE = re.compile(
    rf"(?i)\s*[*_=]{{0,3}}(?:(?:(?:to\s)?shape|for|to\swork)\s)?{_ONE_SIDE}[*_=]{{0,3}}\s?(?::|\.?\s?-{{1,2}})[*_=]{{0,3}}\s?|"
    rf"\s*(?:for|on|to\sshape|to\swork)\s{_ONE_SIDE},\s"
)
"""Which side of a divided piece an unlabelled row begins: "Left shoulder.-Miss the centre 20 sts., join wool to next st."."""
HEADED_HERE = re.compile(
    r"(?i)\s*[*_=]{0,3}(?:(?:and\s)?(?:next|then|now|last|lastly|finally|after\sthat)|"
    r"(?:shape\s)?(?:the\s)?(?:armholes?|underarms?|neck(?:line)?|shoulders?|thumb\s?holes?|button\s?holes?|openings?)"
    r"(?:\s(?:shaping|opening|row|rnd|round))?|divid(?:e|ing)(?:\s[a-z ]{2,24})?|(?:the\s)?(?:in|de)creas(?:e|ing))"
    r"[*_=]{0,3}\s?:[*_=]{0,3}\s"
    r"|\s*next,\s"
)
"""What an unlabelled row does, or that it comes next, told before a colon: "Armholes: sl st over 5, …", "Next: Ch 1, 2 sc in each"."""
BY_THE_HOOK = re.compile(r"(?i)\s*(?:insert|yo\b|yarn\sover|pull\b|draw\b|pick\sup|work\s(?:two|2)\sst)")
"""How a stitch is made, movement by movement: told of it wherever it comes, and no row ("Decrease: insert hook in next 2 sts, …")."""
CRAFT_WORDS = re.compile(
    r"(?<![A-Za-z])(?:ch(?:s|ain|ains)?|sc|s ?c|dc|d ?c|hdc|h ?d ?c|tr|htr|dtr|trc|sl ?st|slip st\w*|single crochet|"
    r"double crochet|treble|half double|inc|dec|sts?|stitch(?:es)?|skip|sk|rep|repeat|turn|join|shell|"
    r"fasten off|finish off|magic (?:ring|circle|loop)|mr(?!\.?\s(?-i:[A-Z][a-z]))|row|rows|rounds?|rnds?|sc2tog|"
    r"dc2tog|fsc|plain|long|cut yarn|fo|work even|pattern)(?![A-Za-z])",
    re.IGNORECASE,
)
FACT = re.compile(
    r"[\s*_=#>•·-]*(?:materials?|supplies|you(?:'ll| will)? need|what you need|yarns?(?!\s(?:over|round|forward|through)\b)|"
    r"hook(?: size)?(?!\s(?:and|from|in|under|through)\b)|needles?|gauge|"
    r"tension|sizes?|finished (?:size|measurements?)|measurements?|approximate size|size of|abbreviations?|terms|"
    r"notes?|tips?|"
    r"skill level|level|difficulty|special st\w*|stitch(?:es)? used|stitch guide|recommended|designer|designed by|"
    r"copyright|notions|dimensions|colou?rs?|terminology|author|about|pattern notes?|multiple of|nb|"
    r"directions are|illus|quantity|other materials|key|legend|photo|picture|video|tools|helpful|optional|us terms|"
    r"uk terms|pattern is written|weight|yardage|worsted|cotton|fibre|made by|written by|time|"
    r"price)\b[^\n]{0,40}?(?::|=|\.{3}|-|\b)",
    re.IGNORECASE,
)
ASIDE_SECTION = re.compile(
    r"(?:materials?(?: required| needed| list)?|supplies|you will need|what you(?:'ll)? need|gauge|tension|"
    r"abbreviations?(?: used)?|pattern notes?|notes?|tips?|finished (?:size|measurements?)|sizes?|measurements?|"
    r"yarns?|hooks?|notions|tools|skill level|"
    r"difficulty|introduction|about.*|copyright.*|terms(?: of use)?|colou?r key|arrangement chart|"
    r"colou?r combination chart|directions|instructions|pattern|how to|equipment|blocking|joining instructions|"
    r"stitches used|stitch guide|color chart|key|"
    r"schematic|video|download|comments?|related|share.*|rows and colou?rs)[:.]?",
    re.IGNORECASE,
)
SPECIAL_SECTION = re.compile(
    r"(?:special|other|unusual)\s+st(?:itch(?:es)?|s?\b).*|stitch\s+(?:guide|key|glossary|explanations?|definitions?|"
    r"instructions?)|special (?:techniques|abbreviations)|pattern stitch(?:es)?|stitches",
    re.IGNORECASE,
)
NO_PART = re.compile(
    r"(?i)(?:illustrated|shown|pictured?|recommended|approx|approximate|or$|and$|a$|no\.?\s?\d|page\b|see\b|continued|"
    r"[\w ,&/+-]{1,40}\s(?:skip|go|jump|proceed|move)\s(?:(?:ahead|on|straight|directly|right)\s)*to\s|crocheted$|woven$|knitted$|design(?:ed)?\s|by\s|made of|sizes?\s|for\s+sizes?\b|(?:for\s+)?[\w ,&/+-]{1,40}\b(?:sizes?\s+)?only$|(?:for\s+)?(?:all|both)\s+sizes$|(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth)\s+(?:row|round|rnd)\b|the end|advertisement|article\b|\W*$)"  # noqa: E501
)
FINISHING = re.compile(
    r"(?:finishing|assembly|making up|to make up|to finish|joining|sewing(?: up)?|fringe|tassels?|blocking|pompons?|"
    r"pom[- ]?poms?|embroidery|weaving|seams?|putting (?:it )?together|face|eyes|stuffing|to assemble)[:.]?",
    re.IGNORECASE,
)
INLINE_HEAD = re.compile(
    r"(?m)^[ \t]{0,8}(?P<mark>[*_=]{0,3})(?P<name>(?:\d(?:st|nd|rd|"
    r"d)\s)?[A-Z][A-Z0-9'&/ .-]{2,48}?[A-Z0-9])(?P<make>\s?\([^()\n]{1,40}\))?(?:(?P=mark))?(?P<end>\s{0,2}(?:\.{2,4}|\.(?:\s\.){1,3}|"
    r":|\.?-{1,3}|=)[*_=]{0,3})(?=\s|[A-Za-z(=*]|\d(?:st|nd|rd|th)\b)"
)
HEAD_IN_TEXT = re.compile(
    r"(?<=[.;)])\s{1,3}(?P<name>[A-Z][A-Z'&-]{2,}(?:\s[A-Z'&-]{2,}){0,3})(?P<make>\s?\([^()\n]{1,30}\))?\s?(?P<end>:|\.?\s?-{1,2}|\.{2,4})\s{0,2}(?=[A-Za-z\d])"
)
"""A name in capitals before its mark, in the middle of a paragraph."""
SMALL_IN_TEXT = re.compile(
    r"(?<=[.;)!])\s{1,3}(?P<name>[A-Z][a-z'-]{2,14}(?:\s(?!(?:is|are|as|to|in|with)\b)[a-z'-]{2,14}){0,2})(?P<make>\s?\((?:make\s)?[^()\n]{1,20}\))?"
    r"(?P<end>:|\.)(?=\s{1,3}[A-Z\d])"
)
"""The same in small letters, before a chain that founds the piece: "Stuff firmly. Ears. Ch 12, sc in 2nd ch from hook"."""
STOP_HEAD = re.compile(
    r"(?m)(?:\A|(?<=\n\n))[ \t]{0,8}(?P<name>[A-Z][A-Z'&-]{2,}(?:\s[A-Z'&-]{2,}){0,3}|[A-Z][a-z'-]{2,20}(?:\s[a-z'-]{2,16}){0,2})"
    r"(?P<make>\s?\([^()\n]{1,40}\))?\.\s{1,3}(?=[A-Z\d])"
)
"""The first words of a paragraph and a full stop, as a name stands before its piece's chain in old leaflets: "BAND. Ch 9."."""
NAME_HEAD = re.compile(
    r"(?m)^[ \t]{0,8}(?P<mark>[*_=]{0,3})(?P<name>[A-Z][A-Za-z0-9'&/-]{1,20}(?:\s[A-Za-z0-9'&/-]{1,16}){0,4}?)(?P<make>\s?\([^()\n]{1,40}\))?\s?(?P<end>:)(?P=mark)[*_=]{0,3}"  # noqa: E501
)
SMALL_HEAD = re.compile(
    r"(?m)^[ \t]{0,8}(?P<mark>[*_=]{0,3})(?P<name>Heading|Edging|Edge|Border|Hanger|Loop|Tie|Cord|Strap|Handle|Picot edge|"
    r"Beading|Insertion|Fringe|Ruffle|Frill|Tab|Neckband|Cuff|Crown|Brim)(?:(?P=mark))?\s?(?P<end>\.?-{1,3})[*_=]{0,3}(?=\s|[A-Z])"
)
"""A small part headed by its name and a dash ("Heading—Join thread …"), which capitals or a colon would tell elsewhere."""
BOLD_HEAD = re.compile(r"(?m)^[ \t]{0,8}(?P<mark>\*\*|__)(?P<name>[A-Z][A-Za-z' -]{1,30}(?:\([^()\n]{1,30}\))?)(?P=mark)[ \t]+(?=\S)")
DASH_HEAD = re.compile(
    r"(?m)^[ \t]{0,8}[*_]{0,2}(?P<name>[A-Z][A-Za-z']{2,20}(?:\s[A-Za-z0-9']{1,16}){0,2}?)(?P<make>\s?\([^()\n]{1,40}\))?"
    r"[*_]{0,2}(?:\s?-{1,2}\s+|\.-{1,2}\s?)(?=(?i:(?:(?:with|w|using)\s[\w ]{1,20},?\s)?(?:ch(?:ain)?\s?\d|make\sa|magic|mr\b)))"
)
"""A piece's name before a dash and its first chain: "Band - ch 72"."""
EDGE_HEAD = re.compile(
    r"(?im)^[ \t]{0,8}[*_]{0,2}(?P<name>border|edging|edge|trim)[*_]{0,2}\s?(?:-{1,2}\s+|:\s*)"
    r"(?=[(\d]|work|with|join|attach|[shd]+c\b|ch|tr\b|htr\b|(?:single|double|treble|half|reverse|crab|finish|slip|sl|one|a)\s)"
)
SIZE_LINE = re.compile(
    r"(?i)\s*(?:(?:all|both)\s+sizes|(?:for\s+)?size\s[^:\n]{1,16}|(?:for\s+)?(?:x?small|medium|x?large|\dx)[\w /]{0,14}|"
    r"(?:for\s+)?[\w ,&/+-]{1,40}\bonly)\s?:"
)
REMARKED = re.compile(
    r"(?i)[\s*_]*[(\[]\s?(?:n\.?b\b|(?:note|tip|hint|fyi|psst|remember|reminder|optional|don'?t worry|that|this|you|you'll|i|i'm|if)\s)"
)
"""A remark in brackets on a line of its own: "(nb that first bit is one sc in each of next 2 sts)"."""
PASSES_ON = re.compile(
    r"(?i)[\s*_=#(•·>-]*(?!(?:sk|skip|ch|chain|sl|turn|join|work|then|now|[shd]{1,2}c|tr)\b)(?:[A-Za-z0-9][\w/&+,' -]{0,60}?[:;,]?\s)?"
    r"(?:skip|go|jump|proceed|move)\s(?:(?:ahead|on|straight|directly|right)\s)*to\s(?:the\s)?(?:next\s(?:part|section)|(?:rows?|rounds?|rnds?)\s?\d|"
    r"[A-Z][a-z]+)"
    r"[\w ]{0,24}[\s.!)*_]*(?:\n|$)"
)
"""A line that sends some sizes on to a later part ("Baby: skip to Body"): no instruction of the row above."""
_SHORT = re.compile(
    r"[\s*_•·>-]*(?P<short>[A-Z]{2,5}|[A-Za-z]{1,4}\d{1,2}[A-Za-z]?)[*_]{0,3}"
    r"(?:\s\((?P<long>[A-Za-z][A-Za-z\d' -]{2,40})\)\s?[*_]{0,3}(?::|=|\s-)"
    r"|\s(?:-{1,2}|=)\s(?P<dashed>[a-z][a-z\d' -]{2,40}):\s)"
)


def short_form_told(line: str) -> bool:
    """Whether a line tells what a short form means ("OM (an open mesh): ch 2, skip 2, dc"), its signs those of the words in order.

    >>> short_form_told("OM (an open mesh): ch 2, skip 2, dc in next dc"), short_form_told("EAR (make two): ch 4")
    (True, False)
    >>> short_form_told("X2 - crossing over 2: skip 1, dc in next, dc in skipped st"), short_form_told("HAT - worked flat: ch 40")
    (True, False)
    """
    told = _SHORT.match(line)
    letters = iter((told["long"] or told["dashed"]).lower()) if told else iter("")
    signs = [sign for sign in told["short"].lower() if sign.isdigit()] or list(told["short"].lower()) if told else []
    return told is not None and all(sign in letters for sign in signs)


SHAPED_HEAD = re.compile(
    r"(?i)[\s*_=#]*(?:inc|dec)(?:reas(?:e|es|ing))?s?(?:\s(?:rows?|rounds?|section|half|side|part))?(?:\s\([^()\n]{1,60}\))?[\s*_=#:.-]*$"
)
"""A heading inside a piece, on a line by itself, that begins like an instruction: "Decrease rows:"."""
DESCRIBED = re.compile(
    r"(?i)[\s*_•·-]*[A-Za-z][\w' -]{1,40}(?:\([^()\n]{1,24}\)\s?)?[*_]{0,2}:[*_]{0,2}"
    r"\s?\(?\s?(?:yo\b|yarn over|insert (?:your )?hook|\*?\s?yo\b|draw up|pull up)"
)
"""A stitch described loop by loop ("Bobble: (yo, insert hook in st …")."""
NUMBERED_HEAD = re.compile(
    r"(?m)^[ \t]{0,4}\(?(?P<nth>[1-9a-fA-F])[).]\s{1,3}(?P<name>[A-Z][A-Za-z'&/-]{2,20}(?:\s[A-Za-z'&/-]{1,16}){0,4}?)"
    r"(?P<make>\s?\([^()\n]{1,40}\))?(?:,\s(?:(?:begin|start|work)\s)?(?:(?:with|in|using)\s)?[A-Za-z ]{3,24})?\s?"
    r"(?P<end>:(?=\s+\d|\s*\n)|$)"
)
"""The heading of one of several numbered pieces: "(1) Cap and stem, begin with red", "(3) Rope: 30 ch"."""
corner_to_corner = anywhere(re.compile(r"(?i)corner[- ]to[- ]corner|\bC2C\b"), "corner", "c2c")
"""Whether a piece is worked from corner to corner, in blocks."""
TILE_TOLD = re.compile(
    r"(?i)[\s*_•·>-]*(?:to\s(?:begin|start)|(?:(?:the|each|every|all|any|other|next|first|beg\w*|new|one)\s){0,3}"
    r"(?:squares?|blocks?|tiles?|pixels?)\b[^:\n]{0,40}|(?:increas|decreas)\w+[^:\n]{0,40}):"
)
"""How a block of work from corner to corner is made ("Each square after that: …"): told once, beside the chart of colours."""
GROUP_TOLD = re.compile(
    r"(?i)[\s*_•·>-]*(?:(?:to\s)?(?:make|work)\s(?:an?\s|the\s)?)?"
    r"(?:(?:beg(?:inning)?|starting|small|large|half|picot|\d-?(?:sc|hdc|dc|tr))[ -])?"
    r"(?:shell|v-?\s?st(?:itch)?|fan|cluster|cl|bobble|puff|popcorn|pc|picot|petal|bullion|x-?st(?:itch)?|cross(?:ed)?[ -](?:st|dc|hdc|tr)|"
    r"(?:open|solid|filled|closed)\s(?:mesh|block|square|space))"
    r"(?:\sst(?:itch)?)?s?[*_]{0,3}\s?(?:\([^()\n]{1,24}\))?[*_]{0,3}\s?(?:(?::|\s-)[*_]{0,3}\s"
    r"|\((?=(?:(?:work|make)\s)?\d[^()\n]{4,80}\)\W*$))"
    r"(?![^\n]{0,200}?\b(?<!3rd\sch\s)(?<!2nd\sch\s)(?<!4th\sch\s)(?:from\s(?:the\s)?hook|ring)\b)"
)
"""A group told by its name and what it is made of ("**Shell (sh)**: 5 dc in next st"), which founds no piece."""
EACH_TIME = re.compile(
    r"(?i)[\s*_•·-]*(?:to\s)?(?:increas(?:e|ing)|decreas(?:e|ing)|add(?:ing)?|los(?:e|ing)|gain(?:ing)?|start|end)\b[^:\n]{0,60}"
    r"\b(?:at|of|on)\s(?:the\s)?(?:start|beginning|end|both\sends|a|each)\b[^:\n]{0,24}\brows?\b[^:\n]{0,12}:"
    r"|[\s*_•·-]*(?:every|each|all)\s(?:the\s|other\s)?(?:rows?|rnds?|rounds?)\s(?:will\s|always\s)?(?:starts?|begins?|ends?|finish(?:es)?)\b"
)
"""How a shaping is made wherever a row asks for it ("To add a block at the beginning of a row: ch 5, …"), how all rows begin or end
("Every row starts: turn, ch 5"): no row of its own."""
CHAIN_RULE = re.compile(
    r"(?i)[\s*_=•·-]*(?:(?:(?:in|on|at|for)\s(?:the\s(?:beginning|start|end|turn)\sof\s)?(?:each|every|all|any)\s(?:\w+\s)?(?:rows?|rounds?|rnds?)|throughout),?\s)?"
    r"(?:the\s|all\s|any\s)?(?:beg\w*|turning|starting|initial)?\s?(?:\d\s?)?ch(?:ain)?s?\.?[ -]?\d?s?"
    r"(?:\s(?:(?:made|worked|used)\s)?(?:at|of|in|to|for|when|that|which)\s[\w\s.]{1,40}?)?\s"
    r"(?:(?:does|do|will|always|never|is|are|counts?|stands?|equals?)\b|=)"
)
TURN_RULE = re.compile(
    r"(?i)[\s*_=•·-]*(?:always\s|make\s|work\s)?(?:ch(?:ain)?\.?\s?\d{1,2}|\d{1,2}\s?ch(?:ain)?s?)\s(?:to|for|in)\sturn(?:ing)?\s"
    r"[^.\n]{0,24}?\b(?:each|every|all|always)\b"
)
"""How every row turns, told once for all of them: "Ch 5 to turn at every row", "Ch 2 to turn all rows"."""
_THEN_ROWS = r"(?:then|now)\s(?:it'?s\s)?(?:just\s)?(?:(?:keep|go\son|carry\son)\s\w+\s)?(?:repeat\s)?(?:rows?|rounds?)\s\d"
_KEEPING_ON = (
    r"(?:(?:just|then|now|simply|so),?\s)*(?:(?:keep|cont(?:inue|inuing|\.)?|carry|go|stick|stay|proceed)\s(?:on\s|going\s)?"
    r"(?:(?:with|doing|making|working|repeating|to\s(?:do|work|make|repeat))\s)?|(?:do|work)\s)(?:the\s)?(?:rows?|rounds?|rnds?)\s\d"
    r"[^.\n:]{0,40}\b(?:until|till?|over\sand\sover|again\sand\sagain|for|times|more|down\sto|up\sto)\b"
)
"""Rows that are kept on with: "Keep on with row 26 until you are down to 2 sc", "Do row 2 over and over"."""
_SO_MANY_ROWS = (
    r"(?:(?:then|now)\s)?(?:work|make|crochet|do)\s(?:another\s)?(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve)\s"
    r"(?:more\s)?(?:rows|rnds|rounds)\b"
)
""" "Make 3 more rounds", "crochet another six rows". """
_SHAPED_ON = (
    r"(?:(?:cont(?:inue|\.)?|keep|carry\son|go\son)\s(?:on\s)?(?:to\s)?)?(?:dec|inc)(?:reas(?:e|ing))?\s"
    r"(?:in\s(?:this|that|the\ssame)\s(?:way|manner|fashion)|like\s(?:this|that|before)|as\s(?:before|established|set)|thus)\b"
)
""" "Decrease in the same way for two more rounds", "continue decreasing in this way until …". """
STRIPE = re.compile(r"[ \t>*•-]{0,6}\d{1,2}\s[Rr]ows?\s(?:of\s|in\s|with\s)?[A-Z][\w' ]{0,24}[.,;]?\s*")
"""One of the stripes that are listed line by line: "2 rows CC1"."""
GOES_ON = re.compile(
    rf"(?i)\s*(?:{_THEN_ROWS}|{_KEEPING_ON}|{_SO_MANY_ROWS}|{_SHAPED_ON}"
    r"|(?:then\s|now\s|another\s)?\d{1,3}\s(?:more\s|plain\s)?(?:rows|rounds|rnds)\sof\s"
    r"|(?:cont(?:inue|\.)?|carry\son|keep\sgoing|keep\son|go\son)\s(?:on\s)?"
    r"(?:in\s(?:this|that|the\ssame)\s(?:way|manner|fashion)|like\s(?:this|that)|thus)\b"
    r"|(?:work|go|keep|cont(?:inue|\.)?|carry\son|go\son)\s(?:on\s)?(?:even|straight)\s(?:until|till|for)\b"
    r"|(?:cont(?:inue|\.)?|carry\son|keep|go\son)\s(?:on\s|going\s|working\s|crocheting\s){0,2}"
    r"(?:(?:back\s(?:and|&)\sforth|to\sand\sfro|in\srows)\s)?(?:on\s(?:these|those)\s\d{1,3}\s\w+\s)?(?:until|till?|'til|for)\b)"
)
"""A line that goes on with rows told before, however chatty the rest of it is."""
HOW_FAR = re.compile(
    r"(?i)\b(?:un)?till?\b(?!\s(?:the\s|your\s)?(?:last|end|next)\b)[^.\n]{0,48}(?:\d|desired|long|like\b|want|size)"
    r"|\b(?:for|on|in)\s(?:the\s)?(?:next\s)?(?:\d{1,3}|[a-z]{3,6})\s(?:more\s)?(?:rows|rounds|rnds|inches|cm)\b"
)
"""How far a line's rows go, which no words of a row's own say."""
REPEAT_LINE = re.compile(
    r"(?i)\s*(?:(?:keep\s|continue\s(?:to\s)?|cont\s(?:to\s)?)?(?:repeat(?:ing)?|rep|rpt)\s(?:(?:the\s)?last|(?:the\s)?(?:(?:inc|dec)\w*|patt?(?:ern|\.)?)\s(?:row|rnd|round)|rows?\s\d|rnds?\s\d|rounds?\s\d|r\d|these|this|\d)|rows?\s\d+\s?(?:-|&|and|"
    r"to)\s?\d+\s(?!sc|dc|hdc|tr)\w"
    r"|(?:(?:[shdt]{1,2}c|single\scrochet|double\scrochet|work|crochet)\b[^.\n*]{0,60}?(?:\bfor|,)\s(?:about\s|another\s)?)?"
    r"\d{1,3}\s(?:more\s)?(?:rows|rounds|rnds)\b(?!\s(?:below|down|up|ago|before|back)\b)"
    rf"|{_THEN_ROWS}|{_KEEPING_ON}|work\s\d+\s?(?:\([\d,: ]{{1,40}}\)\s)?(?:more\s)?(?:rows?|rnds?|rounds?)\b"
    rf"|{_SO_MANY_ROWS}"
    r"|(?:work|go|keep|continue|carry\son|go\son)\s(?:even|straight)\b(?!\sto\b)"
    r"|(?:cont(?:inue|inuing|\.)?|carry\son|go\son|keep\son|working)\s(?:working\s|on\s)?(?:in|with)\s[\w ]{1,24}?,?\s"
    r"(?:and\s|but\s)?(?:dec|inc)[a-z]*\b"
    rf"|(?:keep\s|continue\s|cont\s|{_IN_PATTERN})?(?:dec|inc)(?:reas(?:e|ing))?\s(?:\d|one\b|two\b|at\b|each\b|every\b|in\sthis\b)[^.:=\n]{{0,70}}\b(?:each|every|until|next)\b)"
)
DEFINITION = re.compile(
    r"(?i)[\s*_•·-]*(?:special(?:\s(?:st(?:itch)?(?:es)?|abbreviations?))?[*_]{0,3}\s?:[ \t*_]{0,4}"
    r"|[a-z][a-z' ]{2,40}[*_]{0,3}:[ \t*_]{1,4}(?=[^=\n]{1,40}=))?"
    r"(?:(?:\d-?\s?)?(?:[a-z][\w'-]{0,15}\s?){1,4}(?:\([^()\n]{1,20}\)\s?)?[*_]{0,2}\s?=\s?(?![\d.])"
    r"|(?:chs?|sc|dc|hdc|tr|htr|dtr|trtr|sl(?:\s?st)?|ss|sts?(?:\(s\))?|chs?(?:\(s\))?|sk|sps?|yo|yoh|inc|dec|reps?|rnds?|beg|prev|blo|flo|bl|fl|"
    r"(?-i:[A-Z])|"
    r"[fb]p[hd]?[dst][cr]|mr|mc|cc|rs|ws|tog|[shdtr]{1,2}c?\dtog|inv ?dec|pm|sm|lps?|fo|approx|cont|foll|rem|pat|patt)(?:\(s\))?[*_]{0,2}"
    r"\s?[:–—-]\s?[a-z][a-z()\d/ ,'-]{2,60}\.?\s*(?=\n|$)"
    r"|f/o\s?[:–—-]"
    r"|(?:inc|dec|inv\s?dec|increase|decrease)[*_]{0,2}\s?(?:\([a-z ]{2,20}\)\s?)?[:–—-]\s?\d\s?[shdt]{1,2}[cr]\s"
    r"(?:in|into)\s(?:the\s)?(?:same|one|1|next|a)\b[^\n,;*]{0,30}(?=\n|$)"
    r"|(?:\*\s?(?:\.{2,3}\s?)?\*|\((?:\s|\.{2,3})?\)|\[(?:\s|\.{2,3})?\])\s?(?:x\s?(?:\d{1,2}|n)\s?|\d{1,2}\s?x\s?)?[:=–—-])"
)
"""A term and what it means: "sc = single crochet", "sk – skip"."""
BEGINS = re.compile(
    r"(?i)\s*(?:(?:(?:still\s|working\s)?with|w|using|in)\s[\w. ]{1,24}?,?\s|to (?:begin|start),?\s|starting at [\w ]{1,30},?\s|"
    r"commence with\s)?(?:(?:make a\sslip[\s-]?knot(?:\son\s(?:the\s|your\s)?hook)?(?:,|\sand|,\sthen)\s)?"
    r"(?:make a\s)?ch(?:ain)?(?:\sof)?\.?\s?\d+"
    r"|\d+\s?ch(?:ain)?s?\.?\s*$"
    r"|\d+(?:\s?\([\d,: ]{1,40}\))?\s?ch(?:ain)?\b"
    r"|(?:make|work|(?:begin|commence|start)(?:\s(?:in|at)\s(?:the\s)?cent(?:re|er))?\swith)\s(?:a\s)?"
    r"\d+(?:\s?\([\d,: ]{1,40}\))?\s?ch(?:ain)?\b)"
)
_N = (
    r"(?:\d+(?:\s?[(\[][\d,: /-]{1,40}[)\]])?|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[ -][a-z]{3,5})?|"
    r"two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]{3,5}teen|a\shundred|one\shundred)"
)
_STITCH = r"(?:sc|hdc|dc|tr|(?:(?:single|half[ -]double|double|treble|triple)(?:\scrochet)?))(?:\s(?:sts|stitches))?(?:\s\(\w{3,5}\))?"
FOUNDS = re.compile(
    r"(?i)\s*[*_=]{0,3}(?:(?:with|w|using|in|on|for)\s[\w. ]{1,40}?,?\s|to (?:begin|start),?\s|starting at [\w ]{1,30},?\s)?"
    r"(?:(?:make|work|crochet|form|begin|start|commence|cast\son)\s"
    r"(?:(?:at|in|from)\s(?:the\s)?[\w ]{2,30}?\s(?=with\b))?(?:(?:with|by|on)\s)?(?:(?:making|working|chaining|casting\son)\s)?)?"
    r"(?:a\s|an\s|your\s|the\s)?(?:foundation\s|starting\s|base\s|commencing\s|loose\s)?"
    rf"(?:(?:chain|ch)\.?\s(?:of\s|with\s)?{_N}\b|foundation\sof\s{_N}\s(?:ch|chains?|stitches|sts)\b"
    rf"|chaining\s{_N}\b|{_N}\s?(?:foundation\s|loose\s)?(?:ch|chains?)\b|f(?:sc|hdc|dc)\s(?:x\s?)?{_N}|{_N}\sf(?:sc|hdc|dc)\b"
    rf"|(?:{_N}\sfoundation[ -]{_STITCH}|foundation[ -]{_STITCH}\s(?:x\s?)?{_N})\b)"
)
"""A line above the first row that tells its foundation: "Commence with a chain of 40", "Cast on 62 ch", "Make 20 chain stitches"."""
COUNTS = re.compile(
    r"(?i)(?:starting |beginning |turning )?ch(?:ain)?s?[\s-]?\d?[^.;:\n()]{0,50}?\s"
    r"(?:counts?|counted|(?:does|do|will|is|are)(?:\s?n['’o]t)?\s+count|stands?)\b"
)
"""A rule on what a starting chain counts as, and no chain to be made."""
CHAIN_TOLD = re.compile(
    r"(?im)(?:^\s*|[.,;:)]\s{1,3}(?:(?:so|then|thus|therefore|hence|here|now|i\.?e\.?,?)\s(?:(?:i|we|you|just|have|make|made)\s){0,2}"
    r"(?=(?:ch|chain|made)\D{0,4}\d\d)|for\s(?:the|this|a|my|our)\s[a-z]{3,12}(?:\s(?:shown|here|pictured))?,?\s(?=ch(?:ain)?\s\d\d))?"
    r"|\((?=ch(?:ain)?\s\d\d)|\.-{1,2}\s{0,3}|\n\s*)(?P<ch>(?:(?:with|w|using|in)\s[\w ]{1,20}?,?\s)?"
    r"(?:(?:(?:make\s)?(?:a\s)?slip[\s-]?(?:knot|loop)(?:\son\s(?:the\s|your\s)?hook)?(?:,|\sand|,\sand)?\s(?:then\s)?)?"
    r"(?:make\sa\s)?ch(?:ain)?(?:\sof)?\s?\d+(?!\d|s?\s(?:is|are|counts?|stands?|does|do|will|never|always)\b|\s?=)"
    r"|(?:make|work|commence\swith|begin\swith|start\swith)\s(?:a\s)?\d+\s?ch(?:ain)?\b|(?-i:[A-Z][a-z]{2,8})\s\d+\sch(?:ain)?s?(?=\s*(?:[.\n]|\Z))"
    r"|\d{2,3}(?:\s?\([\d,: ]{1,40}\))?\s?ch(?:ain)?s?(?=\s*(?:[.\n]|\Z))"
    r"|(?:wind|wrap|twist)\s(?:the\s|your\s)?(?:thread|cotton|yarn|wool|padding)\b[^.]{4,120}\b(?:ring|circle|loop)\b))"
)
WORD = re.compile(r"[A-Za-z]+")
RING_BEGUN = re.compile(
    r"(?i)\s*[*_]{0,3}(?:(?:start|begin)\s(?:off\s)?(?:with|by\smaking)|"
    r"(?:(?:with|using|in)\s[\w ]{1,24}?,\s)?(?:first,?\s)?(?:make|form|create|do))"
    r"\s(?:a|an|your)\s(?:magic|adjustable|sliding)\s(?:ring|circle|loop)\b(?!\s(?:if|is|or)\b)"
)
""" "Make a magic ring." on a line of its own, also where the section above was one of notes. """
RING_FIRST = re.compile(
    r"(?i)\s*(?:(?:with|w|using|in|into)\s[\w. ]{1,24}?,\s)?(?:(?:begin|start)\swith\s|make\s|form\s|into\s|in\s)?(?:an?\s)?"
    r"(?:(?:magic|adjustable|sliding|slip)\s(?:ring|circle|loop)|mr)\b(?:[,.;:]|\s(?:and|then|with)\b)"
)
""" "Magic ring, ch 2, …" behind a piece's name. """
