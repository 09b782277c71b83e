"""Batteries, where they stand, and what is joined to them."""

from manual.pencil import (
    BLACK,
    CLOTH,
    DARK,
    INK,
    METAL,
    MINUS,
    ORANGE,
    PAINT,
    PALE,
    PAPER,
    RED,
    RUBBER,
    SHADE,
    arrow,
    blank,
    box,
    cable,
    disc,
    nut,
    pointed,
    shape,
    write,
)  # fmt: skip


def battery(draw, left, top):
    box(draw, (left, top, left + 190, top + 230), BLACK)
    box(draw, (left + 15, top + 15, left + 175, top + 215), DARK)
    disc(draw, left + 55, top + 60, 26, RED)
    disc(draw, left + 135, top + 60, 26, METAL)
    write(draw, (left + 55, top + 115), "+", 60, PAPER)
    write(draw, (left + 135, top + 115), MINUS, 60, PAPER)


# ------------------------------------------------------------------ where it stands


def bay(side):
    """An open engine bay from above, its nose up, the battery on the vehicle's own side."""
    image, draw = _bay()
    box(draw, (330, 200, 630, 520), PALE)
    write(draw, (480, 360), "engine", 44)
    left = 90 if side == "left" else 680
    battery(draw, left, 220)
    _front(draw)
    write(draw, (left + 95, 500), side, 44, PAPER)
    return image


def electric_bay():
    """The same of an electric van: the battery in the centre, the orange cables beside it."""
    image, draw = _bay()
    cable(draw, ((230, 430), (230, 590), (560, 590), (560, 618)), ORANGE)
    box(draw, (90, 200, 330, 440), METAL)
    write(draw, (210, 320), "converter", 44)
    battery(draw, 385, 220)
    fuse_box(draw, 640, 200, 190, 240)
    disc(draw, 868, 390, 24, RED)
    write(draw, (868, 445), "BB", 40, PAPER)
    _front(draw)
    write(draw, (480, 500), "centre", 44, PAPER)
    return image


def _bay():
    image, draw = blank(SHADE)
    box(draw, (40, 60, 920, 640), DARK, round_=60)
    return image, draw


def _front(draw):
    box(draw, (120, 50, 840, 100), METAL)
    write(draw, (480, 75), "front", 36)


def fuse_box(draw, left, top, wide, high):
    box(draw, (left, top, left + wide, top + high), RUBBER)
    for y in (top + high * 0.2, top + high * 0.8):
        box(draw, (left - 14, y - 18, left + 14, y + 18), METAL, round_=6)
    write(draw, (left + wide / 2, top + high / 2), "fuse box", 40, PAPER)


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


def chassis_box():
    """A lorry from its left: the box on the frame, its lid off, two batteries in it."""
    image, draw = blank(PALE)
    box(draw, (330, 50, 935, 290), PAINT)
    write(draw, (632, 165), "left side", 52)
    box(draw, (270, 300, 935, 344), DARK, round_=6)
    shape(draw, ((40, 420), (40, 240), (90, 60), (290, 60), (290, 420)), PAINT)
    shape(draw, ((66, 230), (108, 90), (220, 90), (220, 230)), DARK)
    arrow(draw, (250, 310), (66, 310))
    write(draw, (160, 352), "front", 40)
    disc(draw, 160, 520, 118, RUBBER)
    disc(draw, 160, 520, 60, METAL)
    box(draw, (370, 344, 850, 640), METAL)
    box(draw, (392, 366, 828, 620), DARK)
    for left in (410, 620):
        battery(draw, left, 378)
    draw.line((30, 640, 930, 640), DARK, 12)
    return image


def boot():
    """A hatchback's boot from above, its nose up: the right part of the floor is out."""
    image, draw = blank(PALE)
    box(draw, (90, 30, 870, 640), PAINT, round_=50)
    box(draw, (150, 130, 810, 560), SHADE)
    box(draw, (130, 50, 830, 130), CLOTH)
    write(draw, (480, 90), "rear seat", 44, PAPER)
    for left in (150, 740):
        box(draw, (left, 150, left + 70, 270), PAINT)
    box(draw, (170, 290, 520, 540), METAL)
    write(draw, (345, 415), "boot floor", 44)
    box(draw, (550, 285, 790, 545), RUBBER)
    battery(draw, 575, 300)
    write(draw, (670, 235), "right", 44)
    write(draw, (480, 600), "tailgate", 44)
    return image


