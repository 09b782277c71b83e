"""The as-built record as files: YAML for the archive, one page for the folder."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml

from baybook.desk.report import catalogue
from baybook.intake.texts import Texts
from baybook.publish.record import render_record
from baybook.record import AsBuilt, Record
from baybook.shop import Shop
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell


def write_record(  # noqa: PLR0913 - what it is, whose it is, where it goes, in which words
    record: Record,
    built: AsBuilt,
    shop: Shop,
    output: Path,
    words: Catalogue,
    *,
    texts: Mapping[str, Texts],
) -> tuple[Path, ...]:
    """Write the record and return its files. What was kept before stays as it is.

    words  of the archive, which has one language
    texts  the shop's own texts by language, for the prints after the first
    """
    told = tell(record, words)
    text = yaml.safe_dump(
        _archive(record, told, built), allow_unicode=True, sort_keys=False, width=100
    )
    stem = free_name(output, record)
    files = {f"{stem}.yaml": text.encode()}
    for language in (shop.languages[0], *texts):
        between = "" if language == shop.languages[0] else f".{language}"
        prints = _prints(record, shop, catalogue(language), texts.get(language, {}))
        files |= {f"{stem}{between}.{paper}.pdf": pdf for paper, pdf in prints.items()}
    output.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        (output / name).write_bytes(content)
    return tuple(output / name for name in files)


def _prints(record: Record, shop: Shop, words: Catalogue, texts: Texts) -> dict[str, bytes]:
    return render_record(
        {**tell(record, words, texts=texts), "passed": record.passed},
        words=words.words(),
        shop={"name": shop.name},
        language=words.language,
        papers=shop.papers,
    )


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
