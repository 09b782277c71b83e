"""Publishes of one workbook beside its cache, and what is seen of them."""

from baybook.desk.publishing import run_publish
from baybook.pipeline import render
from conftest import TODAY
from workbooks import COBBLE, TANSY

JOBS = {TANSY: "j1", COBBLE: "j9"}
ALL = {"brunsall-tansy", "dunstrel-cobble", "dunstrel-cobble-tow-pack"}


def made(root, *, today=TODAY, drafts=False, cache=None, workers=1):
    """Return a publish with the cache, after comparing it to one without; and what it made."""
    ticks = []
    again = render(
        root,
        today=today,
        drafts=drafts,
        cache=cache or root.parent / "cache",
        workers=workers,
        progress=lambda *tick: ticks.append(tick),
    )
    anew = render(root, today=today, drafts=drafts, workers=1)
    assert again.problems == anew.problems
    assert again.lost == anew.lost
    assert again.reports == anew.reports
    assert again.until == anew.until
    assert dict(again.issued) == dict(anew.issued)
    assert dict(again.files) == dict(anew.files)
    return sum(stage == "make" for stage, *_ in ticks)


def blobs(top, kind="blobs"):
    return sorted(path for path in (top / "cache" / kind).rglob("*") if path.is_file())


def stood(top):
    stats = {path: path.stat() for path in (top / "site").rglob("*")}
    return {path: (stat.st_ino, stat.st_mtime_ns) for path, stat in stats.items()}


def command(top, **changes):
    asked = {"drafts": False, "today": TODAY, "cache": top / "cache"} | changes
    return run_publish(top / "fits", top / "site", **asked)
