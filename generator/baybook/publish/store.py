"""What was made before, kept by what it was made from: a store of files, addressed by content.

Two kinds of entry. A *blob* is a finished file, named by the digest of its bytes. A *note* says
what was made from what: JSON under a key that its maker works out from everything it read. Both
are read back only whole: one that was half written, cut or changed is taken away and counts as
not there, so that it is made again.

Nothing is ever unpickled, and the folder is the user's own, never a workbook's: a workbook comes
from strangers, and what they put under a key would be published unchecked.
"""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Iterator, Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile, mkdtemp
from typing import Any
from weakref import finalize

import msgspec

from baybook.publish.compact import compact

_DAY_S = 86_400
KEPT_DAYS = 30  # what no publish asked for in that time is taken away


def digest(*parts: bytes) -> str:
    """Return the SHA-256 of several texts, none of which can run into the next."""
    whole = sha256()
    for part in parts:
        whole.update(len(part).to_bytes(8, "big"))
        whole.update(part)
    return whole.hexdigest()


class StoreError(Exception):
    """A kept file that went while it was needed: it says which, and what to do."""


class Store:
    """A folder of blobs and notes. Several processes may use it at once."""

    def __init__(self, folder: Path) -> None:
        """Use `folder`, which is made when the first entry is kept."""
        self.folder = folder

    def keep(self, content: bytes) -> str:
        """Keep a finished file; return the name that it is read back by."""
        name = sha256(content).hexdigest()
        path = self._path("blobs", name)
        if _used(path) != len(content):
            _write(path, content)
        return name

    def read(self, name: str) -> bytes | None:
        """Return a file that was kept, None if it is gone or no longer what was kept."""
        path = self._path("blobs", name)
        content = _content(path)
        if content is not None and sha256(content).hexdigest() != name:
            path.unlink(missing_ok=True)
            return None
        return content

    def has(self, name: str) -> bool:
        """Tell whether a file is there, without reading it: `read` looks at what is in it."""
        return _used(self._path("blobs", name)) is not None

    def note(self, key: str, said: Mapping[str, Any]) -> None:
        """Keep what was made under a key. A later note takes the place of an earlier one."""
        body = compact(said)
        _write(self._path("notes", key), digest(key.encode(), body).encode() + b"\n" + body)

    def noted(self, key: str) -> dict[str, Any] | None:
        """Return the note of a key, None if there is none, or none that is whole."""
        path = self._path("notes", key)
        content = _content(path)
        if content is None:
            return None
        seal, _, body = content.partition(b"\n")
        if seal.decode("ascii", "replace") != digest(key.encode(), body):
            path.unlink(missing_ok=True)
            return None
        _used(path)
        said: dict[str, Any] = msgspec.json.decode(body)
        return said

    def tidy(self, *, now: float | None = None) -> int:
        """Take away what nothing asked for in `KEPT_DAYS`, once a day; return how many went."""
        now = time.time() if now is None else now
        done, gone = self.folder / "tidied", 0
        if done.exists() and now - done.stat().st_mtime < _DAY_S:
            return gone
        self.folder.mkdir(parents=True, exist_ok=True)
        done.touch()
        os.utime(done, (now, now))
        oldest = now - KEPT_DAYS * _DAY_S
        for path in self.folder.glob("*/??/*"):
            with suppress(OSError):  # another publish may be tidying too
                if path.stat().st_mtime < oldest:
                    path.unlink()
                    gone += 1
        return gone

    def _path(self, kind: str, name: str) -> Path:
        return self.folder / kind / name[:2] / name[2:]


class PassingStore(Store):
    """A store that goes with the last thing that uses it."""

    def __init__(self) -> None:
        """Make a folder for passing files."""
        folder = mkdtemp(prefix="baybook-")
        super().__init__(Path(folder))
        finalize(self, shutil.rmtree, folder, ignore_errors=True)


class KeptFiles(Mapping[str, bytes]):
    """Files of a store by address, each read when it is asked for: few are held at a time."""

    def __init__(self, store: Store, names: Mapping[str, str]) -> None:
        """Take the names that the store gave the files, by address."""
        self.names = dict(sorted(names.items()))
        self._store = store

    def __getitem__(self, address: str) -> bytes:
        """Return a file. Raises StoreError if it is gone from the store."""
        content = self._store.read(self.names[address])
        if content is None:
            raise StoreError(f"{self._store.folder} lost {address}; publish again")
        return content

    def drop_broken(self) -> None:
        """Take every file out of the store that is no longer what was kept."""
        for name in self.names.values():
            self._store.read(name)

    def __iter__(self) -> Iterator[str]:
        return iter(self.names)

    def __len__(self) -> int:
        return len(self.names)


def _content(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None


def _used(path: Path) -> int | None:
    """Return the size of an entry, None if there is none; mark it as used, once a day."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    if found.st_mtime < time.time() - _DAY_S:
        os.utime(path)
    return found.st_size


def _write(path: Path, content: bytes) -> None:
    """Write a file that is there whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with NamedTemporaryFile(dir=path.parent, prefix=".", delete=False) as part:
        try:
            part.write(content)
            part.close()
            Path(part.name).replace(path)
        except BaseException:
            Path(part.name).unlink(missing_ok=True)
            raise
