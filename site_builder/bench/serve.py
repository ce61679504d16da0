"""The bench on a port of this machine: for this desk alone, or for the phones of the shop."""

from __future__ import annotations

import ipaddress
import socket
import ssl
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from cheroot.ssl.builtin import BuiltinSSLAdapter
from cheroot.wsgi import Server

from site_builder.bench.app import App
from site_builder.bench.certificate import certificate
from site_builder.bench.devices import Devices
from site_builder.bench.guards import LARGE, Doors, Tokens
from site_builder.bench.here import Here
from site_builder.bench.pins import Pins
from site_builder.bench.visit import Bench

PORT = 8765
"""Where the bench is, unless something else is there already."""
_THREADS = 6


@dataclass(frozen=True, slots=True)
class Served:
    """A bench that is ready: ``run`` answers until ``stop`` is called."""

    address: str
    fingerprint: str
    run: Callable[[], None]
    stop: Callable[[], None]
    bench: Bench


def serve(
    root: Path, own: Path, *, port: int | None = None, in_the_shop: bool = False, day: date | None = None,
    now: Callable[[], datetime] = datetime.now, clock: Callable[[], float] = time.time, host: str = "",
) -> Served:
    """Make the bench of a notebook ready. ``own`` is the user's folder outside of it. Raises OSError.

    ``host`` is the address of this machine in the shop's network, where it is not found by itself.
    """
    here = Here(root, now, day)
    folder = own / "bench"
    bench = Bench(here, Pins(folder, here.name, clock), Devices(folder, here.name, clock, now), own / "keys",
                  in_the_shop=in_the_shop)
    listens = "0.0.0.0" if in_the_shop else "127.0.0.1"
    port = _free(listens, port)
    names = [f"127.0.0.1:{port}", f"localhost:{port}"]
    outside = ""
    if in_the_shop:
        outside = host or _own_address()
        names += [f"{outside}:{port}"]
    scheme = "https" if in_the_shop else "http"
    app = App(bench, Doors(scheme, frozenset(names)), Tokens(folder))
    server = Server((listens, port), app, numthreads=_THREADS, timeout=15, request_queue_size=32)
    server.max_request_body_size = LARGE + (1 << 20)
    server.max_request_header_size = 32 << 10
    if in_the_shop:
        held = certificate(folder, outside)
        server.ssl_adapter = BuiltinSSLAdapter(str(held.certificate), str(held.key))
        server.ssl_adapter.context.minimum_version = ssl.TLSVersion.TLSv1_2
        bench.fingerprint = held.fingerprint
    bench.address = f"{scheme}://{outside or '127.0.0.1'}:{port}"
    server.prepare()
    return Served(bench.address, bench.fingerprint, server.serve, server.stop, bench)


def _free(host: str, port: int | None) -> int:
    """The port asked for, or the usual one, or any other that is free."""
    for one in (port,) if port is not None else (PORT, 0):
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as trial:
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                trial.bind((host, one))
            except OSError:
                if port is not None:
                    raise
                continue
            return int(trial.getsockname()[1])
    raise OSError("no port of this machine is free")


def _own_address() -> str:
    """The address by which this machine is reached in its network; nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(("192.0.2.1", 9))  # an address that belongs to nobody (RFC 5737)
            found = str(asking.getsockname()[0])
        except OSError:
            found = "127.0.0.1"
    return found if not ipaddress.ip_address(found).is_unspecified else "127.0.0.1"
