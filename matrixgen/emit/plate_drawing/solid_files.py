"""Solids as files: 3MF and binary STL, in millimetres, the same bytes for the same solid.

3MF is a package of three parts (3MF core specification 1.3, sections 2 to 4; the package is
ECMA-376 part 2; both from memory). `tests/plate` reads both with a library of other people.
"""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Iterator
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from manifold3d import Manifold

MICROSOFT, PACKAGE = (
    "http://schemas.microsoft.com/3dmanufacturing",
    "http://schemas.openxmlformats.org/package/2006",
)
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
TYPES = (
    f'{HEAD}<!-- made by matrixgen --><Types xmlns="{PACKAGE}/content-types">'
    '<Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" '
    'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n'
)
RELATIONS = (
    f'{HEAD}<Relationships xmlns="{PACKAGE}/relationships"><Relationship Id="model" '
    f'Target="/3D/3dmodel.model" Type="{MICROSOFT}/2013/01/3dmodel"/></Relationships>\n'
)
FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The date of each part: a zip file has to have one, and no earlier one."""

Triangles = tuple[list[list[float]], list[list[int]]]


def solid_3mf(solids: list[Manifold], title: str, notes: tuple[str, ...]) -> bytes:
    """Return solids as the objects of a 3MF file, each where it is."""
    objects = "".join(_object(number, one) for number, one in enumerate(solids, 1))
    items = "".join(f'<item objectid="{number}"/>' for number in range(1, len(solids) + 1))
    said = f'<metadata name="Title">{escape(title)}</metadata>'
    said += f'<metadata name="Description">{escape(" ".join(notes))}</metadata>'
    model = (
        f'{HEAD}<model unit="millimeter" xml:lang="en" xmlns="{MICROSOFT}/core/2015/02">{said}'
        f"<resources>{objects}</resources><build>{items}</build></model>\n"
    )
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as package:
        parts = {
            "[Content_Types].xml": TYPES,
            "_rels/.rels": RELATIONS,
            "3D/3dmodel.model": model,
        }
        for name, text in parts.items():
            part = zipfile.ZipInfo(name, FIRST_DAY)
            part.compress_type = zipfile.ZIP_STORED if text is TYPES else zipfile.ZIP_DEFLATED
            package.writestr(part, text)
    return packed.getvalue()


def solid_stl(solids: list[Manifold], title: str) -> bytes:
    """Return solids as one binary STL, whose first 80 bytes are the title."""
    facets = [facet for one in solids for facet in _facets(one)]
    head = f"made by matrixgen: {title}".encode("ascii", "replace")[:80].ljust(80)
    return head + struct.pack("<I", len(facets)) + b"".join(facets)


def _object(number: int, solid: Manifold) -> str:
    places, triangles = _mesh(solid)
    corners = "".join(f'<vertex x="{x:.6g}" y="{y:.6g}" z="{z:.6g}"/>' for x, y, z in places)
    sides = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in triangles)
    return (
        f'<object id="{number}" type="model"><mesh><vertices>{corners}</vertices>'
        f"<triangles>{sides}</triangles></mesh></object>"
    )


def _facets(solid: Manifold) -> Iterator[bytes]:
    """Yield each triangle as STL has it; readers work the normal out, so that it is left 0."""
    places, triangles = _mesh(solid)
    for corners in triangles:
        numbers = [value for corner in corners for value in places[corner]]
        yield struct.pack("<12fH", 0.0, 0.0, 0.0, *numbers, 0)


def _mesh(solid: Manifold) -> Triangles:
    """Return a solid's corners, and its triangles by the numbers of their corners."""
    mesh = solid.to_mesh()
    return mesh.vert_properties[:, :3].tolist(), mesh.tri_verts.tolist()
