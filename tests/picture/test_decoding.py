"""Bytes to device values with their meaning: profiles, orientation, channels, damage, memory."""

import gc
import io
import struct
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms, ImageOps

from studio.colour.lab_arrays import lab_to_xyz, xyz_to_lab
from studio.colour.srgb import srgb_to_lab
from studio.errors import BadInput
from studio.picture import decoding, strips
from studio.picture.decoding import from_bytes
from studio.picture.rgb_spaces import WIDE_RGB_TO_XYZ
from tests.picture.made_profiles import grey_profile, matrix_profile, table_profile

RNG = np.random.default_rng(3)
RGB = RNG.integers(0, 256, (9, 14, 3), dtype=np.uint8)
TAKEN_FOR_SRGB = ("it has no colour profile and is taken for sRGB",)
# Display P3 to XYZ under D50, as colour-science and CSS Color 4 have it.
P3 = np.array(
    [
        [0.51512, 0.29198, 0.15710],
        [0.24120, 0.69225, 0.06657],
        [-0.00105, 0.04189, 0.78407],
    ]
)


def file_of(image: Image.Image, kind: str = "PNG", **options: Any) -> bytes:
    file = io.BytesIO()
    image.save(file, kind, **options)
    return file.getvalue()


def exact(rgb: Any) -> Any:
    values = (srgb_to_lab((r / 255, g / 255, b / 255)) for r, g, b in rgb.reshape(-1, 3).tolist())
    return np.array(list(values)).reshape(*rgb.shape[:-1], 3)


def refusal(data: bytes) -> str:
    with pytest.raises(BadInput) as refused:
        from_bytes(data, "tide.jpg")
    return str(refused.value)


def test_without_a_profile_it_is_srgb_to_rounding_and_says_so() -> None:
    picture = from_bytes(file_of(Image.fromarray(RGB)), "tide.png")
    assert (picture.width, picture.height, picture.full_scale) == (14, 9, 255)
    assert picture.notes == TAKEN_FOR_SRGB
    np.testing.assert_allclose(picture.lab(picture.pixels), exact(RGB), atol=1e-9)
    through = xyz_to_lab(picture.linear(picture.pixels) @ picture.encoding.to_xyz.T)
    np.testing.assert_allclose(through, exact(RGB), atol=1e-9)


def test_littlecms_srgb_agrees_with_the_formula_to_a_hundredth() -> None:
    made = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    picture = from_bytes(file_of(Image.fromarray(RGB), icc_profile=made), "tide.png")
    assert picture.notes == ()
    # A channel of s15Fixed16 colorants; a step of a* and b* is 1/256.
    np.testing.assert_allclose(picture.lab(picture.pixels), exact(RGB), atol=0.02)


def test_colours_outside_srgb_are_not_cut_off() -> None:
    green = np.array([[[0, 255, 0], [128, 64, 200]]], dtype=np.uint8)
    picture = from_bytes(
        file_of(Image.fromarray(green), icc_profile=matrix_profile(P3)), "tide.png"
    )
    expected = xyz_to_lab((green / 255.0) ** 2.0 @ P3.T)
    np.testing.assert_allclose(picture.lab(picture.pixels), expected, atol=0.02)
    assert picture.lab(picture.pixels)[0, 0, 1] < exact(green)[0, 0, 1] - 10  # sRGB ends before
    wide = picture.linear(picture.pixels)
    np.testing.assert_allclose(wide @ WIDE_RGB_TO_XYZ.T, lab_to_xyz(expected), atol=2e-4)
    assert wide.min() > -1e-3
    np.testing.assert_array_equal(picture.encoding.to_xyz, WIDE_RGB_TO_XYZ)


@pytest.mark.parametrize(("space", "mode", "channels"), [(b"RGB ", "RGB", 3), (b"CMYK", "CMYK", 4)])
def test_profiles_with_tables_are_read_in_fine_steps(
    space: bytes, mode: str, channels: int
) -> None:
    values = RNG.integers(0, 256, (5, 4999, channels), dtype=np.uint8)
    data = file_of(
        Image.frombytes(mode, (4999, 5), values.tobytes()),
        "TIFF",
        icc_profile=table_profile(space, channels),
    )
    picture = from_bytes(data, "scan.tif")
    np.testing.assert_array_equal(picture.pixels, values)
    share = values[..., :3] / 255.0
    expected = share * [100.0, 65535 / 256, 65535 / 256] - [0.0, 128.0, 128.0]
    np.testing.assert_allclose(picture.lab(picture.pixels), expected, atol=0.01)


