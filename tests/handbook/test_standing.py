"""Waits and windows that end by a sign, at either end, with and without a clock beside; a wait inside a loop."""

from __future__ import annotations

import pytest
from expectation import book_written, page
from visible_text import visible

from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.notebook.finding import Level

NOTEBOOK = """\
=== procedures/shop.yml
shop: glue-shop
title: Glue
format: 1
=== skills/gluing.yml
skill: gluing
title: Gluing
covers: glue
=== procedures/felt/glue.yml
procedure: glue
title: Glue the felt on
skill: gluing
steps:
  - id: spread
    do: Spread the glue.
    wait: {opens: It is no longer wet., closes: It takes no finger print., below: Leave it., above: Spread it anew.}
  - id: press
    do: Press the felt down.
    repeat: {times: about 2, wait: [min 1 h, until the glue is hard to the nail]}
    wait: until dry
  - id: trim
    do: Trim the edge.
    wait: {is: min 5 min, closes: {sign: It has gone brittle., do: Damp it., then: press}}
  - id: iron
    do: Iron it.
    windows:
      hot:
        {after: press, is: max about 30 min, opens: The edge lifts no more., closes: It is cold., above: Heat it.}
"""


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    return book_written(NOTEBOOK, tmp_path_factory.mktemp("glue"))


@pytest.fixture(scope="module")
def seen(book):
    return visible(page(procedure_pages, book, "the-work/felt/glue.md").html)


def test_it_is_written_without_an_error_and_no_figure_is_asked_where_a_sign_is_told(book) -> None:
    assert [str(one) for one in book.findings if one.level is Level.ERROR] == []
    assert [str(one) for one in book.findings if one.code == "value-ask"] == []


def test_a_wait_between_two_signs(seen) -> None:
    text = seen["spread"]
    assert "until it is no longer wet, and no longer than until it takes no finger print" in text
    assert "Before it is no longer wet Too early. Leave it." in text
    assert "Once it is no longer wet, before it takes no finger print In time." in text
    assert "Once it takes no finger print Missed. Spread it anew." in text


def test_the_short_form_and_a_wait_before_each_round(seen) -> None:
    text = seen["press"]
    assert "Let it stand, from the end of this step to the start of the next: until dry" in text
    assert "Before each new round let it stand at least 1 h." in text
    assert "Before each new round let it stand until the glue is hard to the nail." in text


def test_a_clock_and_a_sign_beside_it_with_its_own_way_out(seen) -> None:
    text = seen["trim"]
    assert "at least 5 min; no longer than until it has gone brittle" in text
    assert "Once it has gone brittle Missed. Damp it. Then go back to step 2." in text
    assert "is not told yet" not in text


def test_a_window_with_a_rough_ceiling_and_two_signs(seen) -> None:
    text = seen["iron"]
    assert "at most about 30 min; from when the edge lifts no more until it is cold" in text
    assert "After about 30 min, or once it is cold Missed. Heat it." in text


def test_a_learner_is_told_the_same(book) -> None:
    text = visible(page(hand_pages, book, "the-hands/study/gluing.md").html)[""]
    assert "Until it is no longer wet, and no longer than until it takes no finger print" in text
