"""Plates, outsides and insides of vehicles, and where the charger goes."""

from manual.battery_pictures import battery
from manual.pencil import (
    BLACK,
    CLOTH,
    DARK,
    GLASS,
    GREEN,
    INK,
    METAL,
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
    charger,
    dashes,
    disc,
    pointed,
    shape,
    write,
)  # fmt: skip


def plate(*lines):
    image, draw = blank(SHADE)
    box(draw, (140, 160, 820, 560), METAL)
    for x, y in ((180, 200), (780, 200), (180, 520), (780, 520)):
        disc(draw, x, y, 14, SHADE)
    for at, line in enumerate(lines):
        write(draw, (480, 360 + 90 * (at - (len(lines) - 1) / 2)), line, 64)
    return image


# ------------------------------------------------------------------ from outside


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


def only_flap():
    """A hatchback from its left: its one flap is open, and the fuel cap is behind it."""
    image, draw = blank(PALE)
    shape(draw, ((40, 520), (50, 390), (110, 340), (300, 310), (420, 150), (760, 140), (880, 280),
                 (920, 330), (920, 520)), PAINT)  # fmt: skip
    shape(draw, ((335, 310), (440, 185), (560, 180), (560, 310)), GLASS)
    shape(draw, ((590, 310), (590, 180), (740, 178), (820, 310)), GLASS)
    draw.line((575, 170, 575, 510), INK, 5)
    draw.line((320, 310, 300, 510), INK, 5)
    box(draw, (42, 390, 90, 440), PAPER, round_=10)
    box(draw, (880, 335, 918, 420), RED, round_=10)
    for x in (200, 740):
        disc(draw, x, 520, 92, RUBBER)
        disc(draw, x, 520, 48, METAL)
    disc(draw, 800, 385, 46, DARK)
    disc(draw, 800, 385, 24, METAL)
    box(draw, (856, 340, 876, 430), PAINT, round_=6)
    pointed(draw, "fuel cap only", (640, 90), (800, 362))
    arrow(draw, (250, 90), (80, 90))
    write(draw, (165, 50), "front", 40)
    draw.line((20, 614, 940, 614), DARK, 10)
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


def lorry_front():
    """A lorry's front without an orange plate, and its papers without an entry."""
    image, draw = blank(PALE)
    box(draw, (70, 40, 590, 560), PAINT, round_=36)
    box(draw, (105, 75, 555, 290), GLASS, round_=20)
    for x in (20, 590):
        box(draw, (x, 120, x + 50, 250), BLACK)
    for y in range(320, 420, 30):
        box(draw, (200, y, 460, y + 16), DARK, round_=6)
    box(draw, (50, 440, 610, 590), DARK)
    for x in (80, 500):
        box(draw, (x, 465, x + 80, 525), PAPER, round_=20)
    box(draw, (240, 490, 420, 545), PAPER, round_=6)
    for x in (90, 480):
        box(draw, (x, 590, x + 90, 650), RUBBER)
    write(draw, (330, 465), "no orange plate", 38, PAPER)
    box(draw, (660, 90, 930, 560), PAPER, round_=4)
    write(draw, (795, 140), "papers", 48)
    for y in (200, 240, 280, 440, 480, 520):
        draw.line((690, y, 900, y), SHADE, 8)
    write(draw, (795, 340), "no ADR", 48)
    write(draw, (795, 390), "entry", 48)
    return image


def bonnet():
    """The front of an electric van, the plate in the middle of its bonnet."""
    image, draw = blank(PALE)
    box(draw, (150, -60, 810, 190), PAINT, round_=40)
    box(draw, (190, -40, 770, 150), GLASS, round_=30)
    shape(draw, ((150, 200), (810, 200), (880, 480), (80, 480)), PAINT)
    box(draw, (60, 480, 900, 620), DARK, round_=30)
    for x in (90, 730):
        box(draw, (x, 500, x + 140, 570), PAPER, round_=24)
    box(draw, (230, 250, 730, 430), METAL)
    for x in (256, 704):
        disc(draw, x, 276, 10, SHADE, line=3)
        disc(draw, x, 404, 10, SHADE, line=3)
    for y, line in ((310, "ELECTRIC"), (375, "VEHICLE")):
        write(draw, (480, y), line, 64)
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


# ------------------------------------------------------------------ from inside


def ready_lamp():
    """The instruments, a green lamp between them that reads Ready."""
    image, draw = blank(SHADE)
    box(draw, (60, 60, 900, 500), BLACK, round_=120)
    for x in (215, 745):
        disc(draw, x, 280, 130, DARK)
        disc(draw, x, 280, 16, PAPER)
    draw.line((215, 280, 140, 205), PAPER, 12)
    draw.line((745, 280, 700, 375), PAPER, 12)
    box(draw, (365, 220, 595, 340), GREEN)
    write(draw, (480, 280), "READY", 52)
    draw.arc((180, 540, 780, 1140), 180, 360, RUBBER, 70)
    return image


