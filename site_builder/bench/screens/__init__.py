"""The screens, one module a way in: each offers its addresses as ``ROUTES``."""

from __future__ import annotations

from site_builder.bench.screens import begin, books, let_in, people, sign, sitting, start, written
from site_builder.bench.visit import Route

ROUTES: tuple[Route, ...] = (
    *start.ROUTES, *begin.ROUTES, *written.ROUTES, *sitting.ROUTES, *books.ROUTES, *sign.ROUTES, *people.ROUTES,
    *let_in.ROUTES,
)
