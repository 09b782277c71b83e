"""The command: arguments in, one call of the pipeline or the desk, findings out, exit status.

0 all well, kept refusals included · 1 a fit is invalid or refused without being kept, or a
reading is out of limits · 2 the call itself is wrong. Data on stdout, the rest on stderr.
Everything heavy is imported inside a command: `--help` must be as quick as click itself.
"""

from __future__ import annotations

import sys
from datetime import date, datetime
from pathlib import Path

import click

from baybook import __version__

_DIR = click.Path(file_okay=False, path_type=Path)


def _workbook(folder: Path | None) -> Path:
    """Find the workbook: the folder named, else this one or one above, or `fits` in one of them."""
    if folder is not None:
        if (folder / "shop.yaml").is_file():
            return folder
        raise click.UsageError(f"no workbook in {folder}: a workbook is a folder with a shop.yaml")
    here = Path.cwd()
    for above in (here, *here.parents):
        for place in (above, above / "fits"):
            if (place / "shop.yaml").is_file():
                return place
    raise click.UsageError(
        "no workbook here, in a folder above, or in fits/ of one of them: "
        "name the folder that holds shop.yaml with --workbook"
    )


def _today() -> date:
    return date.today()  # noqa: DTZ011 - the day where the shop is


workbook_option = click.option(
    "--workbook", type=_DIR, metavar="DIR", help="The folder that holds shop.yaml."
)

templates_option = click.option(
    "--templates", type=_DIR, metavar="DIR", help="Your own layout, laid over the shipped one."
)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, package_name="baybook", message="%(prog)s %(version)s")
def main() -> None:
    """Work out, check and publish install guides, one file per vehicle model."""
    from baybook.sweeping import sweep_rarely

    sweep_rarely()


@main.command()
@workbook_option
@click.option("--output", type=_DIR, metavar="DIR", help="Where the site goes. [default: _site]")
@click.option("--drafts", is_flag=True, help="Publish drafts too, marked as such on every page.")
@click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="YYYY-MM-DD",
    help="The day licences and withdrawals are dated by. [default: the clock]",
)
@templates_option
@click.option(
    "--no-cache", "anew", is_flag=True, help="Make everything anew. The site is the same."
)
def publish(  # noqa: PLR0913, PLR0917 - as many options
    workbook: Path | None,
    output: Path | None,
    drafts: bool,
    today: datetime | None,
    templates: Path | None,
    anew: bool,
) -> None:
    """Size every fit, lay out the guides and publish the whole site in one step.

    What is made once is kept in the cache folder of your account, and made again only if
    something that it was made of has changed.
    """
    from platformdirs import user_cache_path

    from baybook.desk.publishing import run_publish

    book, site = _workbook(workbook), output or Path("_site")
    cache = None if anew else user_cache_path("baybook", appauthor=False)
    day = today.date() if today else _today()
    sys.exit(run_publish(book, site, drafts=drafts, today=day, cache=cache, templates=templates))


@main.command()
@workbook_option
@click.argument("fits", nargs=-1, metavar="[FIT]...")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "sarif", "github"]),
    default="text",
    help="Verdicts for a person, whole designs as JSON, or findings for a code review.",
)
@click.option("--json", "form", flag_value="json", help="The same as --format json.")
def check(workbook: Path | None, fits: tuple[str, ...], form: str) -> None:
    """Read, size and check. A FIT is vehicle/fit; without one, all of them."""
    from baybook.desk.checking import run_check

    sys.exit(run_check(_workbook(workbook), fits, today=_today(), form=form))


@main.command()
@workbook_option
@click.argument("patterns", nargs=-1, metavar="[FIT]...")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "csv", "json"]),
    default="text",
    help="A table for a person, or rows for a machine.",
)
@click.option(
    "--workers",
    type=click.IntRange(min=1),
    default=1,
    metavar="N",
    help="Processes of this machine that share the work. [default: 1]",
)
@click.option(
    "--cluster", metavar="ADDRESS", help="Scheduler of a Dask cluster that does the work."
)
def matrix(
    workbook: Path | None, patterns: tuple[str, ...], form: str, workers: int, cluster: str | None
) -> None:
    """Judge every vehicle with every charger and every station.

    A pairing that no fit is written for takes the rest from a fit of the vehicle; FIT names
    which one, as vehicle/fit.
    """
    from baybook.desk.matrix import run_matrix

    if cluster is not None and workers > 1:
        raise click.UsageError("--workers and --cluster exclude each other; give one of them")
    book = _workbook(workbook)
    sys.exit(run_matrix(book, patterns, form=form, workers=workers, cluster=cluster))


