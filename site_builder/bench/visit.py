"""One request: who asks, what was sent, and what is answered."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from werkzeug.datastructures import ImmutableMultiDict
from werkzeug.wrappers import Request, Response

from site_builder.bench.devices import Device, Devices
from site_builder.bench.here import Here, Reading
from site_builder.bench.names import Names
from site_builder.bench.pins import Pins
from site_builder.bench.season_asked import SeasonAsked
from site_builder.bench.tally import tally

_PAGES = Environment(
    loader=PackageLoader("site_builder.bench"), autoescape=True, undefined=StrictUndefined,
    trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True,
)
_PAGES.globals["tally"] = tally


PENS = "bench-pens"
"""The cookie that says who writes at this desk."""
DESK = "somebody at the desk"


@dataclass
class Bench:
    """What outlasts a request."""

    here: Here
    pins: Pins
    devices: Devices
    keys: Path
    """The folder with the people's keys."""
    address: str = ""
    fingerprint: str = ""
    in_the_shop: bool = False
    written: dict[str, str] = field(default_factory=dict)
    """Mark of a form that was written already, to the page that says so: pressed twice, written once."""
    season: SeasonAsked | None = None
    """The question about the season that was asked last."""
    put_off: dict[str, set[str]] = field(default_factory=dict)
    """Session to the questions that were put off until the next sitting."""


@dataclass
class Visit:
    """A request that may be answered."""

    bench: Bench
    request: Request
    session: str
    token: str
    device: Device | None
    """The phone or tablet that asks; None is the desk."""

    @property
    def here(self) -> Here:
        return self.bench.here

    @property
    def reading(self) -> Reading:
        return self.bench.here.reading()

    @property
    def form(self) -> ImmutableMultiDict[str, str]:
        return self.request.form

    @property
    def names(self) -> Names:
        return Names(self.reading.survey)

    @property
    def writer(self) -> str:
        """Who writes at the line, by id or by a name; empty until *Write here* was pressed, and on a phone."""
        held = self.request.cookies.get(PENS, "")
        return held if self.device is None and held and (held in self.reading.survey.notebook.living or held == DESK) \
            else ""

    def page(self, template: str, status: int = 200, **context: Any) -> Response:
        """A screen."""
        shop = self.names.shop
        html = _PAGES.get_template(template).render(
            visit=self, token=self.token, shop=shop, names=self.names, at_desk=self.device is None, **context)
        return Response(html, status, mimetype="text/html")


Screen = Callable[..., Response]
Route = tuple[str, tuple[str, ...], Screen]
"""The address as werkzeug writes rules, the methods, and the function: given the visit and what the address names."""
