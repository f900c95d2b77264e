"""Lessons: documents whose values are computed and whose claims are checked."""

from __future__ import annotations

from edgewise.lesson.checking import Report, check, check_text

__all__ = ["Report", "check", "check_text"]
