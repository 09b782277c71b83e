"""The preview's server: loopback only, GET and HEAD only, nothing but what the site holds.

It never opens a file: an address is looked up in the site in memory. The Host header has to name
this machine, or a page of another site could read the preview under a name of its own.
"""

from __future__ import annotations

import mimetypes
import socket
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from ipaddress import ip_address
from urllib.parse import parse_qs, unquote, urlsplit

from baybook.desk.preview_panel import beside, with_panel, without_site
from baybook.desk.preview_site import PreviewSite

_RELOAD = b"location.reload();\n"
_OURS = "_preview/"
mimetypes.add_type("image/webp", ".webp")  # older tables lack it; a browser shows no other kind


def require_loopback(address: str) -> str:
    """Return an address of this machine. Raises ValueError for any other."""
    plain = {"localhost": "127.0.0.1"}.get(address, address)
    if plain not in {"127.0.0.1", "::1"}:
        raise ValueError(
            f"`{address}` is not a loopback address; the preview is for this machine only: "
            "127.0.0.1 or ::1"
        )
    return plain


class PreviewServer(ThreadingHTTPServer):
    daemon_threads = True

    def __init__(self, site: PreviewSite, address: str, port: int) -> None:
        plain = require_loopback(address)
        six = ip_address(plain).version == 6  # noqa: PLR2004 - the version of the protocol
        self.address_family = socket.AF_INET6 if six else socket.AF_INET
        self.site = site
        super().__init__((plain, port), _Handler)
        self.port = int(self.server_address[1])
        names = ("localhost", "[::1]" if six else "127.0.0.1")
        self.hosts = frozenset(f"{name}:{self.port}" for name in names)
        self.url = f"http://{names[1]}:{self.port}/"

    def handle_error(self, _request: object, _client: object) -> None:
        """Say nothing: a browser that hangs up, or talks nonsense, is no matter of the preview."""


class _Handler(BaseHTTPRequestHandler):
    server: PreviewServer
    server_version, sys_version = "baybook-preview", ""
    timeout = 30  # seconds for a request to come in

    def do_GET(self) -> None:
        self._answer()

    def do_HEAD(self) -> None:
        self._answer()

    def log_message(self, *_: object) -> None:
        """Log nothing: the terminal is for findings."""

    def _answer(self) -> None:
        hosts = self.headers.get_all("Host") or [""]
        if len(hosts) > 1 or hosts[0].lower() not in self.server.hosts:
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST)
            return
        found = self._found()
        if found is None:
            self.send_error(HTTPStatus.NOT_FOUND)
            return
        status, kind, body = found
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def _found(self) -> tuple[HTTPStatus, str, bytes] | None:
        try:
            asked = urlsplit(self.path)
            address = unquote(asked.path, errors="strict").removeprefix("/")
        except ValueError:
            return None
        if address.startswith(_OURS):
            return self._ours(address.removeprefix(_OURS), asked.query)
        name = f"{address}index.html" if address == "" or address.endswith("/") else address
        site = self.server.site
        state = site.state  # before the page: a save in between makes it load again
        body = site.get(name)
        kind = mimetypes.guess_type(name)[0] or "application/octet-stream"
        if kind == "text/html":
            page = without_site(site) if body is None else body
            status = HTTPStatus.NOT_FOUND if body is None else HTTPStatus.OK
            return status, "text/html; charset=utf-8", with_panel(page, site, state)
        return None if body is None else (HTTPStatus.OK, _with_charset(kind), body)

    def _ours(self, name: str, query: str) -> tuple[HTTPStatus, str, bytes] | None:
        if name == "wait.js":
            at = parse_qs(query).get("at", [""])[0]
            known = int(at) if at.isascii() and at.isdigit() and len(at) < 10 else -1  # noqa: PLR2004
            body = _RELOAD if self.command != "HEAD" and self.server.site.wait(known) else b""
            return HTTPStatus.OK, "text/javascript; charset=utf-8", body
        content = beside().get(name)
        kind = mimetypes.guess_type(name)[0] or ""
        return None if content is None else (HTTPStatus.OK, _with_charset(kind), content)


def _with_charset(kind: str) -> str:
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind
