"""Photos from files: read with bounds, shrunk, nothing but the picture kept; refused in words."""

import random
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from floorplan_circuits.desktop import photos
from floorplan_circuits.desktop.photos import LONGEST_PX, NoPhoto, Photo, read_photo
from floorplan_circuits.files import pictures
from floorplan_circuits.files.open import open_home
from floorplan_circuits.files.pictures import have_room, picture_hash
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.resources import folder

COTTAGE = folder("sample_homes") / "cottage.json"
EXIF = b"Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00"
"""A camera's note that the picture lies on its side (EXIF 2.3: tag 0x0112 is 6, turned by 90 degrees)."""


def picture(path: Path, wide: int, high: int, kind: str = "JPG") -> Path:
    image = QImage(wide, high, QImage.Format.Format_RGB32)
    image.fill(QColor("#446688"))
    for x in range(0, wide, 2):  # a picture of one colour has next to no bytes to damage
        image.setPixelColor(x, x * 7 % high, QColor(x % 256, x * 3 % 256, x * 5 % 256))
    assert image.save(str(path), kind)
    return path


def size_of(photo: Photo) -> tuple[int, int]:
    image = QImage.fromData(photo.content)
    return image.width(), image.height()


@pytest.mark.parametrize(
    ("wide", "high", "kept"),
    [(640, 480, (640, 480)), (4000, 3000, (1600, 1200)), (1000, 5000, (320, 1600)), (LONGEST_PX, 10, (LONGEST_PX, 10))],
)
def test_a_large_picture_is_shrunk_and_keeps_its_shape(tmp_path, wide, high, kept):
    photo = read_photo(picture(tmp_path / "a.jpg", wide, high))
    assert size_of(photo) == kept
    assert photo.media == "image/jpeg"
    assert photo.content.startswith(b"\xff\xd8\xff")


def test_a_small_png_stays_a_png_and_a_large_one_becomes_a_jpeg(tmp_path):
    small = read_photo(picture(tmp_path / "a.png", 300, 200, "PNG"))
    large = read_photo(picture(tmp_path / "b.png", 3000, 200, "PNG"))
    assert (small.media, small.content[:4]) == ("image/png", b"\x89PNG")
    assert large.media == "image/jpeg"


def test_the_kind_is_told_by_the_bytes_and_not_by_the_name(tmp_path):
    assert read_photo(picture(tmp_path / "a.png", 30, 20, "JPG")).media == "image/jpeg"


def test_a_picture_on_its_side_is_turned_upright_and_what_the_camera_noted_is_gone(tmp_path):
    plain = picture(tmp_path / "a.jpg", 400, 200).read_bytes()
    noted = plain[:2] + b"\xff\xe1" + (len(EXIF) + 2).to_bytes(2, "big") + EXIF + plain[2:]
    file = tmp_path / "side.jpg"
    file.write_bytes(noted)
    photo = read_photo(file)
    assert size_of(photo) == (200, 400)
    assert b"Exif" not in photo.content


