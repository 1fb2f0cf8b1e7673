"""What a phone's camera sees: a printed label on a holder, as a film that Chromium takes for its camera."""

import io
import random
from pathlib import Path

from PIL import Image, ImageFilter

from exergue.labels import formats, ids, sheet
from exergue.labels.label import Label
from exergue.labels.readback import rasters

HOST = "https://desk.example"


def label_picture(label: Label, dpi: int = 300) -> Image.Image:
    """The label cut out of the real PDF, as it lies on the page."""
    file = io.BytesIO()
    sheet.print_pdf([label], formats.all()["letter-30"], dpi, out=file)
    page = next(iter(rasters(file.getvalue(), dpi))).convert("L")
    ink = page.point(lambda grey: 255 if grey < 128 else 0).getbbox()
    edge = 20
    return page.crop((max(0, ink[0] - edge), max(0, ink[1] - edge), ink[2] + edge, ink[3] + edge))


def coin_label(key: str) -> Label:
    return Label(key, ids.address(HOST, key), ("Half cent, Draped Bust", "1806", "VF-20"))


def film(out: Path, picture: Image.Image, *, empty: int = 6, frames: int = 10) -> Path:
    """An .mjpeg of 1280×720: an empty table first, then the picture, tilted, a little blurred, in noise."""
    noise = random.Random(7)
    picture = picture.rotate(-7, expand=True, fillcolor=255, resample=Image.Resampling.BICUBIC)
    picture = picture.resize((round(picture.width * 460 / picture.height), 460), Image.Resampling.LANCZOS)
    with out.open("wb") as file:
        for number in range(empty + frames):
            table = Image.new("L", (1280, 720), 120)
            if number >= empty:
                table.paste(picture, (400 + number, 130))
            grain = Image.frombytes("L", table.size, noise.randbytes(table.width * table.height))
            seen = Image.blend(table.filter(ImageFilter.GaussianBlur(0.8)), grain, 0.08)
            seen.convert("RGB").save(file, "JPEG", quality=88)
    return out
