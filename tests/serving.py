"""A folder served on loopback, as a host would serve it."""

import gzip
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_args):
        """Print nothing."""


class Packed(_Quiet):
    """Sends what is text as a host does, packed."""

    def do_GET(self) -> None:
        file = Path(self.translate_path(self.path))
        if not file.is_file() or file.suffix not in {".css", ".html", ".js", ".json", ".svg"}:
            super().do_GET()
            return
        content = gzip.compress(file.read_bytes(), 6)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(file)))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)


class Served:
    """A folder's address, until it is cut off."""

    def __init__(self, folder: Path, way: type[_Quiet]) -> None:
        self._server = ThreadingHTTPServer(("127.0.0.1", 0), partial(way, directory=str(folder)))
        self._thread = threading.Thread(target=self._server.serve_forever, daemon=True)
        self._thread.start()
        self.address = f"http://127.0.0.1:{self._server.server_address[1]}/"

    def cut(self) -> None:
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()


@contextmanager
def serving(folder: Path, way: type[_Quiet] = _Quiet) -> Iterator[Served]:
    served = Served(folder, way)
    try:
        yield served
    finally:
        served.cut()
