"""The pictures of the example's vehicles: invented, drawn here, and marked so in each of them.

    python tests/manual/photos.py

writes them into `fits/vehicles/<vehicle>/photos/` again. One is saved as a phone would save it:
lying on its side, with the place where it was taken. `tests/publish/test_pictures.py` looks for
both in what is published.
"""

import sys
from pathlib import Path

from PIL import Image, ImageDraw

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from manual import battery_pictures as near
from manual import vehicle_pictures as far
from manual.pencil import FOOT, HIGH, MINUS, PAPER, TOP, WIDE, write

VEHICLES = TOP / "fits" / "vehicles"
MARK = "DEMONSTRATION"
LARGEST = 40_000  # bytes of a file

# vehicle → file → picture
PICTURES = {
    "brunsall-tansy": {
        "battery-left.png": lambda: near.bay("left"),
        "body-point-left.webp": lambda: near.body_point("left inner wing"),
        "boot-left.png": lambda: far.trim("behind the left boot trim"),
        "fuel-flap.png": far.flap,
        "negative-clamp.png": lambda: near.clamp(MINUS),
        "door-plate.png": lambda: far.plate("BRUNSALL TANSY", "1.5 petrol", "12 V"),
        "positive-clamp.png": lambda: near.clamp("+", stud="M6"),
        "sensor.jpg": lambda: near.clamp(MINUS, sensor=True),
    },
    "dunstrel-cobble": {
        "battery-right.png": lambda: near.bay("right"),
        "body-point-right.png": lambda: near.body_point("right inner wing"),
        "box-wall.png": lambda: far.trim("front wall of the tray box"),
        "plate.png": lambda: far.plate("DUNSTREL COBBLE", "3.0 D", "12 V"),
        "positive-clamp.png": lambda: near.clamp("+", stud="M6"),
        "rear-bare.webp": lambda: far.rear(socket=False),
        "sensor.png": lambda: near.clamp(MINUS, sensor=True),
        "tray-blocks.png": far.blocks,
    },
    "dunstrel-cobble-tow-pack": {
        "alternator-plate.png": lambda: far.plate("ALTERNATOR", "14 V  180 A"),
        "battery-box.png": near.battery_box,
        "body-point-rail.png": lambda: near.body_point("right chassis rail"),
        "plate.png": lambda: far.plate("DUNSTREL COBBLE", "3.0 D with tow pack", "12 V"),
        "tow-socket.png": lambda: far.rear(socket=True),
    },
    "ostrigg-drey": {
        "chassis-box.png": near.chassis_box,
        "front-and-papers.png": far.lorry_front,
        "isolator.png": near.isolated_negative,
        "isolator-studs.png": near.isolator_studs,
        "link.png": near.link,
        "locker.png": far.locker,
        "negative-clamp.png": lambda: near.clamp(MINUS, closes="M8", where="rear battery"),
        "plate.png": lambda: far.plate("OSTRIGG DREY", "7.7 D", "24 V"),
        "positive-clamp.png": lambda: near.clamp("+", stud="M8", where="front battery"),
    },
    "pellmare-mirren": {
        "body-point-arch.png": lambda: near.body_point("right wheel arch", "M6"),
        "boot.png": near.boot,
        "boot-side.png": far.boot_side,
        "negative-clamp.png": lambda: near.clamp(
            MINUS, sensor=True, closes="M6", where="boot, right"
        ),
        "only-flap.png": far.only_flap,
        "plate.png": lambda: far.plate("PELLMARE MIRREN", "1.8 full hybrid", "12 V"),
        "positive-clamp.png": lambda: near.clamp("+", stud="M6", where="boot, right"),
        "ready-lamp.png": far.ready_lamp,
        "sensor.png": lambda: near.clamp(MINUS, sensor=True),
    },
    "tavlow-camber": {
        "bare-clamps.png": lambda: near.bare_clamps("starter battery", "second battery"),
        "body-point-seat.png": lambda: near.body_point("left footwell", under="seat base"),
        "bench-charger.png": lambda: far.bench("charger"),
        "bench-second.png": lambda: far.bench("battery"),
        "footwell.png": near.footwell,
        "negative-clamp.png": lambda: near.clamp(MINUS, closes="M8", where="starter battery"),
        "plate.png": lambda: far.plate("TAVLOW CAMBER", "2.2 D", "12 V"),
        "positive-post.png": lambda: near.clamp(
            "+", stud="M8", on_post=True, where="starter battery"
        ),
        "relay.png": near.split_relay,
    },
    "tessick-orlet": {
        "battery-centre.png": near.electric_bay,
        "body-point-tower.png": lambda: near.body_point("right strut tower", mark="G4"),
        "bonnet.png": far.bonnet,
        "builder-stud.png": lambda: near.builder_stud(capped=False),
        "builder-stud-capped.png": lambda: near.builder_stud(capped=True),
        "load-bay.png": far.load_bay,
        "negative-clamp.png": lambda: near.clamp(
            MINUS, sensor=True, closes="M6", where="bonnet, centre"
        ),
        "plate.png": lambda: far.plate("TESSICK ORLET", "electric", "12 V"),
        "racking.png": far.racking,
    },
}


def marked(image):
    """Return a picture with the mark across its foot."""
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, HIGH - FOOT, WIDE, HIGH), PAPER)
    write(draw, (WIDE / 2, HIGH - FOOT / 2), MARK, 34)
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
