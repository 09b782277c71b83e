"""`baybook preview`: a real server over a copied workbook, saved to, broken and mended."""

import re
import shutil
import socket
import time
from contextlib import contextmanager
from datetime import date
from http.client import HTTPConnection
from threading import Event, Thread

import pytest
from click.testing import CliRunner

from baybook.cli import main
from baybook.desk.preview import follow
from baybook.desk.preview_server import PreviewServer, require_loopback
from baybook.desk.preview_site import PreviewSite
from baybook.pipeline import render
from tongues import TEXTS
from tongues import workbook as two_tongues
from workbooks import COBBLE, SHOP, TANSY, alone, copy_workbook, edit, leave_only

TODAY = date(2024, 12, 2)
PAGE = "/guides/brunsall-tansy/j1/index.html"
LATEST_S = 60  # how long a save may take on a machine that is busy with other things


def small(folder):
    """Return the example with one vehicle and one of its fits."""
    book = copy_workbook(folder)
    leave_only(book, "brunsall-tansy")
    alone(book / TANSY, "j1")
    return book


@pytest.fixture(autouse=True)
def mended(request):
    """Leave the vehicle as it was, whatever a test did to it."""
    if "served" not in request.fixturenames:
        yield
        return
    book, _ = request.getfixturevalue("served")
    text = (book / TANSY).read_text("utf-8")
    yield
    (book / TANSY).write_text(text, "utf-8")


@contextmanager
def preview(book):
    """Serve a workbook and follow its saves."""
    site = PreviewSite(book, drafts=False, today=lambda: TODAY)
    server = PreviewServer(site, "127.0.0.1", 0)
    stop = Event()
    workers = [
        Thread(target=server.serve_forever, daemon=True),
        Thread(target=follow, args=(site, book, stop), daemon=True),
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


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    book = small(tmp_path_factory.mktemp("preview") / "fits")
    with preview(book) as server:
        yield book, server


def ask(server, path, method="GET", host=None):
    connection = HTTPConnection("127.0.0.1", server.port, timeout=LATEST_S)
    connection.request(method, path, headers={"Host": host} if host else {})
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer.status, body


def raw(server, data):
    """Send bytes as they are; return the first line of the answer, b"" for a closed line."""
    with socket.create_connection(("127.0.0.1", server.port), timeout=LATEST_S) as line:
        try:
            line.sendall(data)
            line.shutdown(socket.SHUT_WR)
            return line.makefile("rb").readline()
        except OSError:  # the server has closed the line already
            return b""


def until(true):
    end = time.monotonic() + LATEST_S
    while not true():
        assert time.monotonic() < end, "nothing changed in time"
        time.sleep(0.05)


def body_of(server, path=PAGE):
    return ask(server, path)[1]


def test_page_is_the_published_one_but_for_what_is_put_in(served):
    book, server = served
    published = render(book, today=TODAY).files
    for path in (PAGE, "/index.html", "/symbols.html"):
        page = body_of(server, path)
        at = page.index(b'<link rel="stylesheet" href="/_preview/')
        end = page.index(b"</head>")
        assert page[:at] + page[end:] == published[path[1:]]
    data = PAGE.replace("index.html", "guide.json")
    assert body_of(server, data) == published[data[1:]]
    assert not any(b"_preview" in content for content in published.values())
    pdf = PAGE.replace("index.html", "job-sheet-a4.pdf")
    assert body_of(server, pdf) == published[pdf[1:]]


def test_saved_broken_and_mended(served):
    book, server = served
    text = (book / TANSY).read_text("utf-8")
    before = body_of(server)
    edit(book, TANSY, "\nmodel: Tansy", "\nmodel: Tansy Nine")
    until(lambda: b"Tansy Nine" in body_of(server))
    assert b'class="preview"' not in body_of(server)
    good = body_of(server)

    edit(book, TANSY, "low: 12.3 V", "low: 12,3 V")
    line = text[: text.index("low: 12.3 V")].count("\n") + 1
    until(lambda: b'class="preview"' in body_of(server))
    broken = body_of(server)
    assert f"fits/{TANSY}:{line}:".encode() in broken
    assert b"Tansy Nine" in broken
    assert good.partition(b"<body")[2].partition(b">")[2] in broken  # the last good page, whole

    (book / TANSY).write_text(text, "utf-8")
    until(lambda: b"Tansy Nine" not in body_of(server))
    assert strip(body_of(server)) == strip(before)


def strip(page):
    return page.partition(b"<body")[2]


def test_refused_fit_keeps_its_last_good_page(served):
    book, server = served
    text = (book / TANSY).read_text("utf-8")
    edit(book, TANSY, "low: 12.3 V", "low: 9.1 V")
    until(lambda: b'class="preview"' in body_of(server))
    assert ask(server, PAGE)[0] == 200
    (book / TANSY).write_text(text, "utf-8")
    until(lambda: b'class="preview"' not in body_of(server))


def test_waiting_script_tells_of_a_save(served):
    _, server = served
    assert body_of(server, "/_preview/wait.js?at=0") == b"location.reload();\n"
    assert b"script-src 'self'" in body_of(server)
    assert ask(server, "/_preview/preview.js")[0] == 200
    assert ask(server, "/_preview/../shop.yaml")[0] == 404


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
    ],
)
def test_malformed_requests_change_nothing(served, data):
    _, server = served
    assert b" 200 " not in raw(server, data)
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


