"""A picture as a PNG of few colours: a drawing of lines and text needs no sixteen million.

Own code: matplotlib writes full colour alone, and Pillow, by which it does so, is no package of
this project. Format: PNG, ISO/IEC 15948 (W3C Recommendation), colour type 3, one byte a pixel. A
third of the size of the same picture in full colour, and the same bytes for the same picture.
"""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from numpy.typing import NDArray

SIGNATURE = b"\x89PNG\r\n\x1a\n"
INDEXED, DEPTH = 3, 8
STEP = 17
"""levels of a channel that are told apart: 255 is fifteen of them"""
LEVELS = 16
MOST = 256
METRE_IN_INCHES = 1.0 / 0.0254


def write_small(figure: Figure, path: Path, dots_per_inch: int) -> None:
    """Write a figure as a PNG of up to 256 colours."""
    figure.set_dpi(dots_per_inch)
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    pixels = np.asarray(canvas.buffer_rgba())[:, :, :3]
    path.write_bytes(png_of(pixels, dots_per_inch))


def png_of(pixels: NDArray[np.uint8], dots_per_inch: int) -> bytes:
    """The bytes of a PNG of pixels (height, width, 3)."""
    palette, places = few_colours(pixels)
    high, wide = places.shape
    rows = np.zeros((high, wide + 1), dtype=np.uint8)  # each begins with its filter, none
    rows[:, 1:] = places
    dots = round(dots_per_inch * METRE_IN_INCHES)
    return b"".join([
        SIGNATURE,
        _chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, DEPTH, INDEXED, 0, 0, 0)),
        _chunk(b"pHYs", struct.pack(">IIB", dots, dots, 1)),
        _chunk(b"PLTE", palette.tobytes()),
        _chunk(b"IDAT", zlib.compress(rows.tobytes(), 9)),
        _chunk(b"IEND", b"")])


def few_colours(pixels: NDArray[np.uint8]) -> tuple[NDArray[np.uint8], NDArray[np.uint8]]:
    """Up to 256 colours (colours, 3), and of each pixel which it is (height, width).

    Alike colours become their mean; of more than 256 the rare ones go to the nearest.
    """
    channels = [np.ascontiguousarray(pixels[:, :, k]).ravel() for k in range(3)]
    step = np.round(np.arange(256) / STEP).astype(np.int64)
    red, green, blue = (step[channel] for channel in channels)
    code = (red * LEVELS + green) * LEVELS + blue
    count = np.bincount(code, minlength=LEVELS**3)
    sums = np.stack([np.bincount(code, channel, LEVELS**3) for channel in channels], axis=1)
    mean = sums / np.maximum(count, 1)[:, None]
    there = np.flatnonzero(count)
    kept = there[np.argsort(-count[there], kind="stable")[:MOST]]
    away = ((mean[there][:, None, :] - mean[kept][None, :, :]) ** 2).sum(axis=2)
    place = np.zeros(LEVELS**3, dtype=np.uint8)
    place[there] = np.argmin(away, axis=1)
    palette = np.round(mean[kept]).astype(np.uint8)
    return palette, place[code].reshape(pixels.shape[:2])


def _chunk(name: bytes, data: bytes) -> bytes:
    return (struct.pack(">I", len(data)) + name + data
            + struct.pack(">I", zlib.crc32(name + data)))
