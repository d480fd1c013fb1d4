"""Sphinx configuration. Nothing is fetched from the net: built-in theme, own style, formulas as MathML."""

from __future__ import annotations

from typing import Any

from docutils import nodes
from docutils.utils.math.latex2mathml import tex2mathml

import soffit

project = "Soffit"
author = "the Soffit authors"
project_copyright = "the Soffit authors, Apache-2.0"
version = release = soffit.__version__

extensions = ["myst_parser"]
source_suffix = {".md": "markdown"}
root_doc = "index"
exclude_patterns = ["README.md"]
myst_enable_extensions = ["dollarmath", "deflist"]
myst_heading_anchors = 3
# the page of the evidence is made by `make evidence` and may not be there
suppress_warnings = ["toc.empty_glob"]

html_theme = "alabaster"
html_theme_options = {
    "description": "the whole life of a concrete beam",
    "fixed_sidebar": True,
    "page_width": "73rem",
    "sidebar_width": "14rem",
    "show_powered_by": False,
}
html_sidebars = {"**": ["about.html", "searchfield.html", "navigation.html"]}
_FACE = "../src/soffit/show/data"
html_static_path = [
    "_static",
    f"{_FACE}/SoffitSans-Regular.ttf",
    f"{_FACE}/SoffitSans-SemiBold.ttf",
    f"{_FACE}/OFL.txt",
]
html_css_files = ["soffit.css"]
html_title = "Soffit"
html_show_sourcelink = False
html_copy_source = False
pygments_style = "bw"
highlight_language = "none"


def _inline(self: Any, node: nodes.math) -> None:
    self.body.append(tex2mathml(node.astext()))
    raise nodes.SkipNode


def _block(self: Any, node: nodes.math_block) -> None:
    self.body.append(f'<div class="math">{tex2mathml(node.astext(), as_block=True)}</div>\n')
    raise nodes.SkipNode


def setup(app: Any) -> None:
    app.add_html_math_renderer("mathml", (_inline, None), (_block, None))


html_math_renderer = "mathml"
