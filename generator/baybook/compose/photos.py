"""The pictures of a guide: those whose number stands in it, each once, in its order."""

from __future__ import annotations

from collections.abc import Iterable

from baybook.compose.work import Work
from baybook.finding import Name
from baybook.guide import PhotoLine
from baybook.step import Step


def photo_lines(work: Work, steps: Iterable[Step]) -> tuple[PhotoLine, ...]:
    """Return the pictures of looks and steps; none of a vehicle whose photos are on paper."""
    vehicle, pictures = work.fit.vehicle, work.fit.photos
    shown = {point.photo: point.what for point in vehicle.points.values()}
    shown |= {mount.photo: mount.place for mount in vehicle.mounts.values()}
    looks = (vehicle.plate_photo, *(look.photo for look in vehicle.applies))
    asked = [number for number in looks if number]
    asked += [step.photo.text for step in steps if step.photo]
    return tuple(
        PhotoLine(
            number=number,
            alt=Name(vehicle.photos[number].alt),
            what=Name(shown[number]) if number in shown else None,
            digest=pictures[number].digest,
        )
        for number in dict.fromkeys(asked)
        if number in pictures
    )