@main.command()
@workbook_option
@click.argument("fit")
@click.argument("readings", required=False, type=click.Path(path_type=Path))
@click.option(
    "--output", type=_DIR, metavar="DIR", help="Where the record goes. [default: _as-built]"
)
def commission(workbook: Path | None, fit: str, readings: Path | None, output: Path | None) -> None:
    """Judge the READINGS of a finished FIT, and keep its as-built record.

    READINGS is a YAML file; without one, each is asked for.
    """
    from baybook.desk.commissioning import run_commission

    folder = output or Path("_as-built")
    sys.exit(run_commission(_workbook(workbook), fit, readings, folder, today=_today()))


@main.command()
@workbook_option
@click.argument("fit")
@click.argument("figure", required=False)
@click.option("--deep", is_flag=True, help="Also every figure that goes into it.")
@click.option("--json", "as_json", is_flag=True, help="Print the workings for machines.")
def workings(
    workbook: Path | None, fit: str, figure: str | None, deep: bool, as_json: bool
) -> None:
    """Show the worked calculation behind one FIGURE of a FIT, or behind all."""
    from baybook.desk.workings import run_workings

    book = _workbook(workbook)
    sys.exit(run_workings(book, fit, figure, today=_today(), deep=deep, as_json=as_json))


@main.command()
@workbook_option
@click.argument("kind", required=False)
@click.option("--write", is_flag=True, help="Write all of them into schema/ of the workbook.")
def schema(workbook: Path | None, kind: str | None, write: bool) -> None:
    """Print the JSON Schema of one KIND of file, for completion in an editor."""
    from baybook.desk.schema import KINDS, run_schema

    if kind is not None and kind not in KINDS:
        raise click.UsageError(f"no kind of file `{kind}`; there are: {', '.join(KINDS)}")
    sys.exit(run_schema(kind, _workbook(workbook) if write else None))


@main.command()
@click.option(
    "--outline",
    type=click.Choice(["estate", "hatch", "van", "pickup", "lorry", "camper"]),
    default="van",
    help="The body whose outline is sketched on. [default: van]",
)
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", help="[default: a4]")
@click.option("--language", type=click.Choice(["en", "de"]), default="en", help="[default: en]")
@click.option(
    "-o",
    "--output",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    help="Where the PDF goes. [default: survey-OUTLINE.pdf]",
)
def survey(outline: str, paper: str, language: str, output: Path | None) -> None:
    """Print the blank survey sheet: two sides to fill in at the vehicle."""
    from baybook.desk.survey import run_survey

    sys.exit(run_survey(outline, paper, language, output or Path(f"survey-{outline}.pdf")))


@main.command()
@workbook_option
@click.argument("name")
@click.option("--from", "source", metavar="VEHICLE", help="An existing vehicle to start from.")
def draft(workbook: Path | None, name: str, source: str | None) -> None:
    """Write the file of a new vehicle by question and answer; NAME is its folder.

    Leave it at any time; the same command goes on where it was left.
    """
    from baybook.desk.draft import run_draft

    sys.exit(run_draft(_workbook(workbook), name, source))


@main.command()
@workbook_option
@click.option("--dry-run", is_flag=True, help="Name the files, write nothing.")
def migrate(workbook: Path | None, dry_run: bool) -> None:
    """Bring files of an older format up to the one that is read today."""
    from baybook.desk.migrate import run_migrate

    sys.exit(run_migrate(_workbook(workbook), dry_run=dry_run))


@main.command()
@workbook_option
@click.option("--port", type=click.IntRange(0, 65535), default=8137, help="0: any that is free.")
@click.option("--address", default="127.0.0.1", help="127.0.0.1 or ::1; no other is served.")
@click.option("--drafts", is_flag=True, help="Show drafts too.")
@templates_option
def preview(
    workbook: Path | None, port: int, address: str, drafts: bool, templates: Path | None
) -> None:
    """Show the site on this machine, made anew on each save.

    What is wrong stands in the page with file and line, over the last good one.
    """
    from baybook.desk.preview import run_preview
    from baybook.desk.preview_server import require_loopback
    from baybook.desk.preview_site import PreviewSite

    try:
        plain = require_loopback(address)
    except ValueError as cause:
        raise click.UsageError(str(cause)) from None
    book = _workbook(workbook)
    site = PreviewSite(book, drafts=drafts, today=_today, templates=templates)
    sys.exit(run_preview(site, address=plain, port=port))