def test_grey_profiles_and_grey_under_an_rgb_profile() -> None:
    grey = np.arange(256, dtype=np.uint8).reshape(16, 16)
    squared = from_bytes(file_of(Image.fromarray(grey), icc_profile=grey_profile(2.0)), "tide.png")
    assert squared.pixels.shape == (16, 16, 1)
    lightness = xyz_to_lab(((grey / 255.0) ** 2)[..., None] * [0.96422, 1.0, 0.82521])[..., 0]
    np.testing.assert_allclose(squared.lab(squared.pixels)[..., 0], lightness, atol=0.02)
    in_rgb = from_bytes(file_of(Image.fromarray(grey), icc_profile=matrix_profile(P3)), "tide.png")
    np.testing.assert_allclose(in_rgb.lab(in_rgb.pixels)[..., 0], lightness, atol=0.02)
    assert in_rgb.linear(in_rgb.pixels).shape == (16, 16, 3)
    np.testing.assert_array_equal(in_rgb.encoding.to_xyz, WIDE_RGB_TO_XYZ)


def test_sixteen_bits_of_grey_are_kept() -> None:
    grey = np.linspace(0, 65535, 60).astype(np.uint16).reshape(6, 10)
    plain = from_bytes(file_of(Image.fromarray(grey), "TIFF"), "scan.tif")
    assert plain.pixels.dtype == np.dtype(np.uint16)
    assert plain.full_scale == 65535
    np.testing.assert_array_equal(plain.pixels[..., 0], grey)
    levels = plain.lab(plain.pixels)[..., 0]
    assert levels[0, 0] == pytest.approx(0, abs=1e-9)
    assert levels[-1, -1] == pytest.approx(100, abs=1e-9)
    profiled = from_bytes(
        file_of(Image.fromarray(grey), "TIFF", icc_profile=grey_profile(1.0)), "scan.tif"
    )
    expected = xyz_to_lab((grey / 65535.0)[..., None] * [0.96422, 1.0, 0.82521])[..., 0]
    np.testing.assert_allclose(profiled.lab(profiled.pixels)[..., 0], expected, atol=0.01)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "WEBP"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_pictures_are_turned_upright(kind: str, orientation: int) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    smooth = np.kron(RGB[:3, :4], np.ones((8, 8, 1))).astype(np.uint8)
    options: dict[str, Any] = {"exif": exif}
    if kind == "WEBP":
        options["lossless"] = True
    data = file_of(Image.fromarray(smooth), kind, **options)
    with Image.open(io.BytesIO(data)) as image:
        expected = np.asarray(ImageOps.exif_transpose(image))
    np.testing.assert_array_equal(from_bytes(data, "tide").pixels, expected)


def test_an_orientation_that_is_none_is_passed_over() -> None:
    exif = Image.Exif()
    exif[0x0112] = 77
    picture = from_bytes(file_of(Image.fromarray(RGB), exif=exif), "tide.png")
    np.testing.assert_array_equal(picture.pixels, RGB)


def test_damaged_exif_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    def damaged(_: Image.Image) -> Image.Exif:
        raise OSError

    data = file_of(Image.fromarray(RGB))
    monkeypatch.setattr(Image.Image, "getexif", damaged)
    picture = from_bytes(data, "tide.png")
    assert picture.notes == TAKEN_FOR_SRGB
    np.testing.assert_array_equal(picture.pixels, RGB)


def test_srgb_may_be_said_by_tag_alone() -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA001] = 1
    assert from_bytes(file_of(Image.fromarray(RGB), "JPEG", exif=exif), "tide.jpg").notes == ()
    png = file_of(Image.fromarray(RGB))
    chunk = struct.pack(">I", 1) + b"sRGB\x00" + struct.pack(">I", 0xAECE1CE9)
    said = from_bytes(png[:33] + chunk + png[33:], "tide.png")
    assert said.notes == ()


def test_adobe_rgb_is_known_by_its_interoperability_index() -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA001] = 65535
    exif.get_ifd(0x8769)[0xA005] = {1: "R03"}
    green = np.full((8, 8, 3), (0, 255, 0), dtype=np.uint8)
    picture = from_bytes(file_of(Image.fromarray(green), "JPEG", exif=exif), "tide.jpg")
    assert picture.notes == ()
    # Adobe RGB (1998) encoding, annex: green under D50 by Bradford, XYZ 0.20528, 0.62567, 0.06087.
    lab = xyz_to_lab(np.array([0.20528, 0.62567, 0.06087]))
    np.testing.assert_allclose(picture.lab(picture.pixels)[0, 0], lab, atol=0.3)


