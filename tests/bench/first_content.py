"""How soon a phone on a slow network shows something: `python tests/bench/first_content.py SITE`.

Chromium slowed as a phone is, the site served on loopback, packed as a host would. Each page is
opened seven times with an empty cache; the middle value of its first contentful paint is printed.
"""

import os
import shutil
import statistics
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

sys.path.insert(0, str(Path(__file__).parents[1]))

from browser.test_first_content import BITS_PER_SECOND, ROUND_TRIP_S
from serving import Packed, serving

PAGES = ("index.html", "guides/dunstrel-cobble/j9b/index.html", "manual/vehicle.html")
SLOWER = 4  # a phone's processor to this one: from memory, as the profile's other figures
TIMES = 7
PAINTED = """() => new Promise((told) => new PerformanceObserver((list) => {
  for (const entry of list.getEntriesByName("first-contentful-paint")) told(entry.startTime);
}).observe({ type: "paint", buffered: true }))"""


@contextmanager
def chromium() -> Iterator[Browser]:
    os.environ.setdefault("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")
    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        yield browser
        browser.close()


def painted_ms(browser: Browser, address: str) -> float:
    """Return when a page that was never seen before shows its first content."""
    context = browser.new_context(viewport={"width": 360, "height": 720}, device_scale_factor=2)
    page = context.new_page()
    slow = context.new_cdp_session(page)
    slow.send(
        "Network.emulateNetworkConditions",
        {
            "offline": False,
            "latency": ROUND_TRIP_S * 1000,
            "downloadThroughput": BITS_PER_SECOND / 8,
            "uploadThroughput": BITS_PER_SECOND / 8,
        },
    )
    slow.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(address)
    at = page.evaluate(PAINTED)
    context.close()
    return float(at)


if __name__ == "__main__":
    with serving(Path(sys.argv[1]), Packed) as served, chromium() as running:
        for name in PAGES:
            found = [painted_ms(running, served.address + name) for _ in range(TIMES)]
            middle, least, most = statistics.median(found), min(found), max(found)
            print(f"{name:45} {middle:6.0f} ms of {least:.0f} to {most:.0f}")
