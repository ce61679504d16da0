"""Photos and drawings on their way from the phone into the handbook."""

from __future__ import annotations

import base64
import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms, ImageDraw

from site_builder.handbook.media import media_html
from site_builder.pictures import publish, publish_all
from site_builder.pictures.look import look_into as inspect

CAMERA = "Corvane bench camera 7"
XMP_WITH_PLACE = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    b'<rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="59,20.1N"/>'
    b"</rdf:RDF></x:xmpmeta>"
)


def bench(width: int, height: int, mode: str = "RGB") -> Image.Image:
    """A picture whose top left quarter is red and the rest grey, so that one sees how it lies."""
    image = Image.new(mode, (width, height), (120, 120, 120))
    ImageDraw.Draw(image).rectangle((0, 0, width // 2 - 1, height // 2 - 1), fill=(220, 10, 10))
    return image


def colour(file: Path, at: tuple[int, int]) -> tuple[int, int, int]:
    """Red, green and blue of one pixel."""
    with Image.open(file) as image:
        red, green, blue = image.convert("RGB").crop((*at, at[0] + 1, at[1] + 1)).tobytes()
    return red, green, blue


def place_and_camera(orientation: int = 1) -> Image.Exif:
    exif = Image.Exif()
    exif[0x0110] = CAMERA
    exif[0x0112] = orientation
    exif[0x8825] = {1: "N", 2: (59.0, 20.0, 6.0), 3: "E", 4: (18.0, 3.0, 0.0)}
    return exif


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "notebook" / "photos").mkdir(parents=True)
    return tmp_path / "notebook"


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    return tmp_path / "cache"


def test_a_photo_becomes_three_sizes_named_by_its_content(shop: Path, cache: Path) -> None:
    photo = shop / "photos" / "Föt på slip (2).JPG"
    bench(2400, 1800).save(photo, "JPEG")

    made = publish(photo, shop, cache)

    assert made.problem is None
    assert [(file.width, file.height) for file in made.files] == [(400, 300), (800, 600), (1600, 1200)]
    stem, digest, width = made.files[1].name.removesuffix(".webp").rsplit("-", 2)
    assert (stem, len(digest), width) == ("assets/photos/fot-pa-slip-2", 8, "800")
    with Image.open(made.files[2].path) as largest:
        assert (largest.format, largest.size) == ("WEBP", (1600, 1200))


def test_a_small_photo_is_never_enlarged(shop: Path, cache: Path) -> None:
    bench(1000, 500).save(shop / "photos" / "burr.png")

    made = publish(Path("photos/burr.png"), shop, cache)

    assert [(file.width, file.height) for file in made.files] == [(400, 200), (800, 400), (1000, 500)]


def test_nothing_of_where_when_and_with_what_is_published(shop: Path, cache: Path) -> None:
    photo = shop / "photos" / "plate.jpg"
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    bench(900, 600).save(
        photo,
        "JPEG",
        exif=place_and_camera(),
        xmp=XMP_WITH_PLACE,
        icc_profile=profile,
        comment="taken by Ansa",
    )
    before = photo.read_bytes()
    for told in (CAMERA.encode(), b"GPSLatitude", b"ICC_PROFILE", b"taken by Ansa"):
        assert told in before

    made = publish(photo, shop, cache)

    for file in made.files:
        data = file.path.read_bytes()
        for told in (CAMERA.encode(), b"GPS", b"taken by", b"Exif"):
            assert told not in data
        # RFC 9649: the chunks of a WebP file that hold pixels, and no other.
        assert set(webp_chunks(data)) <= {b"VP8 ", b"VP8L", b"VP8X", b"ALPH"}
    assert photo.read_bytes() == before, "the original is never touched"


def webp_chunks(data: bytes) -> list[bytes]:
    names, place = [], 12
    while place < len(data):
        name, length = struct.unpack_from("<4sI", data, place)
        names.append(name)
        place += 8 + length + length % 2
    return names


@pytest.mark.parametrize("ending", ["jpg", "png", "webp", "tif"])
def test_a_photo_held_upright_is_shown_upright(shop: Path, cache: Path, ending: str) -> None:
    # Exif orientation 6: the stored picture must be turned a quarter clockwise to stand upright, so
    # that its stored top left corner is seen at the top right (Exif 2.32, 4.6.4 A).
    held = shop / "photos" / f"held.{ending}"
    bench(1200, 900).save(held, exif=place_and_camera(orientation=6).tobytes())

    made = publish(held, shop, cache)

    assert (made.width, made.height) == (900, 1200)
    with Image.open(made.files[0].path) as small:
        assert small.size == (400, 533)
    red, green, _ = colour(made.files[0].path, (360, 40))
    assert red > 180 and green < 60
    assert colour(made.files[0].path, (40, 40))[1] > 100


def test_a_large_turned_photo_keeps_its_full_width(shop: Path, cache: Path) -> None:
    # Decoding at a fraction must look at the side that becomes the width.
    bench(4000, 3000).save(shop / "photos" / "held.jpg", exif=place_and_camera(orientation=8))

    made = publish(Path("photos/held.jpg"), shop, cache)

    assert [(file.width, file.height) for file in made.files] == [(400, 533), (800, 1067), (1600, 2133)]


def test_colours_of_a_wide_profile_are_kept_when_the_profile_goes(shop: Path, cache: Path) -> None:
    # A profile in which red and blue are swapped shows at once whether it was used.
    rgb = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    red, blue = rgb.index(b"rXYZ", 128), rgb.index(b"bXYZ", 128)
    rgb[red : red + 4], rgb[blue : blue + 4] = b"bXYZ", b"rXYZ"
    Image.new("RGB", (500, 400), (220, 10, 10)).save(shop / "photos" / "p.png", icc_profile=bytes(rgb))

    made = publish(Path("photos/p.png"), shop, cache)

    red_now, _, blue_now = colour(made.files[0].path, (50, 50))
    assert blue_now > 180 and red_now < 60


@pytest.mark.parametrize("mode", ["L", "LA", "P", "RGBA", "CMYK", "I;16"])
def test_every_sort_of_pixels_is_published(shop: Path, cache: Path, mode: str) -> None:
    image = Image.new("I;16", (500, 300), 32_768) if mode == "I;16" else bench(500, 300).convert(mode)
    image.save(shop / "photos" / "p.tif")

    made = publish(Path("photos/p.tif"), shop, cache)

    assert all(105 < level < 136 for level in colour(made.files[0].path, (300, 200)))


def test_a_second_run_does_no_work(shop: Path, cache: Path) -> None:
    bench(1700, 900).save(shop / "photos" / "a.jpg")
    first = publish(Path("photos/a.jpg"), shop, cache)
    times = {file: file.stat().st_mtime_ns for file in cache.rglob("*")}

    assert publish(Path("photos/a.jpg"), shop, cache) == first
    assert {file: file.stat().st_mtime_ns for file in cache.rglob("*")} == times


def test_a_changed_photo_gets_a_new_name(shop: Path, cache: Path) -> None:
    photo = shop / "photos" / "a.jpg"
    bench(500, 300).save(photo)
    first = publish(photo, shop, cache)
    bench(500, 301).save(photo)

    assert publish(photo, shop, cache).files[0].name != first.files[0].name


def test_work_that_was_cut_off_is_done_again(shop: Path, cache: Path) -> None:
    bench(500, 300).save(shop / "photos" / "a.jpg")
    first = publish(Path("photos/a.jpg"), shop, cache)
    whole = first.files[0].path.read_bytes()
    first.files[0].path.write_bytes(b"half a pho")

    assert publish(Path("photos/a.jpg"), shop, cache).files[0].path.read_bytes() == whole


def test_many_photos_by_two_processes_come_out_as_one_by_one(shop: Path, cache: Path, tmp_path: Path) -> None:
    sources = [Path(f"photos/{number}.jpg") for number in range(8)]
    for number, source in enumerate(sources):
        bench(600 + number, 400).save(shop / source)
    (shop / "photos" / "3.jpg").write_bytes(b"not a photo")

    together = publish_all(sources, shop, cache)

    alone = {source: publish(source, shop, tmp_path / "other") for source in sources}
    names = {source: [file.name for file in made.files] for source, made in together.items()}
    assert names == {source: [file.name for file in made.files] for source, made in alone.items()}
    assert together[sources[3]].problem is not None


def png_of(width: int, height: int) -> bytes:
    """A PNG of one colour, one bit a pixel, written by hand: a few kilobytes however large it is."""

    def block(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = bytes(1 + (width + 7) // 8) * height
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + block(b"IHDR", head)
        + block(b"IDAT", zlib.compress(rows, 9))
        + block(b"IEND", b"")
    )


@pytest.mark.parametrize("side", [10_000, 8_000, 20_000])
def test_a_few_kilobytes_that_unfold_to_a_hundred_million_pixels_are_refused(
    shop: Path, cache: Path, side: int
) -> None:
    (shop / "photos" / "bomb.png").write_bytes(bomb := png_of(side, side))
    assert len(bomb) < 60_000

    made = publish(Path("photos/bomb.png"), shop, cache)

    assert made.problem is not None
    assert made.problem.code == "too-many-pixels"
    assert inspect(shop / "photos" / "bomb.png").problem == made.problem


def test_a_photo_cut_short_in_copying_is_told_not_raised(shop: Path, cache: Path) -> None:
    out = io.BytesIO()
    bench(1200, 900).save(out, "JPEG")
    (shop / "photos" / "cut.jpg").write_bytes(out.getvalue()[: len(out.getvalue()) // 2])

    made = publish(Path("photos/cut.jpg"), shop, cache)

    assert made.problem is not None and made.problem.code == "cut-short"
    assert "Copy it again" in str(made.problem)
    assert media_html(made, "the cut") == ""


@pytest.mark.parametrize(
    ("file", "data", "code", "says"),
    [
        ("a.jpg", b"this is a letter", "not-a-picture", "Save it as JPEG"),
        ("a.jpg", b"", "not-a-picture", "Save it as JPEG"),
        ("a.heic", b"\0\0\0\x18ftypheic\0\0\0\0", "not-a-picture", "Save the photo as JPEG"),
        ("a.mov", b"\0\0\0\x10ftypqt  \0\0\0\0", "not-a-picture", "film as MP4"),
        ("a.xyz", b"\0\1\2\3", "not-a-picture", "no picture"),
        ("a.svg", b"<html><svg/></html>", "not-a-picture", "broken"),
        ("a.svg", b"<svg", "not-a-picture", "broken"),
        ("a.svg", "<svg>é</svg>".encode("utf-16"), "not-a-picture", "UTF-8"),
    ],
)
def test_what_is_no_picture_is_told_with_what_to_do(
    shop: Path, cache: Path, file: str, data: bytes, code: str, says: str
) -> None:
    (shop / "photos" / file).write_bytes(data)
    made = publish(Path("photos") / file, shop, cache)
    assert made.problem is not None
    assert made.problem.code == code
    assert says in made.problem.text


def test_a_missing_file_and_one_outside_the_notebook(shop: Path, cache: Path, tmp_path: Path) -> None:
    bench(500, 300).save(tmp_path / "private.jpg")
    (shop / "photos" / "link.jpg").symlink_to(tmp_path / "private.jpg")

    problems = [
        publish(Path(path), shop, cache).problem
        for path in ("photos/none.jpg", "../private.jpg", "photos/link.jpg")
    ]

    assert [problem.code for problem in problems if problem] == ["missing", "outside", "outside"]


def test_any_bytes_at_all_end_in_a_value(shop: Path, cache: Path) -> None:
    out = io.BytesIO()
    bench(300, 200).save(out, "JPEG", exif=place_and_camera(6), xmp=XMP_WITH_PLACE)
    photo = shop / "photos" / "worn.jpg"
    for place in range(2, 700, 3):
        data = bytearray(out.getvalue())
        data[place : place + 3] = b"\xff\x00\x7f"
        photo.write_bytes(data)
        made = publish(photo, shop, cache)
        assert bool(made.files) != bool(made.problem)


# --- facts read from the head ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("form", "ending"), [("JPEG", "jpg"), ("PNG", "png"), ("WEBP", "webp"), ("TIFF", "tif")]
)
def test_facts_of_a_photo_with_a_place(shop: Path, form: str, ending: str) -> None:
    photo = shop / "photos" / f"a.{ending}"
    bench(640, 480).save(photo, form, exif=place_and_camera(6).tobytes())

    facts = inspect(photo)

    assert (facts.kind, facts.has_location, facts.orientation, facts.problem) == ("photo", True, 6, None)
    assert (facts.width, facts.height) == (480, 640), "as it will stand, not as it is stored"
    assert facts.bytes == photo.stat().st_size


def test_a_place_told_only_in_xmp_counts_and_a_camera_alone_does_not(shop: Path) -> None:
    bench(64, 48).save(shop / "xmp.jpg", xmp=XMP_WITH_PLACE)
    exif = Image.Exif()
    exif[0x0110] = CAMERA
    exif.get_ifd(0x8825).update({0: b"\2\3\0\0"})  # phones write the version even when told to be silent
    bench(64, 48).save(shop / "camera.jpg", exif=exif)

    assert inspect(shop / "xmp.jpg").has_location
    assert not inspect(shop / "camera.jpg").has_location


def test_a_place_behind_the_pixels_of_a_png_is_found_without_decoding_them(shop: Path) -> None:
    # The standard lets the Exif block stand after the pixels (PNG, third edition, 5.6).
    out = io.BytesIO()
    bench(64, 48).save(out, "PNG")
    data = place_and_camera().tobytes()[6:]
    block = struct.pack(">I", len(data)) + b"eXIf" + data + struct.pack(">I", zlib.crc32(b"eXIf" + data))
    (shop / "a.png").write_bytes(out.getvalue()[:-12] + block + out.getvalue()[-12:])

    assert inspect(shop / "a.png").has_location


def test_twelve_megapixels_are_usual_and_more_is_huge(shop: Path) -> None:
    Image.new("L", (4032, 3024)).save(shop / "usual.jpg")
    Image.new("L", (8000, 6000)).save(shop / "huge.jpg")

    assert not inspect(shop / "usual.jpg").huge
    assert inspect(shop / "huge.jpg").huge


# --- drawings ----------------------------------------------------------------------------------------

UNSAFE = """<?xml version="1.0" encoding="UTF-8"?>
<?xml-stylesheet href="https://style.example/a.css"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="280" height="150"
     xmlns:ink="http://draw.example/ns" ink:version="9" onload="alert(1)">
  <metadata><who>Ansa</who></metadata>
  <script>alert(2)</script>
  <style>@import url(https://style.example/b.css);</style>
  <defs><linearGradient id="g"/></defs>
  <rect width="9" height="9" fill="url(#g)" style="stroke:url('https://x.example/p')" ONCLICK="alert(3)"/>
  <use xlink:href="#g"/><use href="https://x.example/other.svg#a"/>
  <a xlink:href="javascript:alert(4)"><text x="4">The sole <tspan>lies</tspan> flat</text></a>
  <foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><iframe src="https://x.example"/></body></foreignObject>
  <image href="https://x.example/track.png"/>
  <animate attributeName="href" to="javascript:alert(5)"/>
  <path d="M0 0 V7" fill="u\\72l(https://x.example/q)"/>
</svg>"""


def test_a_drawing_loses_all_that_acts_or_reaches_outside_and_says_so(shop: Path, cache: Path) -> None:
    (shop / "photos" / "sole.svg").write_text(UNSAFE, encoding="utf-8")

    made = publish(Path("photos/sole.svg"), shop, cache)

    assert made.problem is None
    drawing = made.files[0].path.read_text(encoding="utf-8")
    for gone in ("alert", "example", "script", "foreignObject", "onload", "ONCLICK", "DOCTYPE", "Ansa", "<a"):
        assert gone not in drawing
    assert drawing.count("http") == 1, "the name of SVG itself"
    for kept in ('fill="url(#g)"', 'href="#g"', "The sole <tspan>lies</tspan> flat", 'd="M0 0 V7"'):
        assert kept in drawing
    assert made.removed == (
        "animate",
        "event handler (2)",
        "foreignObject",
        "link",
        "outside reference (3)",
        "outside style sheet",
        "picture from outside",
        "script",
        "style that loads something",
    )


def test_a_drawing_shrinks_on_a_phone_and_tells_its_size(shop: Path, cache: Path) -> None:
    (shop / "photos" / "a.svg").write_text('<svg width="280px" height="150px"><path d="M0 0"/></svg>')

    made = publish(Path("photos/a.svg"), shop, cache)

    assert (made.kind, made.width, made.height) == ("drawing", 280, 150)
    assert 'viewBox="0 0 280 150"' in made.files[0].path.read_text()
    assert inspect(shop / "photos" / "a.svg").width == 280


def test_a_photo_inside_a_drawing_keeps_its_pixels_only(shop: Path, cache: Path) -> None:
    out = io.BytesIO()
    bench(64, 48).save(out, "JPEG", exif=place_and_camera())
    embedded = base64.b64encode(out.getvalue()).decode()
    (shop / "photos" / "a.svg").write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg"><image href="data:image/jpeg;base64,{embedded}"/></svg>'
    )

    drawing = publish(Path("photos/a.svg"), shop, cache).files[0].path.read_text()

    data = base64.b64decode(drawing.partition("base64,")[2].partition('"')[0])
    assert CAMERA.encode() not in data
    with Image.open(io.BytesIO(data)) as image:
        assert image.size == (64, 48)
        assert not image.getexif()


@pytest.mark.parametrize(
    "data",
    [
        '<!DOCTYPE svg [<!ENTITY a "b"><!ENTITY c "&a;&a;">]><svg>&c;</svg>',
        '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]><svg>&a;</svg>',
        "<svg>" + "<g>" * 5000 + "</g>" * 5000 + "</svg>",
        "<svg>" + " " * 4_000_001 + "</svg>",
    ],
)
def test_a_drawing_made_to_harm_is_refused(shop: Path, cache: Path, data: str) -> None:
    (shop / "photos" / "a.svg").write_text(data)

    problem = publish(Path("photos/a.svg"), shop, cache).problem

    assert problem is not None and problem.code == "unsafe-drawing"


# --- markup ------------------------------------------------------------------------------------------


def test_a_page_offers_the_size_that_fits(shop: Path, cache: Path) -> None:
    bench(2000, 1000).save(shop / "photos" / "a.jpg")
    made = publish(Path("photos/a.jpg"), shop, cache)
    small, middle, large = (file.name for file in made.files)

    assert media_html(made, 'The "good" sole & plate', "../..") == (
        f'<img src="../../{middle}" srcset="../../{small} 400w, ../../{middle} 800w, ../../{large} 1600w"'
        ' sizes="(min-width: 720px) 580px, 100vw" width="1600" height="800"'
        ' alt="The &quot;good&quot; sole &amp; plate" loading="lazy" decoding="async">'
    )


def test_sound_and_film_can_be_played_on_the_page(shop: Path, cache: Path) -> None:
    (shop / "photos" / "ring.mp3").write_bytes((b"\xff\xfb\x90\x64" + bytes(413)) * 3)  # silence at 128 kbit/s
    (shop / "photos" / "pour.webm").write_bytes(b"\x1a\x45\xdf\xa3\x80\x18\x53\x80\x67\x80")

    sound = media_html(publish(Path("photos/ring.mp3"), shop, cache), "A sound casting rings")
    film = media_html(publish(Path("photos/pour.webm"), shop, cache), "The pour")

    assert sound.startswith("<audio controls ") and 'aria-label="A sound casting rings"' in sound
    assert film.startswith("<video controls ")
