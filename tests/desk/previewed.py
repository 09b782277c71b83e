"""A real preview of a copied workbook, asked and saved to by tests."""

import socket
import time
from contextlib import contextmanager
from datetime import date
from http.client import HTTPConnection
from threading import Event, Thread

from baybook.desk.preview import follow
from baybook.desk.preview_server import PreviewServer
from baybook.desk.preview_site import PreviewSite
from workbooks import TANSY, alone, copy_workbook, leave_only

TODAY = date(2024, 12, 2)
PAGE = "/guides/brunsall-tansy/j1/index.html"
LATEST_S = 60  # how long a save may take on a machine that is busy with other things


def small(folder):
    """Return the example with one vehicle and one of its fits."""
    book = copy_workbook(folder)
    leave_only(book, "brunsall-tansy")
    alone(book / TANSY, "j1")
    return book


@contextmanager
def preview(book, templates=None):
    """Serve a workbook and follow its saves, and those of templates of the shop's own."""
    site = PreviewSite(book, drafts=False, today=lambda: TODAY, templates=templates)
    server = PreviewServer(site, "127.0.0.1", 0)
    stop = Event()
    workers = [
        Thread(target=server.serve_forever, daemon=True),
        Thread(target=follow, args=(site, stop), daemon=True),
    ]
    for worker in workers:
        worker.start()
    try:
        until(lambda: site.state > 0)
        yield server
    finally:
        stop.set()
        server.shutdown()
        server.server_close()
        for worker in workers:
            worker.join(LATEST_S)
        assert not any(worker.is_alive() for worker in workers)


def ask(server, path, method="GET", host=None):
    connection = HTTPConnection("127.0.0.1", server.port, timeout=LATEST_S)
    connection.request(method, path, headers={"Host": host} if host else {})
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer.status, body


def raw(server, data):
    """Send bytes as they are; return the first line of the answer, b"" for a closed line."""
    return whole(server, data).partition(b"\n")[0]


def whole(server, data):
    """Send bytes as they are; return the whole answer, b"" for a closed line."""
    with socket.create_connection(("127.0.0.1", server.port), timeout=LATEST_S) as line:
        try:
            line.sendall(data)
            line.shutdown(socket.SHUT_WR)
            return line.makefile("rb").read()
        except OSError:  # the server has closed the line already
            return b""


def until(true):
    end = time.monotonic() + LATEST_S
    while not true():
        assert time.monotonic() < end, "nothing changed in time"
        time.sleep(0.05)


def body_of(server, path=PAGE):
    return ask(server, path)[1]
