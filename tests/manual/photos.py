"""The pictures of the example's vehicles: invented, drawn here, and marked so in each of them.

    python tests/manual/photos.py

writes them into `fits/vehicles/<vehicle>/photos/` again. One is saved as a phone would save it:
lying on its side, with the place where it was taken. `tests/publish/test_pictures.py` looks for
both in what is published.
"""

from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

TOP = Path(__file__).resolve().parents[2]
VEHICLES = TOP / "fits" / "vehicles"
FONT = TOP / "templates" / "fonts" / "AtkinsonHyperlegibleNext-Bold.ttf"
SIZE = WIDE, HIGH = 960, 720
MARK = "DEMONSTRATION"
LARGEST = 40_000  # bytes of a file

PAINT, SHADE, METAL, DARK, INK = "#9fb1bd", "#7f919d", "#c9ced2", "#3b4248", "#111111"
PALE, RED, BLACK, PAPER, RUBBER = "#dde3e6", "#c4302b", "#1c1c1c", "#f5f3ee", "#2a2a2a"


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


def bay(side):
    """An open engine bay from above, its nose up, the battery on the vehicle's own side."""
    image, draw = blank(SHADE)
    box(draw, (40, 60, 920, 640), DARK, round_=60)
    box(draw, (330, 200, 630, 520), PALE)
    write(draw, (480, 360), "engine", 44)
    left = 90 if side == "left" else 680
    battery(draw, left, 220)
    box(draw, (120, 50, 840, 100), METAL)
    write(draw, (480, 75), "front", 36)
    write(draw, (left + 95, 500), side, 44, PAPER)
    return image


def battery(draw, left, top):
    box(draw, (left, top, left + 190, top + 230), BLACK)
    box(draw, (left + 15, top + 15, left + 175, top + 215), DARK)
    disc(draw, left + 55, top + 60, 26, RED)
    disc(draw, left + 135, top + 60, 26, METAL)
    write(draw, (left + 55, top + 115), "+", 60, PAPER)
    write(draw, (left + 135, top + 115), "\N{MINUS SIGN}", 60, PAPER)


def clamp(sign, *, stud=False, sensor=False):
    """A post of the battery with its clamp, from above."""
    image, draw = blank(DARK)
    box(draw, (60, 260, 900, 690), BLACK)
    write(draw, (200, 560), sign, 150, PAPER)
    box(draw, (330, 300, 640, 520), METAL, round_=90)
    disc(draw, 480, 410, 66, SHADE)
    box(draw, (610, 360, 760, 460), METAL)
    nut(draw, 700, 410, 40)
    if stud:
        nut(draw, 480, 270, 46)
        write(draw, (560, 225), "M6", 48, PAPER, anchor="lm")
    if sensor:
        box(draw, (300, 110, 660, 250), RUBBER)
        draw.rectangle((440, 250, 520, 330), METAL, INK, 5)
        write(draw, (480, 180), "sensor", 48, PAPER)
    cable = RED if sign == "+" else SHADE
    draw.line((760, 410, 960, 520), cable, 46)
    return image


def body_point(where):
    """A bolt in bare metal, with the lugs of the vehicle's own leads."""
    image, draw = blank()
    draw.line((0, 560, 960, 480), SHADE, 16)
    disc(draw, 480, 360, 130, METAL)
    for end in ((160, 690), (300, 720)):
        draw.line((480, 360, *end), BLACK, 34)
    box(draw, (400, 320, 560, 400), METAL, round_=40)
    nut(draw, 480, 360, 58)
    write(draw, (600, 250), "M8", 52, anchor="lm")
    write(draw, (480, 80), where, 44)
    return image


def plate(*lines):
    image, draw = blank(SHADE)
    box(draw, (140, 160, 820, 560), METAL)
    for x, y in ((180, 200), (780, 200), (180, 520), (780, 520)):
        disc(draw, x, y, 14, SHADE)
    for at, line in enumerate(lines):
        write(draw, (480, 360 + 90 * (at - (len(lines) - 1) / 2)), line, 64)
    return image


def flap():
    image, draw = blank()
    disc(draw, 430, 380, 240, SHADE)
    disc(draw, 430, 380, 130, DARK)
    write(draw, (430, 380), "fuel", 52, PAPER)
    box(draw, (700, 180, 910, 560), PAINT)
    box(draw, (725, 280, 885, 460), PAPER)
    for at, line in enumerate(("petrol", "only")):
        write(draw, (805, 345 + 56 * at), line, 46)
    return image


def trim(text):
    """A side wall with four marks, where the charger goes."""
    image, draw = blank(PALE)
    box(draw, (120, 120, 840, 640), PAINT)
    box(draw, (300, 220, 660, 540), PAPER, round_=4)
    for x in (340, 620):
        for y in (260, 500):
            disc(draw, x, y, 18, INK)
    write(draw, (480, 380), "charger", 56)
    write(draw, (480, 175), text, 40)
    return image


