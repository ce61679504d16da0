"""Real recordings, made and played by FFmpeg's libraries: the copy plays the same and says nothing of itself."""

from __future__ import annotations

import io
from fractions import Fraction
from pathlib import Path
from typing import Any

import av
import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.pictures import publish
from site_builder.pictures.look import look_into
from site_builder.pictures.recordings import hushed, write_hushed

SAID = {
    "title": "Tilde pours", "artist": "Tilde Aland", "comment": "In the yard behind number nine",
    "location": "+59.3350+018.0500/", "date": "2026-05-09", "make": "Corvane phone",
}
WORDS = (b"Tilde", b"number nine", b"59.3350", b"2026-05-09", b"Corvane")
FORMS = {
    "ring.mp3": ("libmp3lame", None), "ring.m4a": ("aac", None), "ring.wav": ("pcm_s16le", None),
    "ring.flac": ("flac", None), "ring.opus": ("libopus", None), "ring.ogg": ("vorbis", None),
    "oga.ogg": ("flac", None), "pour.mp4": ("aac", "libx264"), "pour.mov": ("aac", "libx264"),
    "pour.webm": ("libopus", "libvpx"), "sound.webm": ("libopus", None), "fragments.mp4": ("aac", "libx264"),
}
CONTAINERS = {"m4a": "ipod", "opus": "ogg"}


def record(file: Path, sound: str, picture: str | None, said: dict[str, str]) -> None:
    """A second of a falling tone, with a few pictures where there are any."""
    ending = file.suffix[1:]
    options: dict[str, str] = {"movflags": "use_metadata_tags"} if ending in ("mov", "m4a", "mp4") else {}
    if file.stem == "fragments":
        options["movflags"] += "+frag_keyframe+empty_moov"
    if ending == "mp3":
        options |= {"write_id3v1": "1", "id3v2_version": "3"}
    with av.open(str(file), "w", format=CONTAINERS.get(ending, ending), options=options) as out:
        out.metadata.update(said)
        stream: Any = out.add_stream(sound, rate=48000)
        stream.layout = "stereo" if sound == "vorbis" else "mono"
        if sound == "vorbis":
            stream.codec_context.options = {"strict": "experimental"}
        film: Any = None
        if picture is not None:
            film = out.add_stream(picture, rate=10)
            film.width, film.height, film.pix_fmt = 64, 48, "yuv420p"
            film.metadata.update({"title": said.get("title", "")} if said else {})
        channels = 2 if sound == "vorbis" else 1
        times = numpy.arange(48000) / 48000
        tone = (numpy.sin(2 * numpy.pi * (880 - 200 * times) * times) * 8000).astype("int16")
        resampler = av.AudioResampler(format=stream.codec_context.format, layout=stream.layout, rate=48000,
                                      frame_size=stream.codec_context.frame_size or 1024)
        frame = av.AudioFrame.from_ndarray(numpy.repeat(tone, channels)[None, :], "s16", stream.layout.name)
        frame.sample_rate, frame.pts, frame.time_base = 48000, 0, Fraction(1, 48000)
        for piece in [*resampler.resample(frame), *resampler.resample(None)]:
            out.mux(stream.encode(piece))
        out.mux(stream.encode(None))
        for number in range(10 if film is not None else 0):
            shown = av.VideoFrame.from_ndarray(numpy.full((48, 64, 3), number * 20, "uint8"), "rgb24")
            out.mux(film.encode(shown))
        if film is not None:
            out.mux(film.encode(None))


def played(file: Path) -> list[bytes]:
    """Everything that is heard and seen, decoded."""
    with av.open(str(file)) as one:
        return [frame.to_ndarray().tobytes() for frame in one.decode(*one.streams) if hasattr(frame, "to_ndarray")]


def heard(file: Path) -> dict[str, str]:
    """All metadata that FFmpeg finds in the file and in its streams."""
    with av.open(str(file)) as one:
        found = dict(one.metadata)
        for stream in one.streams:
            found |= dict(stream.metadata)
        return found


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "photos").mkdir()
    return tmp_path


@pytest.mark.parametrize("name", FORMS)
def test_a_recording_plays_the_same_and_says_nothing_of_itself(name: str, shop: Path) -> None:
    source = shop / "photos" / name
    record(source, *FORMS[name], SAID)
    before = source.read_bytes()
    spoken = heard(source)
    assert "Tilde pours" in spoken.values(), "the recording must tell something for this to show anything"

    made = publish(Path("photos") / name, shop, shop / "cache")

    assert made.problem is None
    assert made.removed == ("title, maker and place",)
    copy = made.files[0].path
    assert [word for word in WORDS if word in copy.read_bytes()] == []
    # what is left says how the file is coded, and nothing of whose it is
    left = {key: value.strip() for key, value in heard(copy).items() if value.strip()}
    assert set(left) <= {"major_brand", "minor_version", "compatible_brands", "language", "encoder", "vendor_id",
                         "DURATION", "creation_time", "duration"}
    assert left.get("creation_time", "1904-01-01")[:4] in ("1904", "1970")
    assert played(copy) == played(source)
    assert source.read_bytes() == before


