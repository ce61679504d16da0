"""The screens, one module a way in: each offers its addresses as ``ROUTES``."""

from __future__ import annotations

from site_builder.bench.screens import (
    begin,
    books,
    entry,
    let_in,
    lines,
    new,
    people,
    questions,
    season,
    sign,
    sitting,
    start,
    steps,
    telling,
    telling_brought,
    telling_taken,
    whole,
    written,
)
from site_builder.bench.visit import Route

ROUTES: tuple[Route, ...] = (
    *start.ROUTES, *begin.ROUTES, *written.ROUTES, *lines.ROUTES, *entry.ROUTES, *steps.ROUTES, *whole.ROUTES,
    *new.ROUTES, *questions.ROUTES, *sitting.ROUTES, *books.ROUTES, *sign.ROUTES, *people.ROUTES,
    *let_in.ROUTES, *telling_brought.ROUTES, *telling.ROUTES, *telling_taken.ROUTES, *season.ROUTES,
)
