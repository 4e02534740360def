"""The worktable: a local server and its page. A shell: no craft logic, only the packages' answers brought to a browser."""

from .app import Table, make_app
from .bench import Refusal

__all__ = ["Refusal", "Table", "make_app"]