def footwell():
    """The front of a cabin from above, its nose up: the lid in the left footwell is open."""
    image, draw = blank(SHADE)
    box(draw, (40, 30, 920, 650), DARK, round_=40)
    for left in (110, 190, 270):
        box(draw, (left, 100, left + 50, 165), METAL, round_=8)
    box(draw, (60, 40, 900, 120), RUBBER)
    write(draw, (620, 80), "dash", 44, PAPER)
    draw.ellipse((105, 48, 325, 112), outline=PAPER, width=14)
    write(draw, (215, 198), "left footwell", 38, PAPER)
    box(draw, (100, 228, 330, 500), BLACK)
    battery(draw, 120, 249)
    shape(draw, ((342, 228), (420, 253), (420, 475), (342, 500)), METAL)
    write(draw, (475, 364), "lid", 44, PAPER)
    box(draw, (590, 180, 860, 490), SHADE)
    write(draw, (725, 335), "right footwell", 38)
    for left in (90, 580):
        box(draw, (left, 520, left + 290, 640), CLOTH, round_=30)
    write(draw, (235, 580), "left seat", 44, PAPER)
    write(draw, (725, 580), "right seat", 44, PAPER)
    return image


# ------------------------------------------------------------------ its posts


def clamp(sign, *, stud=None, sensor=False, closes=None, where=None, on_post=False):
    """A post of the battery with its clamp, from above."""
    image, draw = blank(DARK)
    box(draw, (60, 260, 900, 690), BLACK)
    write(draw, (200, 560), sign, 150, PAPER)
    box(draw, (330, 300, 640, 520), METAL, round_=90)
    disc(draw, 480, 410, 66, SHADE)
    box(draw, (610, 360, 760, 460), METAL)
    nut(draw, 700, 410, 40)
    if stud and on_post:
        nut(draw, 480, 410, 52)
        pointed(draw, stud, (400, 215), (464, 372), fill=PAPER, size=48)
    elif stud:
        nut(draw, 480, 270, 46)
        write(draw, (560, 225), stud, 48, PAPER, anchor="lm")
    if sensor:
        box(draw, (300, 110, 660, 250), RUBBER)
        draw.rectangle((440, 250, 520, 330), METAL, INK, 5)
        write(draw, (480, 180), "sensor", 48, PAPER)
    colour = RED if sign == "+" else SHADE
    draw.line((760, 410, 960, 520), colour, 46)
    if closes:
        write(draw, (700, 500), closes, 48, PAPER)
    if where:
        write(draw, (480, 60), where, 44, PAPER)
    return image


def bare_clamps(*names):
    """The negative clamps of two batteries, neither with a sensor."""
    image, draw = blank(DARK)
    for at, name in enumerate(names):
        one = clamp(MINUS).crop((60, 230, 930, 660))
        image.paste(one.resize((470, 232)), (5 + 480 * at, 200))
        write(draw, (240 + 480 * at, 140), name, 44, PAPER)
    draw.line((480, 90, 480, 470), PAPER, 4)
    write(draw, (480, 540), "no sensor", 44, PAPER)
    return image


def link():
    """Two batteries in series: one short link between them, and nothing joined to it."""
    image, draw = blank(METAL)
    for left, name in ((50, "front battery"), (500, "rear battery")):
        box(draw, (left, 210, left + 410, 610), BLACK)
        box(draw, (left + 20, 230, left + 390, 590), DARK)
        write(draw, (left + 205, 540), name, 44, PAPER)
        write(draw, (left + 90, 440), "+", 90, PAPER)
        write(draw, (left + 320, 440), MINUS, 90, PAPER)
    cable(draw, ((140, 340), (140, 20)), RED, 40)
    cable(draw, ((820, 340), (820, 20)), BLACK, 40)
    box(draw, (330, 300, 630, 380), SHADE, round_=40)
    for x in (140, 370, 590, 820):
        disc(draw, x, 340, 54, METAL)
        nut(draw, x, 340, 40)
    pointed(draw, "link, nothing else on it", (480, 110), (480, 320), size=42)
    return image


# ------------------------------------------------------------------ beside it


def body_point(where, thread="M8", *, mark=None, under=None):
    """A bolt in bare metal, with the lugs of the vehicle's own leads.

    `mark` is what stands beside it, on the edge of a strut tower; `under` what it lies under.
    """
    image, draw = blank()
    draw.line((0, 560, 960, 480), SHADE, 16)
    if under:
        box(draw, (-40, -60, 1000, 150), CLOTH, round_=40)
        write(draw, (480, 75), under, 44, PAPER)
    disc(draw, 480, 360, 130, METAL)
    for end in ((160, 690), (300, 720)):
        draw.line((480, 360, *end), BLACK, 34)
    box(draw, (400, 320, 560, 400), METAL, round_=40)
    nut(draw, 480, 360, 58)
    write(draw, (600, 250), thread, 52, anchor="lm")
    if mark:
        write(draw, (250, 330), mark, 90)
        strut_tower(draw)
    write(draw, (190, 225) if under else (480, 80), where, 44)
    return image