def test_words_beside_a_picture_are_not_kept(tmp_path):
    image = QImage(20, 20, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    image.setText("Author", "somebody")
    file = tmp_path / "a.png"
    image.save(str(file), "PNG")
    assert b"somebody" in file.read_bytes()
    assert b"somebody" not in read_photo(file).content


def taken(file: Path) -> Photo | str:
    """What comes of a file: the photo, or why it is none."""
    try:
        return read_photo(file)
    except NoPhoto as error:
        return str(error)


@pytest.mark.parametrize("kind", ["JPG", "PNG"])
def test_a_picture_that_is_cut_off_is_refused(tmp_path, kind):
    whole = picture(tmp_path / "a", 900, 600, kind).read_bytes()
    file = tmp_path / "cut.jpg"
    for part in (0.3, 0.6, 0.9):
        file.write_bytes(whole[: int(len(whole) * part)])
        assert taken(file) == "cut.jpg can’t be read: the file is damaged. Copy it from the camera again."


@pytest.mark.parametrize("kind", ["JPG", "PNG"])
def test_no_damage_stops_the_program(tmp_path, kind):
    whole = picture(tmp_path / "a", 300, 200, kind).read_bytes()
    rng, file = random.Random(7), tmp_path / "damaged.jpg"
    refused = 0
    for nth in range(1, 60):
        damaged = bytearray(whole)
        for _ in range(nth):
            damaged[rng.randrange(len(damaged))] = rng.randrange(256)
        file.write_bytes(bytes(damaged))
        what = taken(file)
        refused += isinstance(what, str)
        assert what.startswith("damaged.jpg ") if isinstance(what, str) else max(size_of(what)) <= LONGEST_PX
    assert refused > 20


def test_what_is_no_picture_is_refused_with_what_to_do(tmp_path):
    text, image = tmp_path / "notes.jpg", tmp_path / "a.bmp"
    text.write_text("no picture at all")
    picture(image, 20, 20, "BMP")
    for file in (text, image):
        with pytest.raises(NoPhoto, match=r"is no PNG or JPEG picture\. Choose one that is\."):
            read_photo(file)
    with pytest.raises(NoPhoto, match=r"gone.jpg can’t be read: .*\. Choose another file\."):
        read_photo(tmp_path / "gone.jpg")


def test_too_large_a_picture_is_refused_before_it_is_read(tmp_path, monkeypatch):
    file = picture(tmp_path / "a.jpg", 3000, 2000)
    monkeypatch.setattr(photos, "MOST_PIXELS", 10**6)
    with pytest.raises(NoPhoto, match="over 1 million pixels"):
        read_photo(file)
    monkeypatch.setattr(photos, "LARGEST_FILE", 1000)
    with pytest.raises(NoPhoto, match="a photo has at most"):
        read_photo(file)


def test_the_photos_of_a_home_never_outgrow_what_can_be_opened(monkeypatch):
    home = open_home(COTTAGE).home
    monkeypatch.setattr(pictures, "MOST_BYTES", 10)
    assert have_room(home.pictures, {}, b"x" * 10)
    assert not have_room(home.pictures, {}, b"x" * 11)


# --- in the window --------------------------------------------------------------------------------------------------


@pytest.fixture
def page(window, hand):
    """The page of a box of the cottage."""
    assert window.open(COTTAGE)
    hand.settle()
    window.work.inside.look(next(box.id for box in window.session.home.boxes if box.mark == "B24"))
    hand.settle()
    return window.work.inside.page


def shown_box(window):
    return window.session.home.boxes[window.work.inside.box]


def test_a_photo_is_shown_with_its_day_saved_and_there_again(window, hand, page, tmp_path):
    page.keeping.add_photo(picture(tmp_path / "a.jpg", 2000, 1000))
    hand.settle()
    (name,) = shown_box(window).pictures
    (row,) = window.session.home.pictures
    assert (row.hash, row.date) == (name, date.today().isoformat())
    assert picture_hash(window.session.pictures[name]) == name
    (label,) = [one for one in hand.shown(QLabel, "") if one.pixmap() and not one.pixmap().isNull()]
    assert label.accessibleName().startswith("Photo 1, added")

    assert window.save_to(tmp_path / "home.json")
    again = open_home(tmp_path / "home.json")
    assert again.pictures[name] == window.session.pictures[name]
    assert again.home.boxes[shown_box(window).id].pictures == (name,)


def test_a_photo_can_be_removed_and_brought_back_by_undo(window, hand, page, tmp_path):
    page.keeping.add_photo(picture(tmp_path / "a.jpg", 200, 100))
    hand.settle()
    name = shown_box(window).pictures
    QTest.mouseClick(hand.shown(QPushButton, "Remove photo 1")[0], Qt.MouseButton.LeftButton)
    hand.settle()
    assert (shown_box(window).pictures, window.session.home.pictures) == ((), ())
    window.session.undo()
    hand.settle()
    assert shown_box(window).pictures == name
    assert hand.shown(QPushButton, "Remove photo 1")


def test_the_same_photo_twice_and_what_is_no_photo_are_refused_in_the_status_line(window, hand, page, tmp_path):
    file = picture(tmp_path / "a.jpg", 200, 100)
    page.keeping.add_photo(file)
    hand.settle()
    page.keeping.add_photo(file)
    assert hand.says() == "B24 has this photo already."
    page.keeping.add_photo(COTTAGE)
    assert hand.says() == "cottage.json is no PNG or JPEG picture. Choose one that is."
    assert len(shown_box(window).pictures) == 1


def test_photos_past_what_the_file_may_hold_are_refused(window, hand, page, tmp_path, monkeypatch):
    monkeypatch.setattr(pictures, "MOST_BYTES", 10)
    before = window.session.home
    page.keeping.add_photo(picture(tmp_path / "a.jpg", 200, 100))
    assert window.session.home is before
    assert "as much as its file may hold" in hand.says()


def test_a_photo_whose_bytes_are_not_there_says_so(window, hand, page, tmp_path):
    page.keeping.add_photo(picture(tmp_path / "a.jpg", 200, 100))
    hand.settle()
    window.session.pictures.clear()
    window.work.inside.look(next(box.id for box in window.session.home.boxes if box.mark == "B1"))
    hand.settle()
    window.work.go_to(Subject("box", next(box.id for box in window.session.home.boxes if box.mark == "B24")))
    window.work.inside.look_at_selected()
    hand.settle()
    assert hand.shown(QLabel, "This photo is not in this copy of the home.")
