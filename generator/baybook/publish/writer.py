"""The one place that writes a site: staging beside the output, then one swap.

A publish that fails or is killed leaves the old site whole. The output holds a marker with the
list of what we wrote; a folder without it, or with anything beside what it lists, is not ours and
is never touched.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from baybook.publish.inventory import walked
from baybook.publish.swap import recover, swap

try:
    import fcntl
except ImportError:  # no POSIX: two publishes at once are then for the user to avoid
    fcntl = None  # type: ignore[assignment]

Known = Callable[[str, Path], bool]

MARKER = ".baybook"
_FIRST_LINE = "Made by baybook. Every publish replaces this whole folder. It holds:"


class WriterError(Exception):
    """Nothing was written: it says why, and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What a publish did to the output."""

    new: int  # files that were not there, or not with this content
    kept: int  # files taken over as they stood, by hard link
    gone: int  # files that were there and are no longer


def _nothing() -> None:
    """Keep nothing."""


def _not_known(_address: str, _file: Path) -> bool:
    """Know nothing of the old site: its files are read."""
    return False


def publish_tree(
    files: Mapping[str, bytes],
    output: Path,
    *,
    workbook: Path | None = None,
    before_swap: Callable[[], None] = _nothing,
    known: Known = _not_known,
) -> Written:
    """Make `output` hold exactly `files`, in one step.

    before_swap  is called when the new site is ready on the disk; if it raises, the old one stays
    known        tells, without reading it, that an old file holds what is to stand at an address

    Raises WriterError, with the output as it was, for an address that leaves the output, an output
    that is not ours or lies in the workbook, and for another publish that is under way.
    """
    for address in files:
        _refuse_address(address)
    place = require_output(output, workbook)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        with _lock(place.parent):
            return _publish(files, place, before_swap, known)
    except OSError as cause:
        where = f" ({cause.filename})" if cause.filename else ""
        reason = f"{output} cannot be written: {cause.strerror or cause}{where}"
        raise WriterError(reason) from cause


def require_output(output: Path, workbook: Path | None) -> Path:
    """Return the place of the output. Raises WriterError for one that may not be written.

    A publish asks before its work, so that nobody waits for a refusal.
    """
    place = output.resolve()
    if workbook is not None:
        _refuse_nested(place, workbook.resolve())
    _ours(place)
    return place


def _publish(
    files: Mapping[str, bytes], place: Path, before_swap: Callable[[], None], known: Known
) -> Written:
    staging = place.with_name(f".{place.name}.baybook-staging")
    spare = place.with_name(f".{place.name}.baybook-previous")
    recover(place, spare)
    before = _ours(place)
    _clean(staging)
    _clean(spare)
    try:
        kept = _stage(files, staging, place if before else None, known)
        before_swap()
        old = swap(staging, place, spare)
    except BaseException:
        shutil.rmtree(staging, ignore_errors=True)
        raise
    if old is not None:
        # The new site stands; what is left of the old one goes now, or with the next publish.
        shutil.rmtree(old, ignore_errors=True)
    return Written(new=len(files) - kept, kept=kept, gone=len(before - set(files)))


def _stage(files: Mapping[str, bytes], staging: Path, old: Path | None, known: Known) -> int:
    """Write all files into `staging`; return how many were taken over from `old`."""
    staging.mkdir()
    (staging / MARKER).write_text("\n".join([_FIRST_LINE, *sorted(files)]) + "\n", "utf-8")
    made: set[Path] = set()
    kept = 0
    for address in sorted(files):
        target = staging / address
        if target.parent not in made:
            target.parent.mkdir(parents=True, exist_ok=True)
            made.add(target.parent)
        if old is not None and known(address, old / address) and _linked(old / address, target):
            kept += 1
            continue
        kept += _place(files[address], target, old / address if old else None)
    return kept


def _place(content: bytes, target: Path, old: Path | None) -> bool:
    """Write one file, or link the old one if it holds the same; return whether it was linked."""
    if old is not None and _holds(old, content) and _linked(old, target):
        return True
    target.write_bytes(content)
    return False


def _linked(old: Path, target: Path) -> bool:
    try:
        os.link(old, target)
    except OSError:  # a file system without hard links
        return False
    return True


def _holds(file: Path, content: bytes) -> bool:
    if file.is_symlink() or not file.is_file():
        return False
    return file.stat().st_size == len(content) and file.read_bytes() == content


# ------------------------------------------------------------------ what is refused


def _refuse_address(address: str) -> None:
    parts = PurePosixPath(address).parts
    plain = address == "/".join(parts) and address not in {"", "."}
    strange = any(sign in address for sign in ("\\", ":", "\0", "\n"))
    if (
        not plain
        or strange
        or ".." in parts
        or address.startswith("/")
        or parts[0].casefold() == MARKER
    ):
        raise WriterError(f"`{address}` is no address inside a site; nothing was written")


def _refuse_nested(place: Path, workbook: Path) -> None:
    if place.is_relative_to(workbook) or workbook.is_relative_to(place):
        raise WriterError(
            f"the output {place} and the workbook {workbook} lie in each other; "
            "name an output outside the workbook, such as --output ../_site"
        )


def _ours(place: Path) -> set[str]:
    """Return the addresses that stand in the output; refuse a folder that is not ours."""
    if not place.exists():
        return set()
    if not place.is_dir():
        raise WriterError(f"{place} is a file; name a folder with --output")
    there = {name for name, _ in walked(place)}
    if not there:
        return set()
    listed = _listed(place)
    if listed is None:
        raise WriterError(
            f"{place} was not made by baybook; name an empty or new folder with --output"
        )
    foreign = sorted(there - listed - {MARKER})
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise WriterError(
            f"{place} holds {foreign[0]}{more}, not made by baybook; move it out first"
        )
    return there - {MARKER}


def _listed(place: Path) -> set[str] | None:
    try:
        first, *addresses = (place / MARKER).read_text("utf-8").splitlines()
    except (FileNotFoundError, IsADirectoryError, UnicodeDecodeError, ValueError):
        return None
    return set(addresses) if first == _FIRST_LINE else None


def _clean(leftover: Path) -> None:
    """Take away what a killed publish left, if it is ours."""
    if not leftover.exists():
        return
    if any(leftover.iterdir()) and _listed(leftover) is None:
        raise WriterError(
            f"{leftover} is in the way and was not made by baybook; move it out first"
        )
    shutil.rmtree(leftover)


@contextmanager
def _lock(folder: Path) -> Iterator[None]:
    """Keep a second publish out of `folder`. The lock dies with its process."""
    if fcntl is None:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        os.close(handle)
        raise WriterError(
            f"another publish is writing in {folder}; wait until it is done"
        ) from None
    try:
        yield
    finally:
        os.close(handle)