@pytest.mark.parametrize("name", FORMS)
def test_a_quiet_recording_is_quiet_and_stays_as_it_is(name: str, shop: Path) -> None:
    source = shop / "photos" / name
    record(source, *FORMS[name], SAID)
    once = publish(Path("photos") / name, shop, shop / "cache").files[0].path.read_bytes()
    again = shop / "photos" / f"again{source.suffix}"
    again.write_bytes(once)
    made = publish(Path("photos") / again.name, shop, shop / "cache")
    assert made.removed == ()
    assert made.files[0].path.read_bytes() == once
    assert not look_into(again).has_location


@pytest.mark.parametrize("name", [name for name in FORMS if name not in ("ring.wav", "pour.webm", "sound.webm")])
def test_a_recording_that_tells_its_place_is_told_of(name: str, shop: Path) -> None:
    source = shop / "photos" / name
    record(source, *FORMS[name], SAID)
    assert look_into(source).has_location
    record(source, *FORMS[name], {"title": "Tilde pours"})
    assert not look_into(source).has_location


def test_readings_of_the_camera_beside_the_film_are_blanked(shop: Path) -> None:
    """A track that is neither sound nor picture, as cameras write one with the place of every second."""
    source = shop / "photos" / "ride.mp4"
    record(source, "aac", "libx264", {})
    data = bytearray(source.read_bytes())
    place = data.index(b"vide", data.index(b"hdlr"))
    data[place : place + 4] = b"meta"
    entry = data.index(b"avc1", data.index(b"stsd"))
    data[entry : entry + 4] = b"gpmd"
    source.write_bytes(data)
    assert look_into(source).has_location
    copy = publish(Path("photos/ride.mp4"), shop, shop / "cache").files[0].path
    with av.open(str(copy)) as one:
        assert [stream.type for stream in one.streams] == ["audio"]
        assert len([*one.decode(audio=0)]) > 10
    with av.open(str(shop / "photos" / "ride.mp4")) as one:
        camera = next(stream for stream in one.streams if stream.type != "audio")
        first = next(bytes(packet) for packet in one.demux(camera) if packet.size > 30)
    assert first in data and first not in copy.read_bytes()


def test_words_laid_around_and_between_the_frames_of_an_mp3(shop: Path) -> None:
    source = shop / "photos" / "ring.mp3"
    record(source, "libmp3lame", None, {})
    bare = publish(Path("photos/ring.mp3"), shop, shop / "cache").files[0].path.read_bytes()
    ape = b"APETAGEX" + (2000).to_bytes(4, "little") + (32 + 40).to_bytes(4, "little") + bytes(16)
    tags = ape + b"Tilde".ljust(72) + b"TAG" + b"Tilde".ljust(125)
    source.write_bytes(b"ID3\4\0\0\0\0\0\x0bTilde pours" + bare + tags)
    copy = publish(Path("photos/ring.mp3"), shop, shop / "cache").files[0].path
    assert copy.read_bytes() == bare


@pytest.mark.parametrize("name", ["ring.mp3", "ring.m4a", "ring.wav", "ring.flac", "ring.opus", "pour.webm"])
@settings(max_examples=40, deadline=None)
@given(place=st.floats(0, 1), put=st.binary(min_size=0, max_size=6), cut=st.booleans())
def test_a_damaged_recording_ends_in_a_value(
    name: str, place: float, put: bytes, cut: bool, tmp_path_factory: pytest.TempPathFactory
) -> None:
    data = _whole(name, tmp_path_factory)
    at = int(place * len(data))
    hurt = data[:at] + put + (b"" if cut else data[at + len(put) :])
    said = hushed(io.BytesIO(hurt), len(hurt))
    if said.problem is None:
        folder = tmp_path_factory.mktemp("hurt")
        (folder / "a").write_bytes(hurt)
        write_hushed(folder / "a", folder / "b", said)
        assert (folder / "b").stat().st_size <= len(hurt)
        again = hushed(io.BytesIO((folder / "b").read_bytes()), (folder / "b").stat().st_size)
        assert not again.speaks and not again.tells_place


_MADE: dict[str, bytes] = {}


def _whole(name: str, factory: pytest.TempPathFactory) -> bytes:
    if name not in _MADE:
        file = factory.mktemp("whole") / name
        record(file, *FORMS[name], SAID)
        _MADE[name] = file.read_bytes()
    return _MADE[name]
