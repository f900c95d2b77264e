"""A lesson as slides: a presentation (ISO/IEC 29500) and a PDF with the same slides."""
