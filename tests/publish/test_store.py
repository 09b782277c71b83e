"""Finished files on their way: each comes back whole, or not at all."""

from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.publish.store import KeptFiles, PassingStore, Store, StoreError


@pytest.fixture
def store(tmp_path):
    return Store(tmp_path / "store")


def entries(store):
    return sorted(path for path in store.folder.rglob("*") if path.is_file())


@given(content=st.binary(max_size=200))
def test_a_file_comes_back_as_it_was(tmp_path_factory, content):
    store = Store(tmp_path_factory.mktemp("store"))
    name = store.keep(content)
    assert name == sha256(content).hexdigest()
    assert store.read(name) == content


@given(at=st.integers(0, 19), bit=st.integers(0, 7))
def test_a_changed_file_is_not_there(tmp_path_factory, at, bit):
    store = Store(tmp_path_factory.mktemp("store"))
    name = store.keep(b"the torque is 7.0 Nm")
    (path,) = entries(store)
    spoilt = bytearray(path.read_bytes())
    spoilt[at] ^= 1 << bit
    path.write_bytes(spoilt)
    assert store.read(name) is None


def test_files_are_read_by_address_and_a_lost_one_is_named(store):
    files = KeptFiles(store, {"b.html": store.keep(b"two"), "a.html": store.keep(b"one")})
    assert dict(files) == {"a.html": b"one", "b.html": b"two"}
    assert list(files) == ["a.html", "b.html"]
    for path in entries(store):
        path.unlink()
    with pytest.raises(StoreError, match=r"lost a\.html; publish again"):
        files["a.html"]


def test_what_a_killed_writer_left_is_no_file(store):
    name = store.keep(b"whole")
    (path,) = entries(store)
    path.rename(path.with_name(".half"))
    assert store.read(name) is None


def test_many_writers_of_one_file_agree(store):
    with ThreadPoolExecutor(8) as pool:
        names = set(pool.map(lambda _: store.keep(b"x" * 100_000), range(64)))
    assert len(names) == 1
    assert len(entries(store)) == 1


def test_a_passing_store_goes_with_what_uses_it():
    store = PassingStore()
    files = KeptFiles(store, {"a": store.keep(b"one")})
    folder = store.folder
    del store
    assert files["a"] == b"one"
    del files
    assert not folder.exists()
