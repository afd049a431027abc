"""Photos made straight against scikit-image's projective transform, and a panel of known make seen aslant."""

from io import BytesIO

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from skimage.transform import ProjectiveTransform, warp

from floorplan_circuits.desktop.picture_images import looked_at
from floorplan_circuits.drawing.ink import PictureMark
from floorplan_circuits.home.aslant import Quad, aslant, is_seen_from_the_front
from floorplan_circuits.surfaces.stored_pictures import prepared

UNIT = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))


def estimated(source: Quad, target: Quad) -> ProjectiveTransform:
    if hasattr(ProjectiveTransform, "from_estimate"):  # since 0.26
        return ProjectiveTransform.from_estimate(np.array(source), np.array(target))
    found = ProjectiveTransform()
    assert found.estimate(np.array(source), np.array(target))
    return found


def shifts(most: float) -> st.SearchStrategy[tuple[float, float]]:
    return st.tuples(st.floats(-most, most), st.floats(-most, most))


@st.composite
def quads(draw: st.DrawFn) -> Quad:
    """Corners as a hand-held camera sees a panel: a rectangle, each corner up to a third of a side away."""
    wide, high = draw(st.floats(200, 1500)), draw(st.floats(200, 1500))
    corners = []
    for x, y in UNIT:
        dx, dy = draw(shifts(0.33))
        corners.append((500 + (x + dx) * wide, 500 + (y + dy) * high))
    return tuple(corners)  # type: ignore[return-value]  # four of them


@settings(max_examples=60, deadline=None)
@given(quads().filter(is_seen_from_the_front), st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_every_place_is_seen_where_scikit_image_says(corners: Quad, at: tuple[float, float]) -> None:
    theirs = estimated(UNIT, corners)(np.array([at]))[0]

    assert aslant(corners).seen(at) == pytest.approx(theirs, abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(quads().filter(is_seen_from_the_front), st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_the_way_back_is_scikit_images_inverse(corners: Quad, at: tuple[float, float]) -> None:
    ours = aslant(corners)
    theirs = estimated(UNIT, corners).inverse(np.array([ours.seen(at)]))[0]

    assert ours.shown(ours.seen(at)) == pytest.approx(theirs, abs=1e-6)
    assert ours.shown(ours.seen(at)) == pytest.approx(at, abs=1e-6)


CORNERS = ((120.0, 60.0), (330.0, 110.0), (300.0, 420.0), (90.0, 340.0))


def seen_aslant() -> tuple[Image.Image, np.ndarray]:
    """A board of 4 by 6 fields of known greys, and how a camera sees it; drawn by scikit-image."""
    fields = np.random.default_rng(7).integers(40, 216, (6, 4))
    board = np.kron(fields, np.ones((40, 40))) / 255
    source = ((0.0, 0.0), (160.0, 0.0), (160.0, 240.0), (0.0, 240.0))
    out = warp(board, estimated(source, CORNERS).inverse, output_shape=(480, 420), cval=1.0)
    return Image.fromarray((out * 255).astype(np.uint8)).convert("RGB"), fields


def as_png(image: Image.Image) -> bytes:
    packed = BytesIO()
    image.save(packed, "PNG")
    return packed.getvalue()


def test_on_paper_a_board_seen_aslant_is_straight_again() -> None:
    photo, fields = seen_aslant()
    content = prepared(as_png(photo), PictureMark("ab", (0, 0, 40, 60), corners=CORNERS))
    assert content is not None
    straight = np.asarray(Image.open(BytesIO(content)).convert("L").resize((160, 240)), dtype=float)
    middles = straight[20::40, 20::40]

    assert np.abs(middles - fields).max() < 6  # of 255: what packing as JPEG and sampling twice take


def test_on_the_screen_it_is_the_same() -> None:
    photo, fields = seen_aslant()
    image = looked_at(as_png(photo), False, CORNERS, 40 / 60)
    assert image is not None
    across, down = image.width() / 4, image.height() / 6
    greys = [
        [image.pixelColor(int((x + 0.5) * across), int((y + 0.5) * down)).lightness() for x in range(4)]
        for y in range(6)
    ]

    assert np.abs(np.array(greys) - fields).max() < 6
