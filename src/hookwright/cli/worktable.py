"""`hookwright worktable`: the page in the browser."""

from __future__ import annotations

import socket
from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from .common import CannotDo

PORT = 4173


def worktable(
    *,
    folder: Annotated[Path | None, Parameter(help="The folder that holds the patterns (made when it is missing).")] = None,
    port: Annotated[int | None, Parameter(help="The port on this computer; a free one when not told.")] = None,
    browser: Annotated[bool, Parameter(help="Open the page in the browser.")] = True,
) -> int:
    """Open the worktable: write, see, ask, draft, log, teach and publish on one page in the browser. Nothing leaves this computer.

    Without --folder the patterns are kept in the folder “Hookwright” of your home folder.
    """
    root = (folder or Path.home() / "Hookwright").expanduser()
    _make_folder(root)
    listener = _listen(port)
    if listener is None:
        raise CannotDo(f"Port {port} is in use by another program; choose another with --port, or leave it out.")
    address = f"http://127.0.0.1:{listener.getsockname()[1]}/"
    print(f"The worktable lies ready at {address}  (patterns in {root}; end with Ctrl-C)", flush=True)
    _serve(root, listener, address if browser else None)
    return 0


def _make_folder(root: Path) -> None:
    try:
        root.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError):
        raise CannotDo(f"{root} is not a folder; name one with --folder.") from None
    except OSError as trouble:
        raise CannotDo(f"The folder {root} could not be made ({trouble.strerror}); name another with --folder.") from trouble


def _listen(port: int | None) -> socket.socket | None:
    """A listener on the loopback address: the port told, else our usual one, else any free one."""
    for wish in (port,) if port is not None else (PORT, 0):
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind(("127.0.0.1", wish))
            listener.listen(128)  # from here on a browser that is quicker than we are waits instead of being refused
        except OSError:
            listener.close()
        else:
            return listener
    return None


def _serve(root: Path, listener: socket.socket, show: str | None) -> None:
    import threading
    import webbrowser

    import uvicorn

    from ..worktable import Table, make_app

    settings = uvicorn.Config(
        make_app(Table(root, bring=_bring)),
        log_level="warning",
        access_log=False,
        server_header=False,
        ws_max_size=8_000_000,
        timeout_graceful_shutdown=3,
    )
    if show:
        threading.Timer(0.8, webbrowser.open, (show,)).start()
    uvicorn.Server(settings).run(sockets=[listener])


def _bring(data: bytes, name: str) -> str:
    """A document's pattern, read by `importing` in its own process with limits."""
    from ..importing import CannotRead, read_document
    from ..worktable import Refusal

    try:
        return read_document(data, name)
    except CannotRead as reason:
        raise Refusal(str(reason)) from reason
