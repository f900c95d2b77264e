"""Views: a trace in, a picture out.

A view places `items.py` in a `Drawing` (`drawing.py`); `drawing.svg` writes it, `render.py`
makes PNG and PDF of it. `look.py` has every colour and length, `lettering.py` measures text,
`cells.py` draws words. No view knows an engine, a file or a page.
"""
