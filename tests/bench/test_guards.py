"""Who may not come in."""

from __future__ import annotations

from pathlib import Path

import pytest

from site_builder.bench.guards import Doors, Tokens
from tests.bench.conftest import HOST, Clock, Hand, bench_of


def sent(desk: Hand, headers: dict[str, str], host: str = HOST, **fields: str) -> int:
    """A form with a token that would do, from somewhere."""
    desk.get("/pins/ansa")
    token = (desk.page.get_data(True) if desk.page else "").partition('name="token" value="')[2][:64]
    base = {**desk.base, "base_url": f"http://{host}/"}
    return desk.client.post("/pins/ansa", data={"token": token, "new": "2846", "again": "2846", **fields},
                            headers=headers, **base).status_code


@pytest.mark.parametrize(("headers", "host"), [
    ({"Origin": "http://evil.example"}, HOST),
    ({"Origin": "null"}, HOST),
    ({}, HOST),
    ({"Origin": f"http://{HOST}", "Sec-Fetch-Site": "cross-site"}, HOST),
    ({"Origin": f"http://{HOST}", "Sec-Fetch-Site": "same-site"}, HOST),
    ({"Origin": "http://rebound.example:8765"}, "rebound.example:8765"),
    ({"Origin": f"http://{HOST}"}, "127.0.0.1"),
    ({"Origin": f"https://{HOST}"}, HOST),
])
def test_a_form_from_elsewhere_writes_nothing(desk: Hand, headers: dict[str, str], host: str) -> None:
    assert sent(desk, headers, host) == 403
    assert not desk.bench.pins.has("ansa")


def test_the_same_form_from_here_is_taken(desk: Hand) -> None:
    assert sent(desk, {"Origin": f"http://{HOST}", "Sec-Fetch-Site": "same-origin"}) == 303
    assert desk.bench.pins.has("ansa")


def test_a_form_with_another_session_s_token_is_refused(desk: Hand, tmp_path: Path) -> None:
    other = Hand(desk.bench, Doors("http", frozenset({HOST})), Tokens(tmp_path / "own" / "bench"))
    other.get("/pins/ansa")
    stolen = (other.page.get_data(True) if other.page else "").partition('name="token" value="')[2][:64]
    assert sent(desk, {"Origin": f"http://{HOST}"}, token=stolen) == 403


def test_a_rebound_name_is_shown_nothing(desk: Hand) -> None:
    answer = desk.client.get("/books", base_url="http://rebound.example:8765/")
    assert answer.status_code == 403 and b"Ansa" not in answer.data


@pytest.mark.parametrize("path", [
    "/own/../app.py", "/own/%2e%2e/app.py", "/own/..%2fapp.py", "/books/../../etc/passwd", "/own//etc/passwd",
    "/procedures/shop.yml", "/skills/records/sign-offs.yml",
])
def test_no_path_opens_a_file(desk: Hand, path: str) -> None:
    said = desk.get(path)
    assert desk.status in (302, 308, 404) and "root:" not in said and "import" not in said and "sign-off:" not in said


def test_cookies_and_headers_are_strict(desk: Hand) -> None:
    desk.get("/")
    assert desk.page is not None
    cookie = desk.page.headers["Set-Cookie"]
    assert "HttpOnly" in cookie and "SameSite=Strict" in cookie
    policy = desk.page.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy and "unsafe" not in policy and "frame-ancestors 'none'" in policy


def test_a_form_larger_than_a_form_is_not_read(desk: Hand) -> None:
    desk.get("/pins/ansa")
    desk.post("/pins/ansa", new="1" * (300 << 10), again="x")
    assert desk.status == 413 and not desk.bench.pins.has("ansa")


def test_a_phone_is_let_in_once_and_can_be_thrown_out(demo: Path, tmp_path: Path, clock: Clock) -> None:
    own = tmp_path / "own"
    bench = bench_of(demo, own, clock, in_the_shop=True)
    doors = Doors("https", frozenset({HOST}))
    phone, other = (Hand(bench, doors, Tokens(own / "bench"), "192.0.2.7") for _ in range(2))
    assert phone.get("/books") and phone.status == 302, "a stranger sees the door and nothing else"
    code = bench.devices.new_code()
    phone.get("/in")
    assert "do not hold" in phone.post("/in", code="lamp lamp lamp lamp", name="x")
    phone.get("/in")
    assert "Who are you?" in phone.post("/in", code=code.upper(), name="Ansa’s phone")
    other.get("/in")
    assert "do not hold" in other.post("/in", code=code, name="a second one")
    assert phone.get("/pins") and phone.status == 403, "PINs are made at the desk"
    bench.devices.throw_out(bench.devices.all()[0].id)
    assert phone.get("/books") and phone.status == 302
    clock_code = bench.devices.new_code()
    clock.now += 601
    other.get("/in")
    assert "do not hold" in other.post("/in", code=clock_code, name="too late")


def test_four_words_cannot_be_guessed_by_trying(demo: Path, tmp_path: Path, clock: Clock) -> None:
    devices = bench_of(demo, tmp_path / "own", clock, in_the_shop=True).devices
    code = devices.new_code()
    assert not any(devices.let_in("apple boot candle door", "x") for _ in range(5))
    assert devices.let_in(code, "x") is None, "after five wrong ones the code is void"
