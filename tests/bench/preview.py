"""From a save to the page: `python tests/bench/preview.py [COUNT]`, a vehicle of one fit each.

The server runs in this process and is asked over a socket; the clock starts as the file is
written. CPU seconds of the process stand beside it, for a machine with other work.
"""

import re
import sys
import tempfile
import time
from datetime import date
from http.client import HTTPConnection
from pathlib import Path
from statistics import median
from threading import Event, Thread

sys.path.insert(0, str(Path(__file__).parents[1]))

from baybook.desk.preview import follow
from baybook.desk.preview_server import PreviewServer
from baybook.desk.preview_site import PreviewSite
from bench.workbook import generate

SAVES = 9


def page(server, address):
    """Return the bytes of a page."""
    line = HTTPConnection("127.0.0.1", server.port, timeout=600)
    line.request("GET", address)
    body = line.getresponse().read()
    line.close()
    return body


def save(site, server, file, number):
    """Change one model's name; return wall and CPU seconds to the page that shows it."""
    text = re.sub(r"(?m)^model: .*$", f"model: Saved {number}", file.read_text("utf-8"))
    state = site.state
    wall, cpu = time.perf_counter(), time.process_time()
    file.write_text(text, "utf-8")
    while site.state == state:
        site.wait(state)
    ready = time.perf_counter() - wall
    body = page(server, f"/guides/{file.parent.name}/j9b/index.html")
    assert f"Saved {number}".encode() in body
    return ready, time.perf_counter() - wall, time.process_time() - cpu


def main(count):
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        book = generate(Path(folder) / "fits", count)
        site = PreviewSite(book, drafts=False, today=lambda: date(2024, 12, 2))
        server, stop = PreviewServer(site, "127.0.0.1", 0), Event()
        Thread(target=server.serve_forever, daemon=True).start()
        follower = Thread(target=follow, args=(site, stop), daemon=True)
        begun = time.process_time()
        follower.start()
        while site.state == 0:
            site.wait(0)
        cold = time.process_time() - begun
        file = sorted((book / "vehicles").iterdir())[count // 2] / "vehicle.yaml"
        took = [save(site, server, file, number) for number in range(SAVES)][1:]
        stop.set()
        follower.join()
        server.shutdown()
    print(f"{count} vehicles: first look {cold:.1f} s CPU; then, median of {len(took)} saves:")
    for what, seconds in zip(
        ("worked out", "page there", "CPU"), zip(*took, strict=True), strict=True
    ):
        print(f"  {what}: {median(seconds) * 1000:.0f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
