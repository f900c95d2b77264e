"""How the documents are made into a site; `scripts/make_site.py` gathers what goes in."""

import os

project = "edgewise"
author = "edgewise contributors"
copyright = "edgewise contributors; MIT licence"  # noqa: A001  # the name that Sphinx reads
extensions = ["myst_parser", "sphinx.ext.autodoc", "sphinx.ext.napoleon"]
source_suffix = {".md": "markdown"}
# Built lessons go to the site as they are.
html_extra_path = [os.environ.get("EDGEWISE_SITE_PAGES", "../../build/site-pages")]
myst_enable_extensions = ["colon_fence"]
myst_heading_anchors = 3
napoleon_google_docstring = False
napoleon_use_ivar = True
autodoc_default_options = {"members": True, "show-inheritance": True}
autodoc_member_order = "bysource"
autodoc_typehints = "signature"
# The documents are shown as they are; these blocks have no lexer of their own.
highlight_language = "none"
suppress_warnings = ["misc.highlighting_failure", "ref.python"]
html_theme = "furo"
html_title = "edgewise"
html_show_sphinx = False
html_theme_options = {
    "light_css_variables": {
        "color-brand-primary": "#6a3fb5",
        "color-brand-content": "#6a3fb5",
        "font-stack": "Source Sans 3, system-ui, sans-serif",
        "font-stack--monospace": "IBM Plex Mono, monospace",
    }
}
