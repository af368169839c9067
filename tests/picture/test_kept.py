"""Pictures are made once, kept by contents, and made again whenever what is kept cannot be trusted."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path

import pytest

from combobook.picture import develop as develop_module
from combobook.picture import picture
from combobook.picture import store as store_module
from combobook.pictures import Picture, PictureFile
from tests.picture.photographs import coded, plain, quarters, shown, studio

A, B = coded(quarters(), "PNG"), coded(plain((10, 200, 30)), "PNG")


@pytest.fixture
def settled(monkeypatch: pytest.MonkeyPatch) -> None:
    """As if every photo had been lying there for longer than a clock tick."""
    monkeypatch.setattr(store_module, "SETTLED_NS", 0)


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the photos that were developed, as it happens."""
    names: list[str] = []
    real = develop_module.develop

    def noted(name: str, data: bytes) -> object:
        names.append(name)
        return real(name, data)

    monkeypatch.setattr(develop_module, "develop", noted)
    return names


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the photos that were read, as it happens."""
    names: list[str] = []
    real = store_module.Store.contents

    def noted(self: store_module.Store, photo: Path) -> tuple[bytes, str]:
        names.append(photo.name)
        return real(self, photo)

    monkeypatch.setattr(store_module.Store, "contents", noted)
    return names


def publish(folder: Path, cache: Path) -> Mapping[str, Picture]:
    pictures, problems = picture(folder, sorted(os.listdir(folder / "photos")), cache)
    assert problems == ()
    return pictures


def as_bytes(pictures: Mapping[str, Picture]) -> dict[tuple[str, str], tuple[str, bytes]]:
    return {
        (n, f"{size} {kind}"): (f.path, f.data)
        for n, made in pictures.items()
        for kind, files in (("jpg", made.sizes), ("webp", made.webp))
        for size, f in files.items()
    }


def files_of(made: Picture) -> list[PictureFile]:
    return [*made.sizes.values(), *made.webp.values()]


def kept_files(cache: Path) -> set[str]:
    return {str(p.relative_to(cache)) for p in cache.rglob("*-*.*") if p.suffix in (".jpg", ".webp")}


def test_a_second_publish_touches_no_picture(
    tmp_path: Path, settled: None, made: list[str], opened: list[str]
) -> None:
    folder, cache = studio(tmp_path, {"a.png": A, "b.png": B}), tmp_path / "cache"
    first = publish(folder, cache)
    assert (sorted(made), sorted(opened)) == (["a.png", "b.png"], ["a.png", "b.png"])
    made.clear()
    opened.clear()
    index = (cache / "pictures" / "index.json").stat().st_mtime_ns
    assert publish(folder, cache) == first
    assert (made, opened, (cache / "pictures" / "index.json").stat().st_mtime_ns) == ([], [], index)


def test_a_photo_just_written_is_read_again_but_not_made_again(
    tmp_path: Path, made: list[str], opened: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(store_module, "SETTLED_NS", 10**18)
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    first = publish(folder, cache)
    assert publish(folder, cache) == first
    assert (made, opened) == (["a.png"], ["a.png", "a.png"])


def test_a_changed_photo_of_the_same_size_and_date_is_noticed(tmp_path: Path, settled: None) -> None:
    dark, light = coded(plain((10, 10, 10)), "PNG", compress_level=0), coded(plain((240, 9, 9)), "PNG", compress_level=0)
    assert len(dark) == len(light)
    folder, cache = studio(tmp_path, {"a.png": dark}), tmp_path / "cache"
    photo = folder / "photos" / "a.png"
    before, date = publish(folder, cache)["a.png"], photo.stat()
    photo.write_bytes(light)
    os.utime(photo, ns=(date.st_atime_ns, date.st_mtime_ns))
    after = publish(folder, cache)["a.png"]
    assert after.page.path != before.page.path
    assert shown(after).getpixel((5, 5)) == pytest.approx((240, 9, 9), abs=4)


def test_a_renamed_photo_is_not_made_again(tmp_path: Path, made: list[str]) -> None:
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    before = publish(folder, cache)["a.png"]
    (folder / "photos" / "a.png").rename(folder / "photos" / "z.png")
    assert publish(folder, cache)["z.png"].sizes == before.sizes
    assert made == ["a.png"]


@pytest.mark.parametrize("kind", ["sizes", "webp"])
@pytest.mark.parametrize("size", ["page", "card", "thumb"])
@pytest.mark.parametrize("harm", ["cut", "garbled", "gone"])
def test_a_kept_picture_that_was_harmed_is_made_again(
    tmp_path: Path, settled: None, kind: str, size: str, harm: str
) -> None:
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    first = publish(folder, cache)
    whole = as_bytes(first)
    stored = getattr(first["a.png"], kind)[size].stored
    if harm == "gone":
        stored.unlink()
    else:
        data = stored.read_bytes()
        stored.write_bytes(data[:50] if harm == "cut" else bytes(len(data)))
    assert as_bytes(publish(folder, cache)) == whole


def test_a_copied_cache_is_used_though_its_dates_are_new(tmp_path: Path, settled: None, made: list[str]) -> None:
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    for file in publish(folder, cache)["a.png"].sizes.values():
        os.utime(file.stored, (1, 1))
    publish(folder, cache)
    assert made == ["a.png"]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "not json",
        "[]",
        "null",
        '{"made_with": "x", "seen": [], "kept": {}}',
        '{"made_with": "x", "seen": {"a": {"stamp": [1], "sha256": "../../x"}}, "kept": {}}',
        '{"made_with": "x", "seen": {}, "kept": {"../../../etc/passwd": {}}}',
        "\ud800".encode("utf-8", "surrogatepass"),
    ],
)
def test_an_index_that_makes_no_sense_only_costs_time(tmp_path: Path, made: list[str], text: str | bytes) -> None:
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    first = as_bytes(publish(folder, cache))
    (cache / "pictures" / "index.json").write_bytes(text if isinstance(text, bytes) else text.encode())
    assert as_bytes(publish(folder, cache)) == first
    assert made == ["a.png", "a.png"]


def test_pictures_made_by_other_settings_are_made_again(tmp_path: Path, made: list[str]) -> None:
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    publish(folder, cache)
    index = cache / "pictures" / "index.json"
    told = json.loads(index.read_bytes())
    index.write_text(json.dumps(told | {"made_with": told["made_with"] + " of old"}))
    publish(folder, cache)
    assert made == ["a.png", "a.png"]


def test_what_no_photo_needs_any_more_is_removed(tmp_path: Path) -> None:
    folder, cache = studio(tmp_path, {"a.png": A, "b.png": B}), tmp_path / "cache"
    publish(folder, cache)
    (folder / "photos" / "b.png").unlink()
    left = publish(folder, cache)
    assert kept_files(cache) == {str(f.stored.relative_to(cache)) for f in files_of(left["a.png"])}
    (folder / "photos" / "a.png").write_bytes(B)
    left = publish(folder, cache)
    assert kept_files(cache) == {str(f.stored.relative_to(cache)) for f in files_of(left["a.png"])}


def test_strays_of_a_broken_run_go_once_they_are_old_and_other_files_stay(tmp_path: Path) -> None:
    folder, cache = studio(tmp_path, {"a.png": A}), tmp_path / "cache"
    shard = cache / "pictures" / "00"
    shard.mkdir(parents=True)
    for name in (".part-old", f"{'0' * 32}-480.jpg", f"{'0' * 32}-480.webp", "notes.txt"):
        (shard / name).write_text("x")
        os.utime(shard / name, (1, 1))
    (shard / ".part-young").write_text("x")
    publish(folder, cache)
    assert {p.name for p in shard.iterdir()} == {".part-young", "notes.txt"}


def test_two_studios_share_a_cache_without_taking_each_others_pictures(tmp_path: Path, made: list[str]) -> None:
    cache = tmp_path / "cache"
    one, two = studio(tmp_path / "one", {"a.png": A}), studio(tmp_path / "two", {"b.png": B})
    first = publish(one, cache)
    publish(two, cache)
    assert as_bytes(publish(one, cache)) == as_bytes(first)
    assert made == ["a.png", "b.png"]


def test_the_same_photos_give_the_same_bytes_in_any_folder_and_order(tmp_path: Path) -> None:
    photos = {f"{n}.png": coded(plain((n, 90, 60)), "PNG") for n in range(8)} | {"a.png": A}
    one, two = studio(tmp_path / "one", photos), studio(tmp_path / "two", dict(reversed(photos.items())))
    first, _ = picture(one, list(photos), tmp_path / "c1")
    second, _ = picture(two, reversed([*photos, *photos]), tmp_path / "c2")
    assert list(first) == list(second) == sorted(photos)
    assert as_bytes(first) == as_bytes(second)


def test_no_photos_make_no_pictures(tmp_path: Path) -> None:
    (tmp_path / "content").mkdir()
    assert picture(tmp_path / "content", [], tmp_path / "cache") == ({}, ())
