"""A folder served on loopback, as a host would serve it."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_args):
        """Print nothing."""


class Served:
    """A folder's address, until it is cut off."""

    def __init__(self, folder: Path) -> None:
        self._server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)
        self._thread.start()
        self.address = f"http://127.0.0.1:{self._server.server_address[1]}/"

    def cut(self) -> None:
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()


@contextmanager
def serving(folder: Path) -> Iterator[Served]:
    served = Served(folder)
    try:
        yield served
    finally:
        served.cut()
