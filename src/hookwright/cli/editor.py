"""`hookwright editor`: the language server."""

from __future__ import annotations


def editor() -> int:
    """Serve an editor over standard input and output, by the Language Server Protocol. Started by editors, not by hand."""
    from ..editor import make_server

    make_server().start_io()
    return 0
