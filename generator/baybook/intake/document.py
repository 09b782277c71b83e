"""One file → one model, with everything that is wrong in the file."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Generic, TypeVar

from pydantic import BaseModel, ValidationError

from baybook.finding import Finding, Name
from baybook.intake.explain import explain, is_blank
from baybook.intake.likeness import fill
from baybook.intake.loose import loose_faults
from baybook.intake.problems import nearest, problem, shown
from baybook.intake.reader import Fault, FileReader
from baybook.intake.source import read_source
from baybook.intake.tree import Branch, Node, Row, Scalar, grow
from baybook.intake.variant import KEY, base_of, merged
from baybook.quantity import Basis, Mark, State
from baybook.record import AsBuilt
from baybook.shop import Shop
from baybook.vehicle import Vehicle

ModelT = TypeVar("ModelT", bound=BaseModel)
AnyT_co = TypeVar("AnyT_co", bound=BaseModel, covariant=True)

FORMAT = "1"
OPEN = "???"  # what a draft writes where nobody has answered yet
_FAULTY = "?"  # a basis whose fault is told: what stands below is not blamed for it


@dataclass(frozen=True, slots=True)
class Document(Generic[AnyT_co]):
    """A file that was read and is whole. The tree stays, for the places of things."""

    model: AnyT_co
    tree: Branch
    prefix: str  # what findings call the top of this file: "vehicle"
    _marks: dict[str, dict[str, Mark]] = field(default_factory=dict, compare=False, repr=False)

    def marks(self, prefix: str) -> dict[str, Mark]:
        """Return the places of everything in the file, under paths that begin with `prefix`."""
        if prefix not in self._marks:  # a sheet serves many fits
            self._marks[prefix] = dict(marks_of(self.tree, prefix))
        return self._marks[prefix]

    def mark(self, path: str) -> Mark:
        """Return where a dotted path stands that is in the file."""
        node: Node = self.tree
        mark = node.mark
        for step in path.split("."):
            if isinstance(node, Branch):
                mark, node = node.keys_at[step], node[step]
            elif isinstance(node, Row):
                node = node[int(step)]
                mark = node.mark
        return node.mark if isinstance(node, Scalar) else mark


def read_shop(path: Path, root: Path) -> tuple[Document[Shop] | None, list[Finding]]:
    """Read the shop profile. Its figures are the shop's own choice."""
    tree, findings = _tree(path, root, "shop")
    if tree is None:
        return None, findings
    return _finish(tree, Shop, FileReader({}, Basis(state=State.RULE)), "shop", findings)


def read_sheet(
    path: Path, root: Path, model: type[ModelT], kind: str
) -> tuple[Document[ModelT] | None, list[Finding]]:
    """Read a data sheet. Its figures rest on the document that its `sheet:` names."""
    tree, findings = _tree(path, root, kind)
    if tree is None:
        return None, findings
    return _finish(tree, model, FileReader({}, _sheet_basis(tree)), kind, findings)


def read_vehicle(
    path: Path, root: Path, ids: Callable[[str], Iterable[str]]
) -> tuple[Document[Vehicle] | None, list[Finding]]:
    """Read a vehicle file. Each figure names its basis, or a mapping above it does.

    ids   the ids of one kind of data sheet, for a file with faults: it is not looked at again
    """
    tree, findings = _tree(path, root, "vehicle")
    if tree is None:
        return None, findings
    base, lost = _base(tree, root)
    findings.extend(lost)
    bases = _bases(tree) if base is None else {**_bases(base), **_bases(tree)}
    findings.extend(_settle(tree, "", bases))
    if base is not None:
        tuple(_settle(base, "", _bases(base)))  # what is wrong with it, its own reading tells
        tree = merged(base, tree)
    elif base_of(tree) is not None:
        return None, findings
    findings.extend(fill(tree))
    document, findings = _finish(tree, Vehicle, FileReader(bases, None), "vehicle", findings)
    findings = [finding for finding in findings if finding.where.file == tree.mark.file]
    if document is None:
        told = {finding.where for finding in findings}
        loose = loose_faults(tree, ids)
        findings = [*findings, *(finding for finding in loose if finding.where not in told)]
    return document, findings


def read_record(path: Path) -> tuple[Document[AsBuilt] | None, list[Finding]]:
    """Read a readings file, wherever it lies. Its figures were measured."""
    tree, findings = _tree(path, path.parent, "record")
    if tree is None:
        return None, findings
    return _finish(tree, AsBuilt, FileReader({}, Basis(state=State.MEASURED)), "record", findings)


def _base(tree: Branch, root: Path) -> tuple[Branch | None, list[Finding]]:
    """Return the tree of the vehicle that this one is a variant of, if it is one."""
    written = base_of(tree)
    if written is None or written.told:
        return None, []
    names = _vehicle_names(root)
    base = None
    if written in names:
        base, _ = _tree(root / "vehicles" / written / "vehicle.yaml", root, "vehicle")
        if base is None:
            return None, []  # its own reading tells why
    if base is None or base_of(base) is not None:
        reason = "id" if base is None else "variant"
        near = nearest(str(written), names)
        at, found = f"vehicle.{KEY}", Name(str(written))
        return None, [problem("DA-14", reason, written.mark, at=at, found=found, near=near)]
    return base, []


