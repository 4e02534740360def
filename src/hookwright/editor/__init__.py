"""The editor server: a shell that brings `session` to any editor that speaks the Language Server Protocol."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pygls.lsp.server import LanguageServer


def make_server() -> LanguageServer:
    """A server ready to be started (`start_io`)."""
    from .server import make_server as make

    return make()


__all__ = ["make_server"]
