"""Documents from elsewhere → the same as a Markdown pattern: .docx, .html, .pdf, .txt. Read in a child process with limits."""

from .outside import KINDS, CannotRead, read_document

__all__ = ["KINDS", "CannotRead", "read_document"]
