"""What every picture of the example is drawn with: a sheet, colours, and shapes with a dark rim."""

from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

TOP = Path(__file__).resolve().parents[2]
FONT = TOP / "templates" / "fonts" / "AtkinsonHyperlegibleNext-Bold.ttf"
SIZE = WIDE, HIGH = 960, 720
FOOT = 52  # of the sheet, for the mark: nothing is drawn there

PAINT, SHADE, METAL, DARK, INK = "#9fb1bd", "#7f919d", "#c9ced2", "#3b4248", "#111111"
PALE, RED, BLACK, PAPER, RUBBER = "#dde3e6", "#c4302b", "#1c1c1c", "#f5f3ee", "#2a2a2a"
ORANGE, GREEN, CLOTH, GLASS = "#ee7f1b", "#37b24d", "#5a6d82", "#b9d3de"
MINUS = "\N{MINUS SIGN}"


def blank(colour=PAINT):
    image = Image.new("RGB", SIZE, colour)
    return image, ImageDraw.Draw(image)


def write(draw, at, text, size=40, fill=INK, *, anchor="mm"):
    draw.text(at, text, fill, ImageFont.truetype(FONT, size), anchor)


def box(draw, corners, fill, *, round_=14):
    draw.rounded_rectangle(corners, round_, fill, INK, 5)


def disc(draw, x, y, radius, fill, *, line=5):
    draw.ellipse((x - radius, y - radius, x + radius, y + radius), fill, INK, line)


def nut(draw, x, y, radius, fill=METAL):
    draw.regular_polygon((x, y, radius), 6, 15, fill, INK, 5)
    disc(draw, x, y, radius * 0.45, SHADE)


def shape(draw, corners, fill):
    draw.polygon(corners, fill, INK, 5)


def cable(draw, way, fill, width=30):
    """A cable through its corners, round at each, with a dark rim."""
    for colour, thick in ((INK, width + 8), (fill, width)):
        draw.line(way, colour, thick, joint="curve")
        for x, y in way:
            r = thick / 2
            draw.ellipse((x - r, y - r, x + r, y + r), colour)


def dashes(draw, start, end, fill=INK, *, width=6, dash=26):
    """A broken line, upright or level."""
    (x, y), (last_x, last_y) = start, end
    count = int((last_x - x + last_y - y) / dash)
    step_x, step_y = (last_x - x) / count, (last_y - y) / count
    for at in range(0, count, 2):
        begin = x + at * step_x, y + at * step_y
        draw.line((*begin, begin[0] + step_x, begin[1] + step_y), fill, width)


def arrow(draw, start, end, fill=INK):
    """A level arrow."""
    (x, y), (tip, _) = start, end
    back = 26 if tip < x else -26
    draw.line((x, y, tip + back, y), fill, 8)
    draw.polygon(((tip, y), (tip + back, y - 17), (tip + back, y + 17)), fill)


def pointed(draw, text, at, to, *, fill=INK, size=40, anchor="mm"):
    """Words, and a thin line from them to the thing."""
    start = at[0], at[1] + (size * 0.7 if to[1] > at[1] else -size * 0.7)
    draw.line((*start, *to), fill, 4)
    disc(draw, *to, 9, fill, line=2)
    write(draw, at, text, size, fill, anchor=anchor)


def charger(draw, left, top, wide=360, high=320):
    """The charger, upright, with a fixing at each corner."""
    box(draw, (left, top, left + wide, top + high), PAPER, round_=4)
    for x in (left + 40, left + wide - 40):
        for y in (top + 40, top + high - 40):
            disc(draw, x, y, 18, INK)
    write(draw, (left + wide / 2, top + high / 2), "charger", 56 if wide > 300 else 44)