def _vehicle_names(root: Path) -> tuple[str, ...]:
    folder = root / "vehicles"
    return tuple(sorted(path.name for path in folder.iterdir() if path.is_dir()))


def _tree(path: Path, root: Path, prefix: str) -> tuple[Branch | None, list[Finding]]:
    source = read_source(path, root)
    if isinstance(source, Finding):
        return None, [source]
    tree, found = grow(source, prefix)
    findings = list(found)
    if tree is None:
        return None, findings
    wrong_format = _format(tree, prefix)
    if wrong_format:  # the rest would be measured against the wrong list of keys
        return None, [*findings, wrong_format]
    return tree, [*findings, *_blanks(tree, prefix)]


def _format(tree: Branch, prefix: str) -> Finding | None:
    written = tree.get("format")
    if not isinstance(written, Scalar) or written == FORMAT or is_blank(written):
        return None  # missing, blank or of the wrong form: told with the rest
    at, found = f"{prefix}.format", Name(str(written))
    return problem("DA-11", "format", written.mark, at=at, found=found, format=Name(FORMAT))


def _finish(
    tree: Branch, model: type[ModelT], reader: FileReader, prefix: str, findings: list[Finding]
) -> tuple[Document[ModelT] | None, list[Finding]]:
    try:
        whole = model.model_validate(tree, context={"reader": reader})
    except ValidationError as error:
        return None, [*findings, *explain(error, tree, model, prefix)]
    return (None if findings else Document(whole, tree, prefix)), findings


def _sheet_basis(tree: Branch) -> Basis:
    """Take what can be read of `sheet:`; what cannot is told with the whole file."""
    sheet = tree.get("sheet")
    parts = sheet if isinstance(sheet, Branch) else {}
    document = f"{parts.get('document', '')}, revision {parts.get('revision', '')}"
    try:
        return Basis(state=State.PAPER, document=document, on=FileReader({}, None).day(parts["on"]))
    except (KeyError, Fault):
        return Basis(state=State.PAPER, document=document)


def _bases(tree: Branch) -> dict[str, Basis | None]:
    """Read the bases before all else: the figures need them. Their faults come with the rest."""
    bases: dict[str, Basis | None] = {}
    written = tree.get("bases")
    for name, raw in written.items() if isinstance(written, Branch) else ():
        try:
            bases[name] = Basis.model_validate(raw, context={"reader": FileReader({}, None)})
        except ValidationError:
            bases[name] = None
    return bases


def _settle(node: Node, name: str, bases: Mapping[str, Basis | None]) -> Iterator[Finding]:
    """Take `basis:` out of every mapping and hand its name to all below; the nearest wins."""
    if isinstance(node, Scalar):
        node.basis = name
        return
    if isinstance(node, Branch) and "basis" in node:
        written = node.pop("basis")
        if not isinstance(written, Scalar):
            name = _FAULTY
            yield problem("DA-09", "plain-value", written.mark, at=f"vehicle.{written.mark.path}")
        elif written.told:
            name = _FAULTY
        else:
            name = str(written)
            if name not in bases:
                yield _no_basis(written, bases)
    for item in node.values() if isinstance(node, Branch) else node:
        yield from _settle(item, name, bases)


def _no_basis(written: Scalar, bases: Mapping[str, Basis | None]) -> Finding:
    at = f"vehicle.{written.mark.path}"
    near = nearest(str(written), bases)
    return problem("DA-13", "basis", written.mark, at=at, found=Name(str(written)), near=near)


def _blanks(node: Node, prefix: str) -> Iterator[Finding]:
    if isinstance(node, Scalar):
        left = node == OPEN
        if (left or is_blank(node)) and not node.told:
            node.told = True
            at, found = f"{prefix}.{node.mark.path}", shown(node.strip())
            yield problem("DA-08", "open" if left else "blank", node.mark, at=at, found=found)
        return
    for item in node.values() if isinstance(node, Branch) else node:
        yield from _blanks(item, prefix)


def marks_of(node: Node, prefix: str) -> Iterator[tuple[str, Mark]]:
    """Yield the place of everything in a tree under its dotted path, the top included."""
    yield prefix, node.mark
    if isinstance(node, Branch):
        for key, item in node.items():
            yield from marks_of(item, f"{prefix}.{key}")
            if not isinstance(item, Scalar):  # a mapping is found by its key, not by what is in it
                yield f"{prefix}.{key}", node.keys_at[key]
    elif isinstance(node, Row):
        for index, item in enumerate(node):
            yield from marks_of(item, f"{prefix}.{index}")
