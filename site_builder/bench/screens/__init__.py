"""The screens, one module a way in: each offers its addresses as ``ROUTES``."""

from __future__ import annotations

from site_builder.bench.screens import books, let_in, people, sign, sitting, start
from site_builder.bench.visit import Route

ROUTES: tuple[Route, ...] = (
    *start.ROUTES, *sitting.ROUTES, *books.ROUTES, *sign.ROUTES, *people.ROUTES, *let_in.ROUTES,
)
