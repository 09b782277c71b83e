"""The preview's server: nothing outside the site, whatever is asked, and however."""

import socket
from contextlib import ExitStack
from itertools import product
from urllib.parse import quote

import pytest
from click.testing import CliRunner

from audited import audited
from baybook.cli import main
from baybook.desk.preview_server import require_loopback
from desk.previewed import ask, raw, whole

DOTS = (
    "..",
    "%2e%2e",
    "%2E.",
    "%252e%252e",
    "%c0%ae%c0%ae",
    "%uff0e%uff0e",
    "%ef%bc%8e%ef%bc%8e",
    "....",
)
SLASHES = ("/", "//", "%2f", "%252F", "\\", "%5c", "%c0%af", "/./", ";/", "%00/")
OUTSIDE = ("shop.yaml", "etc/passwd")
STARTS = (
    "/",
    "/guides/brunsall-tansy/j1/",
    "/assets/",
    "/_preview/",
    "http://127.0.0.1/",
    "file:///",
)


@pytest.mark.parametrize(
    "path",
    [
        "/../shop.yaml",
        "/%2e%2e/shop.yaml",
        "/guides/../../shop.yaml",
        "/..%2f..%2fetc%2fpasswd",
        "//etc/passwd",
        "/etc/passwd",
        "/guides/brunsall-tansy/j1/../../../../shop.yaml",
        "/shop.yaml",
        "/vehicles/brunsall-tansy/vehicle.yaml",
        "/assets/../shop.yaml",
        "/%00",
        "/%ff",
        "/\\..\\shop.yaml",
        "/guides/a/b/c.pdf",
        "/guides/brunsall-tansy/j1/job-sheet-a3.pdf",
    ],
)
def test_nothing_outside_the_site(served, path):
    assert ask(served[1], path)[0] == 404


def test_no_spelling_of_a_way_out_leads_anywhere_or_opens_a_file(served):
    book, server = served
    secret = (book / "shop.yaml").read_bytes()[:200]
    for start, dots, slash, target in product(STARTS, DOTS, SLASHES, OUTSIDE):
        path = f"{start}{(dots + slash) * 4}{target}"
        with audited("process_request") as asked:
            answer = whole(server, f"GET {path} HTTP/1.1\r\n{host(server)}\r\n".encode())
        assert answer.split(b" ")[1] == b"404", path
        assert secret not in answer, path
        # To make a page, a template of ours may be opened.
        assert not [file for file in asked.read if file.startswith(str(book))], path
        assert not [file for file in asked.read if file.endswith(OUTSIDE)], path


def host(server):
    return f"Host: 127.0.0.1:{server.port}\r\nConnection: close\r\n"


@pytest.mark.parametrize(
    "data",
    [
        b"\r\n\r\n",
        b"GET\r\n\r\n",
        b"\x16\x03\x01\x00\xa5\x01\x00",
        b"GET / HTTP/9.9.9\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost\r\n\r\n",
        b"GET / HTTP/1.1\r\n" + b"X: y\r\n" * 500 + b"\r\n",
        b"GET /" + b"a" * 100_000 + b" HTTP/1.1\r\n\r\n",
        b"GET http://[ HTTP/1.1\r\nHost: x\r\n\r\n",
        b"POST / HTTP/1.1\r\nContent-Length: 3\r\n\r\nabc",
        b"GET / HTTP/1.0\r\n\r\n",
        b"\xff" * 300,
        b"GET / HTTP/1.1\r\nHost: " + b"a" * 100_000 + b"\r\n\r\n",
        b"GET / HTTP/1.1\r\n" + b"X: " + b"y" * 70_000 + b"\r\n\r\n",
        b"GET / HTTP/1.1\r\n: no name\r\n no value\r\n\r\n",
        b"GET /\x00index.html HTTP/1.1\r\n\r\n",
        b"GET  /  HTTP/1.1  \r\n\r\n",
        b"GET / / HTTP/1.1\r\n\r\n",
        b"GET / HTTP/-1.1\r\n\r\n",
        b"GET / HTTP/1.99999999999999999999\r\n\r\n",
        b"GET /%0d%0aX-Ours:%20no HTTP/1.1\r\n\r\n",
        b"CONNECT 127.0.0.1:22 HTTP/1.1\r\n\r\n",
        b"GET / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\nffffffffffffffff\r\n",
        b"GET / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
        b"GET /_preview/wait.js?at=" + b"9" * 5000 + b" HTTP/1.1\r\n\r\n",
        b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"\n" * 5000,
        b"",
    ],
)
def test_malformed_requests_change_nothing(served, data):
    _, server = served
    assert b" 200 " not in raw(server, data)
    assert ask(server, "/")[0] == 200


def test_a_name_in_an_address_never_becomes_a_header(served):
    _, server = served
    answer = whole(server, f"GET /%0d%0aX-Ours:%20no HTTP/1.1\r\n{host(server)}\r\n".encode())
    assert answer.startswith(b"HTTP/1.0 404 ")
    assert b"\nX-Ours" not in answer


@pytest.mark.parametrize("at", ["-1", "1e9", "٣", "9" * 5000, "0&at=1", ""])
def test_a_waiting_script_takes_any_state(served, at):
    asked = f"/_preview/wait.js?at={quote(at, safe='&')}"
    assert ask(served[1], asked) == (200, b"location.reload();\n")


def test_clients_that_say_nothing_stop_nobody(served):
    _, server = served
    with ExitStack() as lines:
        for _ in range(50):
            line = socket.create_connection(("127.0.0.1", server.port))
            lines.enter_context(line)
            line.sendall(b"GET / HTT")
        assert ask(server, "/")[0] == 200


def test_only_this_machine_by_its_own_name(served):
    _, server = served
    for host in ("evil.example", f"evil.example:{server.port}", "127.0.0.1:1", "localhost"):
        assert ask(server, "/", host=host)[0] == 421
    assert ask(server, "/", host=f"localhost:{server.port}")[0] == 200
    twice = f"Host: 127.0.0.1:{server.port}\r\n"
    assert b" 421 " in raw(server, f"GET / HTTP/1.1\r\n{twice}{twice}\r\n".encode())


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "TRACE"])
def test_nothing_but_get_and_head(served, method):
    assert ask(served[1], "/", method)[0] == 501
    assert ask(served[1], "/", "HEAD") == (200, b"")


@pytest.mark.parametrize("address", ["::", "192.168.1.2", "example.org", "", "127.1", "0"])
def test_refuses_an_address_that_others_reach(address):
    with pytest.raises(ValueError, match="loopback"):
        require_loopback(address)
    assert CliRunner().invoke(main, ["preview", "--address", address]).exit_code == 2
