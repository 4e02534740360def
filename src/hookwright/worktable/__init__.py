"""The worktable: a local server and its page. A shell: no craft logic, only the packages' answers brought to a browser."""

from .app import Table, make_app

__all__ = ["Table", "make_app"]
