"""Lessons: documents whose values are computed and whose claims are checked."""

from __future__ import annotations

from edgewise.lesson.checking import check, check_text
from edgewise.lesson.report import Report

__all__ = ["Report", "check", "check_text"]
