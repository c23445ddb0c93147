"""Photographs as they come from a stranger's hand, made into three plain pictures that are safe to show.

Nothing of the file that was sent is ever served: every picture is drawn again from its pixels, upright, in
sRGB, without the place, camera and comments that the file may carry.
"""

import io
import os
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import BinaryIO

from PIL import ExifTags, Image, ImageCms, ImageFile, ImageOps

from catalogue.photographs.models import SIZES
from catalogue.workroom.reader.faulty_value import FaultyValue

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF")
MOST_BYTES = 40 * 1024 * 1024
MOST_SCAN_BYTES = 400 * 1024 * 1024  # 60 million pixels of 16-bit colour are 360
MOST_PIXELS = 60_000_000
QUALITY = 85
# Marks in a JPEG: tables, frames, its density, and the pixels themselves.
SCAN_DATA = 0xDA
PLAIN_JPEG = {0xDB, 0xC0, 0xC1, 0xC2, 0xC4, 0xDD, 0xE0, SCAN_DATA}


class ImageRefused(FaultyValue):
    """A file that is not taken; `sentence` says why and what to send instead."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


@dataclass(frozen=True, slots=True, kw_only=True)
class PreparedImage:
    """JPEG files by long edge, and the upright size of the picture as it was sent, in pixels."""

    width: int
    height: int
    derivatives: Mapping[int, bytes]


def read_upload(file: BinaryIO) -> PreparedImage:
    """Check an uploaded picture and draw it again in each of SIZES; a small one is never enlarged.

    Raises ImageRefused with what to do about it.
    """
    file.seek(0, os.SEEK_END)
    if file.tell() > MOST_BYTES:
        raise ImageRefused(f"This file is over {MOST_BYTES >> 20} MB: send a smaller copy.")
    file.seek(0)
    with _opened(file) as image:
        return _prepare(image)


def read_own(file: BinaryIO) -> PreparedImage:
    """As `read_upload`; but a copy that this program drew is its own largest one, byte for byte.

    Drawn again each time that it goes from one workroom to another, it would lose a little each time.
    """
    prepared = read_upload(file)
    file.seek(0)
    octets = file.read()
    if max(prepared.width, prepared.height) > max(SIZES) or not _is_plain_jpeg(octets):
        return prepared
    return replace(prepared, derivatives={**prepared.derivatives, max(SIZES): octets})


def _is_plain_jpeg(octets: bytes) -> bool:
    """Whether it holds pixels and nothing else: no place, no camera, no comment, nothing behind its end."""
    at = 2
    while octets[at : at + 1] == b"\xff" and octets[at + 1] in PLAIN_JPEG:
        is_scan = octets[at + 1] == SCAN_DATA
        at += 2 + int.from_bytes(octets[at + 2 : at + 4])
        # In the pixels an octet of ones is followed by a nought, or by a mark to start afresh at.
        while is_scan and (found := re.compile(rb"\xff[^\x00\xd0-\xd7]").search(octets, at)):
            at, is_scan = found.start(), False
    return octets[:2] == b"\xff\xd8" and octets[at:] == b"\xff\xd9"


def check_scan(file: BinaryIO) -> None:
    """Refuse at the door what its first bytes show to be no scan; the rest shows when it is opened."""
    file.seek(0, os.SEEK_END)
    if file.tell() > MOST_SCAN_BYTES:
        raise ImageRefused(f"This file is over {MOST_SCAN_BYTES >> 20} MB: save it as JPEG.")
    file.seek(0)
    with _opened(file) as image:
        _check_size(image)


def open_scan(file: BinaryIO) -> Image.Image:
    """The whole picture, upright, grey or in sRGB. Raises ImageRefused with what to do about it."""
    with _opened(file) as image:
        _check_size(image)
        image.load()
        if image.mode == "L" and not image.info.get("icc_profile"):
            ImageOps.exif_transpose(image, in_place=True)
            return image
        return _plain(image, None)


@contextmanager
def _opened(file: BinaryIO) -> Iterator[Image.Image]:
    # WeasyPrint, imported anywhere in this process, lets Pillow fill a file that was cut short with grey.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with Image.open(file, formats=FORMATS) as image:
            yield image
    except ImageRefused:
        raise
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _too_large() from None
    # A hostile or broken file fails in whatever way the part of the decoder it reaches fails.
    except Exception as broken:
        raise ImageRefused(
            "This file is not a whole JPEG, PNG, WebP or TIFF picture: save it again or send another."
        ) from broken


def _prepare(image: Image.Image) -> PreparedImage:
    width, height = image.size
    _check_size(image)
    shrink = max(width, height) / max(SIZES)
    # Lets the JPEG decoder leave out detail that no size shows: a third of the memory.
    image.draft(None, (max(1, int(width / shrink)), max(1, int(height / shrink))))
    image.load()
    if image.getexif().get(ExifTags.Base.Orientation, 1) >= 5:
        width, height = height, width
    picture = _plain(image, max(SIZES))
    derivatives = {}
    for size in sorted(SIZES, reverse=True):
        picture.thumbnail((size, size), Image.Resampling.LANCZOS)
        file = io.BytesIO()
        picture.save(file, "JPEG", quality=QUALITY, progressive=True)
        derivatives[size] = file.getvalue()
    return PreparedImage(width=width, height=height, derivatives=derivatives)


def _check_size(image: Image.Image) -> None:
    if image.width * image.height > MOST_PIXELS:
        raise _too_large()
    # A phone's JPEG may carry a second picture, for depth or brightness; the first is the photograph.
    if image.format != "MPO" and getattr(image, "n_frames", 1) > 1:
        raise ImageRefused("This file holds several pictures: save the one you want by itself.")


def _plain(image: Image.Image, longest: int | None) -> Image.Image:
    """The picture with this long edge or as it is, upright, in sRGB on white paper: only its pixels."""
    profile = image.info.get("icc_profile")
    if image.mode == "F":
        raise ImageRefused("This picture holds measured values, not colours: save it as JPEG or PNG.")
    if image.mode.startswith("I"):
        image = image.convert("I")
    elif image.has_transparency_data:
        image = image.convert("RGBA")
    elif image.mode in ("1", "P"):
        image = image.convert("RGB")
    if longest:
        image.thumbnail((longest, longest), Image.Resampling.LANCZOS)
    # In place: a copy of 60 million pixels is 240 MB.
    ImageOps.exif_transpose(image, in_place=True)
    if image.mode == "I":
        image = image.point(lambda value: value * (1 / 257)).convert("L")
    if image.mode == "RGBA":
        paper = Image.new("RGB", image.size, "white")
        paper.paste(image, mask=image.getchannel("A"))
        image = paper
    image = _in_srgb(image, profile)
    image.info.clear()
    return image


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    if profile:
        try:
            own = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            return ImageCms.profileToProfile(image, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (
            ImageCms.PyCMSError,
            OSError,
        ):  # a profile for other channels, or broken: colours as they come
            pass
    return image if image.mode == "RGB" else image.convert("RGB")


def _too_large() -> ImageRefused:
    return ImageRefused(
        f"This picture has over {MOST_PIXELS // 1_000_000} million pixels: send a smaller copy."
    )
