"""Prints of the sample, read back: their text, their picture."""

import io
import re

import pdfplumber
import pypdfium2

from baybook.publish.prints import render_prints
from prints import sample

FIT = sample.IDENTITY.fit
PAPERS = ("a4", "letter")
# Sizes in points by ISO 216 (A4, 210 × 297 mm) and ANSI/ASME Y14.1 (Letter, 8.5 × 11 in).
SIZES = {"a4": (210 / 25.4 * 72, 297 / 25.4 * 72), "letter": (8.5 * 72, 11 * 72)}


def printed(entry, *papers):
    papers = papers or ("a4",)
    return render_prints(sample.book(entry), {FIT: sample.DRAWN}, papers=papers)[FIT]


def pages(pdf):
    """Return the text of each page, every kind of space as one space."""
    with pdfplumber.open(io.BytesIO(pdf)) as read:
        return [re.sub(r"\s+", " ", page.extract_text(use_text_flow=True)) for page in read.pages]


def raster(pdf, page, scale=3):
    return pypdfium2.PdfDocument(pdf)[page].render(scale=scale).to_pil()


def edited(change):
    entry = sample.entry(sample.GUIDE)
    change(entry.content["guide"])
    return entry
