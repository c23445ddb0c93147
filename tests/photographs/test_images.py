"""Uploaded photographs: what is refused, and that only upright pixels leave."""

import io
import struct
import zlib

import pytest
from PIL import ExifTags, Image, ImageCms, ImageFile

from catalogue.photographs import imaging as images
from catalogue.photographs.imaging import SIZES, ImageRefused, PreparedImage, read_upload


def chart(width: int = 300, height: int = 200, mode: str = "RGB") -> Image.Image:
    """Red above, white below: which way is up can be seen."""
    picture = Image.new("RGB", (width, height), "white")
    picture.paste((200, 30, 30), (0, 0, width, height // 2))
    return (
        picture.convert("L").convert("I;16").point(lambda v: v * 257)
        if mode == "I;16"
        else picture.convert(mode)
    )


def encoded(picture: Image.Image, form: str = "JPEG", **options: object) -> io.BytesIO:
    file = io.BytesIO()
    picture.save(file, form, **options)
    return file


def shown(prepared: PreparedImage, size: int = 320) -> Image.Image:
    return Image.open(io.BytesIO(prepared.derivatives[size]))


HALVES = ((0, 0, 300, 96), (0, 104, 300, 200))


def is_red(pixel: tuple[int, int, int]) -> bool:
    return pixel[0] > 150 and max(pixel[1:]) < 90


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_a_photograph_becomes_three_jpegs_and_is_never_enlarged(form):
    prepared = read_upload(encoded(chart(1200, 800), form))
    assert (prepared.width, prepared.height) == (1200, 800)
    assert {size: shown(prepared, size).size for size in SIZES} == {
        320: (320, 213),
        960: (960, 640),
        2000: (1200, 800),
    }
    assert all(shown(prepared, size).format == "JPEG" for size in SIZES)


def test_a_long_strip_keeps_its_shape():
    assert shown(read_upload(encoded(chart(24_000, 8))), 2000).size == (2000, 1)


# The eight orientations of the Exif tag: where its first row and first column lie on the upright picture.
@pytest.mark.parametrize(
    ("orientation", "red_at", "turned"),
    [
        (1, (160, 10), False),
        (2, (160, 10), False),
        (3, (160, 203), False),
        (4, (160, 203), False),
        (5, (10, 160), True),
        (6, (203, 160), True),
        (7, (203, 160), True),
        (8, (10, 160), True),
    ],
)
@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_a_turned_photograph_stands_upright(form, orientation, red_at, turned):
    exif = Image.Exif()
    exif[ExifTags.Base.Orientation] = orientation
    prepared = read_upload(encoded(chart(), form, exif=exif))
    assert (prepared.width, prepared.height) == ((200, 300) if turned else (300, 200))
    picture = shown(prepared).resize((214, 320) if turned else (320, 214))
    assert is_red(picture.getpixel(red_at))


def test_place_camera_comment_and_thumbnail_do_not_leave_with_the_picture():
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "secret camera"
    exif.get_ifd(ExifTags.IFD.GPSInfo)[ExifTags.GPS.GPSLatitudeRef] = "secret place"
    sent = encoded(chart(), exif=exif, comment=b"secret words", xmp=b"<x>secret packet</x>")
    assert sent.getvalue().count(b"secret") == 4
    for derivative in read_upload(sent).derivatives.values():
        picture = Image.open(io.BytesIO(derivative))
        assert b"secret" not in derivative
        assert not picture.getexif()
        assert not {"exif", "comment", "xmp", "icc_profile"} & picture.info.keys()


def test_what_is_hidden_behind_a_picture_does_not_leave_with_it():
    prepared = read_upload(io.BytesIO(encoded(chart()).getvalue() + b"PK\x03\x04<script>alert(1)</script>"))
    assert not any(b"<script>" in derivative for derivative in prepared.derivatives.values())


@pytest.mark.parametrize("mode", ["L", "I;16", "LA", "P", "RGBA", "1"])
def test_grey_sixteen_bit_palette_and_transparent_pictures_keep_their_light_and_dark(mode):
    picture = shown(read_upload(encoded(chart(mode=mode), "PNG")))
    assert picture.mode == "RGB"
    dark, light = (picture.crop(box).convert("L").resize((1, 1)).getpixel((0, 0)) for box in HALVES)
    assert light > 250
    assert dark == pytest.approx(chart(mode="L").getpixel((150, 10)), abs=6)


def test_a_printers_four_colours_stay_red():
    assert is_red(shown(read_upload(encoded(chart(mode="CMYK")))).getpixel((160, 20)))


def test_what_is_transparent_is_white_paper():
    picture = Image.new("RGBA", (40, 40), (0, 0, 0, 0))
    assert shown(read_upload(encoded(picture, "PNG"))).getpixel((20, 20)) == (255, 255, 255)


def test_colours_in_a_camera_profile_are_turned_into_those_every_screen_shows():
    standard = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    # A profile whose red is blue, and whose blue is red.
    swapped = standard.replace(b"rXYZ", b"????").replace(b"bXYZ", b"rXYZ").replace(b"????", b"bXYZ")
    picture = shown(read_upload(encoded(chart(), icc_profile=swapped)))
    red, _, blue = picture.getpixel((160, 20))
    assert blue > red + 100


def test_a_broken_colour_profile_leaves_the_colours_as_they_come():
    assert is_red(shown(read_upload(encoded(chart(), icc_profile=b"no profile"))).getpixel((160, 20)))


def test_of_a_phones_double_jpeg_the_photograph_is_taken():
    sent = encoded(chart(), "MPO", save_all=True, append_images=[Image.new("RGB", (60, 40))])
    assert shown(read_upload(sent)).size == (300, 200)


@pytest.mark.parametrize("form", ["TIFF", "WEBP", "PNG"])
def test_several_pictures_in_one_file_are_refused(form):
    sent = encoded(chart(), form, save_all=True, append_images=[Image.new("RGB", (300, 200), "blue")])
    with pytest.raises(ImageRefused, match="several pictures"):
        read_upload(sent)


def test_a_file_cut_short_is_refused_also_where_another_library_lets_pillow_fill_it(monkeypatch):
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    whole = encoded(Image.effect_noise((400, 300), 60).convert("RGB")).getvalue()
    with pytest.raises(ImageRefused, match="not a whole"):
        read_upload(io.BytesIO(whole[: len(whole) // 2]))


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
@pytest.mark.parametrize("share", [0.1, 0.5, 0.98])
def test_a_file_cut_short_is_refused(form, share):
    whole = encoded(Image.effect_noise((400, 300), 60).convert("RGB"), form).getvalue()
    with pytest.raises(ImageRefused, match="not a whole"):
        read_upload(io.BytesIO(whole[: int(len(whole) * share)]))


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"not a picture",
        b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
        b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n",
        b"%PDF-1.7\n",
        b"\xff\xd8\xff\xe0",
        encoded(chart(), "GIF").getvalue(),
        encoded(chart(), "BMP").getvalue(),
    ],
    ids=["empty", "text", "svg", "postscript", "pdf", "jpeg start", "gif", "bmp"],
)
def test_other_kinds_of_file_are_refused(content):
    with pytest.raises(ImageRefused, match="JPEG, PNG, WebP or TIFF"):
        read_upload(io.BytesIO(content))


def png_that_says_it_is(width: int, height: int) -> io.BytesIO:
    """A few bytes of PNG that would unfold to any size."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")
    return io.BytesIO(b"\x89PNG\r\n\x1a\n" + body)


@pytest.mark.parametrize("side", [7_800, 9_700, 50_000])
@pytest.mark.filterwarnings("ignore::PIL.Image.DecompressionBombWarning")
def test_a_picture_that_would_fill_the_memory_is_refused_before_it_is_unfolded(side):
    with pytest.raises(ImageRefused, match="60 million pixels"):
        read_upload(png_that_says_it_is(side, side))


def test_a_file_over_the_limit_is_refused_unread(monkeypatch):
    sent = encoded(chart())
    monkeypatch.setattr(images, "MOST_BYTES", len(sent.getvalue()))
    assert read_upload(sent)
    monkeypatch.setattr(images, "MOST_BYTES", len(sent.getvalue()) - 1)
    with pytest.raises(ImageRefused, match="send a smaller copy"):
        read_upload(sent)
