"""The report on judged submissions: a page and a table."""