def strut_tower(draw):
    disc(draw, 800, 620, 240, SHADE)
    disc(draw, 800, 620, 80, DARK)
    for x, y in ((660, 560), (800, 460), (925, 540)):
        nut(draw, x, y, 34)


def isolator(draw, x, y, radius=120):
    """A master isolator with its red key, a stud on either side."""
    for side in (-1, 1):
        box(draw, (x + side * radius * 1.25 - 70, y - 42, x + side * radius * 1.25 + 70, y + 42),
            METAL)  # fmt: skip
    disc(draw, x, y, radius, BLACK)
    disc(draw, x, y, radius * 0.62, RED)
    box(draw, (x - radius * 0.16, y - radius * 0.9, x + radius * 0.16, y + radius * 0.9), RED)
    for side in (-1, 1):
        nut(draw, x + side * radius * 1.36, y, 38)


def isolated_negative():
    """Battery, isolator and frame in a line: the isolator parts the negative lead."""
    image, draw = blank(PALE)
    box(draw, (40, 330, 310, 600), METAL)
    battery(draw, 80, 350)
    cable(draw, ((135, 410), (135, 180), (60, 180)), RED, 26)
    cable(draw, ((215, 410), (215, 240), (430, 240)), BLACK, 26)
    cable(draw, ((680, 240), (840, 240), (840, 520)), BLACK, 26)
    isolator(draw, 555, 240, 100)
    write(draw, (555, 90), "master isolator", 44)
    write(draw, (330, 160), "negative lead", 38)
    box(draw, (640, 500, 940, 620), DARK)
    nut(draw, 840, 540, 34)
    write(draw, (720, 575), "frame", 44, PAPER)
    return image


def isolator_studs():
    """The isolator near by, and which of its studs is the switched side."""
    image, draw = blank(METAL)
    box(draw, (60, 130, 900, 640), PAINT)
    cable(draw, ((255, 390), (130, 390), (130, 700)), BLACK, 44)
    cable(draw, ((705, 390), (830, 390), (830, 700)), BLACK, 44)
    isolator(draw, 480, 390, 165)
    write(draw, (200, 185), "battery side", 44)
    write(draw, (745, 185), "switched side", 44)
    write(draw, (745, 290), "M10", 56)
    write(draw, (785, 600), "to the frame", 40, anchor="rm")
    write(draw, (480, 70), "behind the left chassis box", 44)
    return image


def split_relay():
    """The relay marked SR beside the starter battery, one lead to it and one to the bench."""
    image, draw = blank(SHADE)
    box(draw, (70, 150, 430, 610), BLACK)
    box(draw, (95, 175, 405, 585), DARK)
    write(draw, (250, 500), "starter battery", 38, PAPER)
    write(draw, (165, 400), "+", 80, PAPER)
    write(draw, (335, 400), MINUS, 80, PAPER)
    disc(draw, 335, 280, 50, METAL)
    cable(draw, ((165, 280), (165, 90), (600, 90), (600, 260)), RED, 28)
    cable(draw, ((760, 260), (760, 90), (960, 90)), RED, 28)
    disc(draw, 165, 280, 50, RED)
    nut(draw, 165, 280, 36)
    box(draw, (530, 250, 830, 560), RUBBER)
    write(draw, (680, 440), "SR", 130, PAPER)
    for x in (600, 760):
        nut(draw, x, 310, 36)
    write(draw, (940, 40), "to the bench", 38, anchor="rm")
    return image


def builder_stud(*, capped):
    """The body-builder stud beside the fuse box, under its red cap or bare."""
    image, draw = blank(SHADE)
    fuse_box(draw, 60, 170, 330, 380)
    box(draw, (450, 200, 900, 600), METAL)
    if capped:
        disc(draw, 675, 370, 140, RED)
        disc(draw, 675, 370, 100, RED)
        write(draw, (675, 545), "BB", 70)
        pointed(draw, "red cap", (675, 120), (675, 290), size=48)
    else:
        cable(draw, ((675, 370), (830, 240)), RED, 14)
        disc(draw, 860, 210, 84, RED)
        disc(draw, 675, 370, 110, SHADE)
        nut(draw, 675, 370, 76)
        write(draw, (520, 270), "M8", 60)
        write(draw, (675, 545), "BB", 70)
    write(draw, (225, 110), "bonnet, right", 44)
    return image
