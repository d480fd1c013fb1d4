"""Sets the pages of a calculation: one call of the typesetter, without any file of this machine but our faces."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from soffit.errors import SoffitError


def typeset(document: dict[str, Any]) -> bytes:
    """The PDF of what :func:`soffit.show.reportpages.document` gives.

    Texts go in as data, never as code of the typesetter. Raises :class:`SoffitError` where it fails.
    """
    import typst

    data = files("soffit.show") / "data"
    template = (data / "report.typ").read_bytes()
    with as_file(data) as folder:
        try:
            faces = typst.Fonts(include_system_fonts=False, font_paths=[folder, *_more_faces()])
            inputs = {"document": json.dumps(document, ensure_ascii=False)}
            made = typst.compile(template, format="pdf", font_paths=faces, sys_inputs=inputs)
        except (typst.TypstError, RuntimeError, ValueError) as error:
            first = (str(error).splitlines() or [""])[0]
            raise SoffitError(f"the calculation could not be set as PDF ({first}).") from error
    if not isinstance(made, bytes):
        raise SoffitError("the calculation could not be set as PDF (it came out empty).")
    return made


def _more_faces() -> list[Path]:
    """For scripts that our face lacks: those that come with matplotlib."""
    spec = find_spec("matplotlib")
    folder = Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf" if spec and spec.origin else None
    return [folder] if folder is not None and folder.is_dir() else []