def rear(*, socket):
    """The rear bumper, with a tow socket or without."""
    image, draw = blank(PALE)
    box(draw, (60, 120, 900, 400), PAINT)
    for x in (110, 760):
        box(draw, (x, 170, x + 90, 340), RED)
    box(draw, (40, 420, 920, 560), DARK)
    if socket:
        disc(draw, 640, 490, 62, BLACK)
        for at in range(12):
            x, y = (at % 4 - 1.5) * 24, (at // 4 - 1) * 24
            disc(draw, 640 + x, 490 + y, 8, METAL, line=2)
        disc(draw, 640, 538, 7, METAL, line=2)
        write(draw, (560, 490), "13 pins", 44, PAPER, anchor="rm")
    else:
        write(draw, (480, 490), "no socket", 44, PAPER)
    return image


def blocks():
    """The tray from the side, on blocks over the chassis rail."""
    image, draw = blank(PALE)
    box(draw, (40, 160, 920, 360), PAINT)
    write(draw, (480, 260), "tray", 60)
    for x in (150, 440, 730):
        box(draw, (x, 360, x + 90, 450), RUBBER)
    box(draw, (40, 450, 920, 540), DARK)
    write(draw, (485, 495), "chassis rail", 44, PAPER)
    write(draw, (485, 600), "three rubber blocks", 44)
    return image


def battery_box():
    """The battery box between cab and tray, its lid open."""
    image, draw = blank(PALE)
    box(draw, (30, 120, 330, 520), PAINT)
    write(draw, (180, 300), "cab", 56)
    box(draw, (620, 160, 930, 330), PAINT)
    write(draw, (775, 245), "tray", 56)
    box(draw, (350, 300, 610, 600), METAL)
    battery(draw, 385, 340)
    box(draw, (350, 250, 610, 290), DARK)
    draw.line((30, 640, 930, 640), DARK, 24)
    return image


# vehicle → file → picture
PICTURES = {
    "brunsall-tansy": {
        "battery-left.png": lambda: bay("left"),
        "body-point-left.webp": lambda: body_point("left inner wing"),
        "boot-left.png": lambda: trim("behind the left boot trim"),
        "door-plate.png": lambda: plate("BRUNSALL TANSY", "1.5", "12 V"),
        "fuel-flap.png": flap,
        "negative-clamp.png": lambda: clamp("\N{MINUS SIGN}"),
        "positive-clamp.png": lambda: clamp("+", stud=True),
        "sensor.jpg": lambda: clamp("\N{MINUS SIGN}", sensor=True),
    },
    "dunstrel-cobble": {
        "battery-right.png": lambda: bay("right"),
        "body-point-right.png": lambda: body_point("right inner wing"),
        "box-wall.png": lambda: trim("front wall of the tray box"),
        "positive-clamp.png": lambda: clamp("+", stud=True),
        "rear-bare.webp": lambda: rear(socket=False),
        "sensor.png": lambda: clamp("\N{MINUS SIGN}", sensor=True),
        "tray-blocks.png": blocks,
    },
    "dunstrel-cobble-tow-pack": {
        "alternator-plate.png": lambda: plate("ALTERNATOR", "14 V  180 A"),
        "battery-box.png": battery_box,
        "body-point-rail.png": lambda: body_point("right chassis rail"),
        "tow-socket.png": lambda: rear(socket=True),
    },
}


def marked(image):
    """Return a picture with the mark across its foot."""
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, HIGH - 52, WIDE, HIGH), PAPER)
    write(draw, (WIDE / 2, HIGH - 26), MARK, 34)
    return image


def as_a_phone_saves(image, path):
    """Save a picture lying on its side, with make, day and place."""
    exif = Image.Exif()
    exif[0x0112] = 6  # to be turned a quarter to the right
    exif[0x010F] = MARK
    exif[0x0132] = "2024:09:17 10:20:30"
    place = exif.get_ifd(0x8825)
    place.update({1: "N", 2: (10.0, 20.0, 30.0), 3: "E", 4: (1.0, 2.0, 3.0)})
    lying = image.transpose(Image.Transpose.ROTATE_90)
    lying.save(path, "JPEG", quality=60, optimize=True, exif=exif, comment=b"taken in bay 2")


def save(image, path):
    if path.suffix == ".jpg":
        as_a_phone_saves(image, path)
    elif path.suffix == ".webp":
        image.save(path, "WEBP", quality=60, method=6)
    else:
        image.quantize(32).save(path, "PNG", optimize=True)


if __name__ == "__main__":
    for vehicle, pictures in PICTURES.items():
        folder = VEHICLES / vehicle / "photos"
        folder.mkdir(exist_ok=True)
        for name, draw_ in pictures.items():
            save(marked(draw_()), folder / name)
