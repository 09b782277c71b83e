"""Finished files on their way to the site, on disk: so that a large site needs little memory.

A file is named by the digest of its bytes, and is read back whole or not at all.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Mapping
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile, mkdtemp
from weakref import finalize


class StoreError(Exception):
    """A kept file that went while it was needed: it says which, and what to do."""


class Store:
    """A folder of finished files. Several processes may use it at once."""

    def __init__(self, folder: Path) -> None:
        """Use `folder`, which is made when the first file is kept."""
        self.folder = folder

    def keep(self, content: bytes) -> str:
        """Keep a finished file; return the name that it is read back by."""
        name = sha256(content).hexdigest()
        path = self._path(name)
        if not path.is_file():
            _write(path, content)
        return name

    def read(self, name: str) -> bytes | None:
        """Return a file that was kept, None if it is gone or no longer what was kept."""
        try:
            content = self._path(name).read_bytes()
        except FileNotFoundError:
            return None
        return content if sha256(content).hexdigest() == name else None

    def _path(self, name: str) -> Path:
        return self.folder / name[:2] / name[2:]


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

    def __iter__(self) -> Iterator[str]:
        return iter(self.names)

    def __len__(self) -> int:
        return len(self.names)


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
