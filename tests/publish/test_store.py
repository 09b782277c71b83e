"""The store of what was made before: an entry comes back whole, or not at all."""

import os
import shutil
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baybook.publish.store import KEPT_DAYS, KeptFiles, PassingStore, Store, StoreError, digest
from baybook.publish.tool import tool_digest

KEY, OTHER = digest(b"one"), digest(b"other")


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
    assert store.has(name)
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
    assert not store.has(name)
    assert store.keep(b"the torque is 7.0 Nm") == name
    assert store.read(name) == b"the torque is 7.0 Nm"


@given(length=st.integers(0, 60))
def test_a_cut_note_is_not_there(tmp_path_factory, length):
    store = Store(tmp_path_factory.mktemp("store"))
    store.note(KEY, {"verdict": "hold"})
    (path,) = entries(store)
    path.write_bytes(path.read_bytes()[:length])
    assert store.noted(KEY) is None
    assert entries(store) == []


def test_a_note_is_read_back_under_its_key_only(store):
    store.note(KEY, {"verdict": "hold", "at": ["größer", 3.5, None]})
    assert store.noted(KEY) == {"verdict": "hold", "at": ["größer", 3.5, None]}
    assert store.noted(OTHER) is None
    (path,) = entries(store)
    moved = store.folder / "notes" / OTHER[:2] / OTHER[2:]
    moved.parent.mkdir(exist_ok=True)
    shutil.copy(path, moved)
    assert store.noted(OTHER) is None


def test_what_a_killed_writer_left_is_no_entry(store):
    name = store.keep(b"whole")
    (path,) = entries(store)
    path.rename(path.with_name(".half"))
    assert store.read(name) is None
    assert not store.has(name)


def test_a_file_of_another_size_under_a_name_is_written_again(store):
    name = store.keep(b"whole")
    (path,) = entries(store)
    path.write_bytes(b"who")
    assert store.keep(b"whole") == name
    assert store.read(name) == b"whole"


def test_what_nobody_asks_for_goes(store):
    old, used = store.keep(b"old"), store.keep(b"used")
    now = entries(store)[0].stat().st_mtime
    for path in entries(store):
        os.utime(path, (now, now - (KEPT_DAYS + 1) * 86_400))
    assert store.has(used)
    assert store.tidy(now=now) == 1
    assert (store.has(old), store.has(used)) == (False, True)
    os.utime(entries(store)[0], (now, now - (KEPT_DAYS + 1) * 86_400))
    assert store.tidy(now=now + 3600) == 0  # once a day is enough


def test_many_writers_of_one_entry_agree(store):
    with ThreadPoolExecutor(8) as pool:
        names = set(pool.map(lambda _: store.keep(b"x" * 100_000), range(64)))
    assert len(names) == 1
    assert [path.name[0] for path in entries(store)] != ["."]
    assert len(entries(store)) == 1


@given(
    one=st.lists(st.binary(max_size=6), max_size=4),
    other=st.lists(st.binary(max_size=6), max_size=4),
)
def test_texts_do_not_run_into_each_other(one, other):
    assert (digest(*one) == digest(*other)) == (one == other)


def test_the_tool_s_digest_changes_with_every_file_that_travels_with_it(tmp_path, monkeypatch):
    folders = ("templates", "site", "standards")
    for folder in folders:
        (tmp_path / folder / "deep").mkdir(parents=True)
        (tmp_path / folder / "deep" / "file").write_text("as it was")
    monkeypatch.setattr("baybook.publish.tool.shipped", lambda folder: tmp_path / folder)
    seen = {tool_digest.__wrapped__()}
    for folder in folders:
        (tmp_path / folder / "deep" / "file").write_text("changed")
        seen.add(tool_digest.__wrapped__())
        (tmp_path / folder / "deep" / "file").rename(tmp_path / folder / "file")
        seen.add(tool_digest.__wrapped__())
    monkeypatch.setattr("baybook.publish.tool.version", lambda _: "0.0.1")
    seen.add(tool_digest.__wrapped__())
    assert len(seen) == 2 * len(folders) + 2


def test_files_are_read_by_address_and_a_lost_one_is_named(store):
    files = KeptFiles(store, {"b.html": store.keep(b"two"), "a.html": store.keep(b"one")})
    assert dict(files) == {"a.html": b"one", "b.html": b"two"}
    assert list(files) == ["a.html", "b.html"]
    for path in entries(store):
        path.unlink()
    with pytest.raises(StoreError, match=r"lost a\.html; publish again"):
        files["a.html"]


def test_broken_files_are_dropped_and_whole_ones_stay(store):
    files = KeptFiles(store, {"a": store.keep(b"one"), "b": store.keep(b"two")})
    (store.folder / "blobs" / files.names["a"][:2] / files.names["a"][2:]).write_bytes(b"0ne")
    files.drop_broken()
    assert (store.has(files.names["a"]), store.has(files.names["b"])) == (False, True)


def test_a_passing_store_goes_with_what_uses_it():
    store = PassingStore()
    files = KeptFiles(store, {"a": store.keep(b"one")})
    folder = store.folder
    del store
    assert files["a"] == b"one"
    del files
    assert not folder.exists()
