"""Views: a trace in, a picture out.

A view places `drawing/shapes` in a `Drawing`; `drawing/svg` writes it, `drawing/export` makes
PNG and PDF of it. `drawing/theme` has every colour and length, `drawing/text_metrics` measures
text, `drawing/bit_cells` draws words. No view knows an engine, a file or a page.
"""
