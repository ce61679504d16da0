"""A mark on a picture stands beside its place: whoever looks sees the place itself."""

from __future__ import annotations

from math import hypot

from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.handbook.drawings.marks_beside import EDGE, HEIGHT, WIDTH, beside
from site_builder.views.blocks import PictureMark
from site_builder.views.prose import prose

SPOTS = st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=1, max_size=6)


@given(SPOTS)
@settings(max_examples=40)
def test_no_number_covers_the_place_that_it_points_at_and_none_leaves_the_picture(
    spots: list[tuple[float, float]]
) -> None:
    found = beside([PictureMark(x, y, prose("here")) for x, y in spots])
    for one in found:
        away = hypot((one.x - one.at_x) * WIDTH / 100, (one.y - one.at_y) * HEIGHT / 100)
        assert away > 24 / 2 + 20  # a number is 24 px across, and a piece of its line is seen
        assert EDGE - 1 <= one.at_x * WIDTH / 100 <= WIDTH - EDGE + 1
        assert EDGE - 1 <= one.at_y * HEIGHT / 100 <= HEIGHT - EDGE + 1


def test_marks_close_together_are_spread() -> None:
    near = [PictureMark(0.5, 0.5, prose("a")), PictureMark(0.52, 0.5, prose("b"))]
    first, second = beside(near)
    assert hypot((first.at_x - second.at_x) * WIDTH / 100, (first.at_y - second.at_y) * HEIGHT / 100) > 24