def test_thousand_rapid_saves_end_in_the_last_state(served):
    book, server = served
    text = (book / TANSY).read_text("utf-8")
    for number in range(1000):
        changed = text.replace("\nmodel: Tansy", f"\nmodel: Tansy {number:04d}")
        (book / TANSY).write_text(changed, "utf-8")
    until(lambda: b"Tansy 0999" in body_of(server))
    assert b'class="preview"' not in body_of(server)
    (book / TANSY).write_text(text, "utf-8")
    until(lambda: b"Tansy 0999" not in body_of(server))


def looked_at(root):
    site = PreviewSite(root, drafts=False, today=lambda: TODAY)
    site.refresh()
    assert (site.findings, site.stopped) == ((), "")
    return site


def test_a_save_of_a_vehicle_is_seen_in_its_variant(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    for vehicle in (root / "vehicles").iterdir():
        if not vehicle.name.startswith("dunstrel-cobble"):
            shutil.rmtree(vehicle)
    site = looked_at(root)
    tow = "guides/dunstrel-cobble-tow-pack/j9/index.html"
    assert b"Dunstrel Cobble" in site.get(tow)
    saved = edit(root, COBBLE, "\nmake: Dunstrel\n", "\nmake: Dunstrel-Nine\n")
    site.refresh([str(saved.resolve())])
    assert b"Dunstrel-Nine Cobble" in site.get(tow)
    assert b"Dunstrel-Nine Cobble" in site.get("guides/dunstrel-cobble/j9b/index.html")
    assert site.get("index.html").count(b"Dunstrel-Nine Cobble") >= 2


def test_every_language_is_shown_and_a_mended_text_at_once(tmp_path):
    root = two_tongues(tmp_path / "fits")
    site = looked_at(root)
    page = f"de{PAGE}"
    assert b'<html lang="de">' in site.get(page)
    assert "«Open the bonnet".encode() in site.get(page)
    saved = edit(root, TEXTS, "«Open the bonnet", "«Haube auf")
    site.refresh([str(saved.resolve())])
    assert "«Haube auf".encode() in site.get(page)
    assert b'<html lang="en">' in site.get(PAGE.removeprefix("/"))
    assert site.get("de/manual/start.html")
    assert b"Brunsall" in site.get("de/matrix.html")
    (root / SHOP).write_text("name: [", "utf-8")
    site.refresh([str((root / SHOP).resolve())])
    assert site.findings
    assert "«Haube auf".encode() in site.get(page)


# ------------------------------------------------------------------ pictures


def pictures_of(server):
    return set(re.findall(r"photos/brunsall-tansy/[0-9a-f]+-640\.webp", body_of(server).decode()))


def test_a_picture_is_served_as_one_and_a_saved_one_is_shown(served):
    book, server = served
    folder = book / "vehicles/brunsall-tansy/photos"
    first = pictures_of(server)
    assert len(first) > 4
    status, body = ask(server, f"/{min(first)}")
    assert (status, body[:4], body[8:12]) == (200, b"RIFF", b"WEBP")
    assert ask(server, "/photos/brunsall-tansy/none.webp")[0] == 404
    assert ask(server, "/photos/none/none.webp")[0] == 404
    told = server.site._good.hand
    kept = (folder / "fuel-flap.png").read_bytes()
    shutil.copy(folder / "door-plate.png", folder / "fuel-flap.png")
    until(lambda: pictures_of(server) < first)
    assert server.site._good.hand is told  # the vehicle alone was read again
    (folder / "fuel-flap.png").write_bytes(kept)
    until(lambda: pictures_of(server) == first)


def test_a_picture_that_is_taken_away_is_told_over_the_last_good_page(served):
    book, server = served
    file = book / "vehicles/brunsall-tansy/photos/fuel-flap.png"
    kept = file.read_bytes()
    file.unlink()
    until(lambda: b"DA-21" in body_of(server))
    assert b"Dunstrel" not in body_of(server)
    file.write_bytes(kept)
    until(lambda: b"DA-21" not in body_of(server))