def test_transparent_parts_lie_on_white() -> None:
    rgba = np.dstack([RGB, np.full(RGB.shape[:2], 255, np.uint8)])
    assert from_bytes(file_of(Image.fromarray(rgba)), "tide.png").notes == TAKEN_FOR_SRGB
    rgba[0, :, 3] = 0
    rgba[1, :, 3] = 51
    picture = from_bytes(file_of(Image.fromarray(rgba)), "tide.png")
    assert picture.notes[1:] == ("its transparent parts are taken as white",)
    assert (picture.pixels[0] == 255).all()
    np.testing.assert_array_equal(picture.pixels[1], np.rint(RGB[1] * 0.2 + 204))
    np.testing.assert_array_equal(picture.pixels[2:], RGB[2:])
    grey = file_of(Image.fromarray(rgba).convert("LA"))
    assert from_bytes(grey, "tide.png").pixels.shape == (9, 14, 1)


def test_palettes_and_black_and_white_are_read() -> None:
    palette = Image.fromarray(RGB).quantize(16)
    np.testing.assert_array_equal(
        from_bytes(file_of(palette), "tide.png").pixels, np.asarray(palette.convert("RGB"))
    )
    lines = Image.fromarray(RGB).convert("1")
    assert set(np.unique(from_bytes(file_of(lines), "tide.png").pixels)) <= {0, 255}


def test_the_first_of_several_pictures_is_read() -> None:
    frames = [Image.fromarray(np.full((8, 8, 3), level, np.uint8)) for level in (40, 200)]
    for kind in ("GIF", "TIFF", "PNG"):
        data = file_of(frames[0], kind, save_all=True, append_images=frames[1:])
        picture = from_bytes(data, "tide")
        assert picture.notes[0] == "the first of 2 pictures in the file is read"
        assert (picture.pixels == 40).all()
    views = file_of(frames[0], "MPO", save_all=True, append_images=frames[1:])
    assert from_bytes(views, "tide.jpg").notes == TAKEN_FOR_SRGB


def test_what_is_no_picture_is_refused_in_one_sentence() -> None:
    assert refusal(b"") == "tide.jpg is empty; copy it again from the camera or the scanner"
    assert "is not a picture that can be read" in refusal(b"mud, samphire and sea purslane" * 20)
    heic = b"\x00\x00\x00\x18ftypheic" + bytes(200)
    assert refusal(heic).endswith("an HEIC picture, which cannot be read; save or share it as JPEG")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF", "GIF", "BMP", "WEBP"])