def load_bay():
    """A long load bay from above, its nose to the left: four rings on each side."""
    image, draw = blank(SHADE)
    box(draw, (40, 80, 920, 600), PAINT)
    box(draw, (100, 130, 880, 550), METAL)
    box(draw, (60, 110, 100, 570), DARK)
    for top in (130, 480):
        box(draw, (560, top, 740, top + 70), SHADE)
    for x in (170, 340, 500, 820):
        for y in (165, 515):
            disc(draw, x, y, 24, DARK)
            disc(draw, x, y, 12, METAL)
    write(draw, (490, 300), "long load bay", 56)
    write(draw, (490, 380), "four rings a side", 56)
    write(draw, (490, 105), "right", 36)
    write(draw, (490, 575), "left", 36)
    arrow(draw, (300, 40), (60, 40))
    write(draw, (380, 40), "front", 40)
    write(draw, (830, 40), "doors", 40)
    return image


# ------------------------------------------------------------------ where the charger goes


def trim(text):
    """A side wall with four marks, where the charger goes."""
    image, draw = blank(PALE)
    box(draw, (120, 120, 840, 640), PAINT)
    charger(draw, 300, 220)
    write(draw, (480, 175), text, 40)
    return image


def locker():
    """A lorry's side locker, its flap up, the charger on its back wall."""
    image, draw = blank()
    shape(draw, ((90, 150), (870, 150), (930, 60), (30, 60)), METAL)
    box(draw, (90, 150, 870, 630), BLACK)
    shape(draw, ((130, 190), (830, 190), (830, 560), (130, 560)), PALE)
    shape(draw, ((90, 630), (130, 560), (830, 560), (870, 630)), SHADE)
    charger(draw, 280, 220, 320, 290)
    write(draw, (480, 106), "left side locker", 44)
    write(draw, (715, 300), "back wall", 40)
    return image


def boot_side():
    """The right side of a boot from inside: the charger behind the line, the orange cable ahead."""
    image, draw = blank(PALE)
    box(draw, (30, 110, 930, 600), PAINT)
    draw.pieslice((560, 430, 900, 770), 180, 360, SHADE, INK, 5)
    box(draw, (10, 600, 950, 660), CLOTH)
    cable(draw, ((130, 600), (130, 420), (60, 300), (60, 110)), ORANGE)
    dashes(draw, (260, 120), (260, 596), RED)
    pointed(draw, "bulkhead line", (430, 60), (260, 134))
    arrow(draw, (150, 80), (30, 80))
    write(draw, (90, 40), "front", 36)
    box(draw, (330, 150, 620, 470), METAL, round_=4)
    charger(draw, 350, 180, 250, 250)
    pointed(draw, "bracket", (760, 250), (606, 320))
    write(draw, (730, 540), "wheel arch", 38)
    return image


def bench(inside):
    """A bench with its front board out."""
    image, draw = blank(PALE)
    box(draw, (60, 20, 900, 180), CLOTH, round_=40)
    box(draw, (40, 170, 920, 270), CLOTH, round_=40)
    write(draw, (480, 220), "bench", 48, PAPER)
    box(draw, (60, 270, 900, 640), METAL)
    box(draw, (110, 300, 850, 620), DARK)
    if inside == "charger":
        box(draw, (130, 310, 830, 610), "#c9b38c", round_=4)
        charger(draw, 360, 320, 250, 280)
        write(draw, (245, 350), "bulkhead", 40)
        write(draw, (245, 390), "board", 40)
    else:
        battery(draw, 200, 375)
        draw.rectangle((182, 535, 408, 568), METAL, INK, 5)
        write(draw, (620, 450), "second", 48, PAPER)
        write(draw, (620, 505), "battery", 48, PAPER)
    return image


def racking():
    """A van's right wall with its racking: the charger on an upright, 500 mm above the floor."""
    image, draw = blank(PALE)
    for y in (60, 560):
        box(draw, (30, y, 930, y + 34), SHADE, round_=4)
    for x in (20, 840):
        box(draw, (x, 30, x + 90, 620), METAL, round_=4)
    box(draw, (340, 30, 620, 620), METAL, round_=4)
    charger(draw, 365, 170, 230, 250)
    box(draw, (20, 620, 940, 664), DARK, round_=4)
    draw.line((280, 420, 365, 420), INK, 4)
    draw.line((300, 424, 300, 618), INK, 6)
    draw.polygon(((300, 424), (286, 450), (314, 450)), INK)
    draw.polygon(((300, 618), (286, 592), (314, 592)), INK)
    write(draw, (282, 510), "500 mm", 38, anchor="rm")
    write(draw, (480, 120), "upright", 44)
    write(draw, (730, 300), "right", 44)
    write(draw, (730, 350), "wall", 44)
    write(draw, (480, 642), "floor", 38, PAPER)
    return image
