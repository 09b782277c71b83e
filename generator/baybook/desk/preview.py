"""`baybook preview`: the site as it is saved, on this machine only, made anew on each save."""

from __future__ import annotations

import gc
from collections.abc import Callable
from threading import Event, Thread

import click
from watchfiles import watch

from baybook.desk.preview_server import PreviewServer
from baybook.desk.preview_site import PreviewSite

_STEP_MS = 20  # quiet for so long: the save is over
_LONGEST_MS = 250  # of saves without a pause
_PULSE_MS = 400  # how soon a stop is noticed


def run_preview(site: PreviewSite, *, address: str, port: int) -> int:
    """Serve until Ctrl-C; return the exit status."""
    try:
        server = PreviewServer(site, address, port)
    except OSError as cause:
        click.echo(f"no preview at {address}, port {port}: {cause.strerror or cause}", err=True)
        return 1
    click.echo(f"preview: {server.url}  (Ctrl-C ends it; prints are made when they are opened)")
    stop = Event()
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        follow(site, stop, say=lambda text: click.echo(text, err=True))
    except KeyboardInterrupt:
        pass
    finally:
        server.shutdown()
        server.server_close()
    click.echo("preview ended")
    return 0


def follow(site: PreviewSite, stop: Event, say: Callable[[str], None] = lambda _text: None) -> None:
    """Work out the workbook, and again after each save, until `stop` is set."""
    first = True
    for saved in watch(
        *site.folders,
        stop_event=stop,
        step=_STEP_MS,
        debounce=_LONGEST_MS,
        rust_timeout=_PULSE_MS,
        yield_on_timeout=True,
        raise_interrupt=True,
    ):
        if not saved and not first:
            continue
        # The first look comes when the watch stands, so that no save falls between them.
        site.refresh(None if first else [path for _, path in saved])
        if first:
            gc.freeze()  # what is kept stays: the collector need not walk it on every save
        first = False
        wrong = len(site.findings) + bool(site.stopped)
        say(f"{wrong} to mend; the page says where" if wrong else "ready")
