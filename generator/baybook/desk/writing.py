"""The as-built record as files: YAML for the archive, one page for the folder."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from baybook.publish.record import render_record
from baybook.record import AsBuilt, Record
from baybook.shop import Shop
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


def write_record(
    record: Record, built: AsBuilt, shop: Shop, output: Path, words: Catalogue
) -> tuple[Path, ...]:
    """Write the record and return its files. What was kept before stays as it is."""
    told = {**tell(record, words), "passed": record.passed}
    text = yaml.safe_dump(
        _archive(record, told, built), allow_unicode=True, sort_keys=False, width=100
    )
    prints = render_record(
        told,
        words=words.words(),
        shop={"name": shop.name},
        language=words.language,
        papers=shop.papers,
    )
    output.mkdir(parents=True, exist_ok=True)
    stem = free_name(output, record)
    files = {f"{stem}.yaml": text.encode()}
    files |= {f"{stem}.{paper}.pdf": pdf for paper, pdf in prints.items()}
    for name, content in files.items():
        (output / name).write_bytes(content)
    return tuple(output / name for name in files)


def free_name(output: Path, record: Record) -> str:
    """Return a file name that no earlier record has: fit, VIN, day, and a number if needed."""
    parts = (record.identity.fit, record.vin.text, record.on)
    stem = "-".join(re.sub(r"[^A-Za-z0-9]+", "-", part).strip("-") for part in parts)
    return next(name for name in _names(stem) if not (output / f"{name}.yaml").exists())


def _names(stem: str) -> Iterator[str]:
    yield stem
    number = 2
    while True:
        yield f"{stem}-{number}"
        number += 1


def _archive(record: Record, told: dict[str, Any], built: AsBuilt) -> dict[str, Any]:
    return {
        "fit": record.identity.fit,
        "figures": record.figures,
        "vin": record.vin.text,
        "on": record.on,
        "passed": record.passed,
        "fitted_by": built.fitted_by,
        "checked_by": built.checked_by,
        "serials": {"charger": built.serials.charger, "station": built.serials.station},
        "tools": [{"id": t.id, "due": t.due, "overdue": t.overdue} for t in record.tools],
        "readings": {one["row"]["id"]: _reading(one) for one in told["readings"]},
        "resistances": [
            {
                "what": way["what"]["text"],
                "measured": way["measured"]["text"],
                "low": way["low"]["text"],
                "high": way["high"]["text"],
                "inside": way["inside"],
            }
            for way in told["ways"]
        ],
        "outside": [f"{one['code']}: {one['title']['text']}" for one in told["outside"]],
        "deviations": list(built.deviations),
    }


def _reading(one: dict[str, Any]) -> dict[str, Any]:
    row = one["row"]
    kept: dict[str, Any] = {"what": row["what"]["text"], "read": one["read"]["text"]}
    kept |= {end: row[end]["text"] for end in ("low", "high") if row[end]}
    if one["miss"]:
        kept |= {"miss": one["miss"], "questions": one["way"]}
        if one["answer"]:
            kept["answer"] = one["answer"]["text"]
    return kept