def test_a_picture_cut_short_is_refused(kind: str) -> None:
    large = RNG.integers(0, 256, (200, 200, 3), dtype=np.uint8)
    data = file_of(Image.fromarray(large), kind)
    said = refusal(data[: len(data) * 2 // 3])
    assert "is damaged or cut short" in said or "is not a picture that can be read" in said


def test_channels_without_a_meaning_are_refused() -> None:
    cmyk = file_of(Image.new("CMYK", (8, 8)), "TIFF")
    assert "in CMYK without a colour profile" in refusal(cmyk)
    assert "no camera or scanner uses" in refusal(file_of(Image.new("F", (8, 8)), "TIFF"))


@pytest.mark.parametrize(
    "profile", [b"no profile at all", matrix_profile(P3)[:200], grey_profile(2.0)]
)
def test_a_broken_or_foreign_profile_is_refused(profile: bytes) -> None:
    said = refusal(file_of(Image.fromarray(RGB), icc_profile=profile))
    assert said.startswith("the colour profile in tide.jpg is damaged or made for other channels")


def test_raw_files_are_not_taken_for_their_thumbnails() -> None:
    for tag, value in ((50706, b"\x01\x04\x00\x00"), (254, 1)):
        data = file_of(Image.fromarray(RGB), "TIFF", tiffinfo={tag: value})
        assert "is a camera's raw file" in refusal(data)


def test_size_is_refused_before_anything_is_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    header = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    png = file_of(Image.fromarray(RGB))
    bomb = png[:16] + header + png[29:]
    bomb = bomb[:29] + struct.pack(">I", __import__("zlib").crc32(bomb[12:29])) + bomb[33:]
    assert "150 megapixels are read at most" in refusal(bomb)
    monkeypatch.setattr(decoding, "LARGEST_MEGAPIXELS", 0.0001)
    assert refusal(png).startswith("tide.jpg has 0 megapixels, and 0.0001 megapixels are read")
    monkeypatch.setattr(decoding, "LARGEST_FILE", 100)
    assert refusal(png).startswith("tide.jpg is too large")


def test_want_of_memory_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr(decoding, "device_values", full)
    assert "needs more memory than there is" in refusal(file_of(Image.fromarray(RGB)))


FILES = {
    kind: file_of(Image.fromarray(RGB), kind, icc_profile=matrix_profile(P3))
    for kind in ("JPEG", "PNG", "TIFF", "WEBP")
} | {"GIF": file_of(Image.fromarray(RGB), "GIF"), "BMP": file_of(Image.fromarray(RGB), "BMP")}


@settings(max_examples=300)
@given(
    st.sampled_from(sorted(FILES)),
    st.lists(st.tuples(st.integers(0, 3000), st.integers(0, 255)), max_size=8),
    st.integers(0, 3000),
)
def test_damaged_files_raise_nothing_else(
    kind: str, changes: list[tuple[int, int]], cut: int
) -> None:
    data = bytearray(FILES[kind])
    for place, byte in changes:
        data[place % len(data)] = byte
    if cut < len(data):
        del data[cut:]
    try:
        picture = from_bytes(bytes(data), "tide.jpg")
    except BadInput as refused:
        assert str(refused).count("tide.jpg") == 1  # noqa: PT017 - most examples are refused
    else:
        assert picture.lab(picture.pixels[:1, :1]).shape == (1, 1, 3)


@pytest.mark.skipif(sys.platform == "win32", reason="memory is limited by POSIX resource limits")
@pytest.mark.parametrize(("kind", "share"), [("JPEG", 7), ("PNG", 7), ("TIFF", 12)])
def test_memory_stays_within_a_few_bytes_a_pixel(kind: str, share: int, tmp_path: Path) -> None:
    """Pixels are held once, in 4 bytes; with a copy beside them it was 7, and the file on top."""
    tile = RNG.integers(0, 256, (250, 250, 3), dtype=np.uint8)
    exif = Image.Exif()
    exif[0x0112] = 6
    path = tmp_path / "large"
    path.write_bytes(file_of(Image.fromarray(np.tile(tile, (8, 12, 1))), kind, exif=exif))
    script = (
        "import resource, sys\n"
        "import numpy, PIL.Image, PIL.ImageCms, PIL.ImageOps\n"
        "from studio.picture.decoding import from_bytes\n"
        "PIL.Image.init()\n"
        "size = int(open('/proc/self/statm').read().split()[0]) * resource.getpagesize()\n"
        "resource.setrlimit(resource.RLIMIT_AS, (size + int(sys.argv[2]) * 6_000_000,) * 2)\n"
        "picture = from_bytes(open(sys.argv[1], 'rb').read(), 'large')\n"
        "print(picture.width, picture.height)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(path), str(share)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.stdout, done.stderr) == ("2000 3000\n", "")


@pytest.mark.parametrize("mode", ["L", "RGB", "RGBA", "CMYK"])
def test_pixels_lent_are_those_copied_and_outlive_the_picture(mode: str) -> None:
    image = Image.fromarray(RGB).convert(mode)
    if mode == "RGBA":
        image.putalpha(
            Image.fromarray(np.arange(RGB[..., 0].size, dtype=np.uint8).reshape(RGB.shape[:2]))
        )
    with strips.in_one_block():
        lent = image.copy()
    notes: list[str] = []
    pixels = strips.device_values(lent, notes)
    assert pixels.base is not None
    del lent
    gc.collect()
    told: list[str] = []
    np.testing.assert_array_equal(pixels, strips.copied(image, told))
    assert notes == told


def test_a_jpeg_of_which_less_is_enough_is_decoded_smaller() -> None:
    smooth = Image.fromarray(RGB).resize((640, 400), Image.Resampling.BICUBIC)
    data = file_of(smooth, "JPEG", quality=95)
    small = from_bytes(data, "tide.jpg", 200)
    assert (small.width, small.height) == (320, 200)
    assert from_bytes(data, "tide.jpg", 2000).width == 640
    squares = from_bytes(data, "tide.jpg").pixels.reshape(200, 2, 320, 2, 3).mean(axis=(1, 3))
    assert np.abs(squares - small.pixels).mean() < 2
    assert from_bytes(file_of(smooth), "tide.png", 200).width == 640
