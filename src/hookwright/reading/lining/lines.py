"""Line ends that stand for full stops: in a text that is not wrapped a new line with a capital begins a new sentence."""

from __future__ import annotations

import re

_NEW_SENTENCE = re.compile(r"(?<=[^\s.,;:*(\[{&+\-])([ \t]*)\n(?=[ \t]*[A-Z])")


def sentences_ended(text: str) -> str:
    """The text with a full stop in place of such line ends; nothing moves.

    >>> sentences_ended("sc around = 30 sc\\nCut yarn.")
    'sc around = 30 sc.Cut yarn.'
    """
    return _NEW_SENTENCE.sub(lambda match: match[1] + ".", text) if "\n" in text else text
