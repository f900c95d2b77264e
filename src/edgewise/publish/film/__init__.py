"""The film of a lesson: what is shown and said step by step, drawn, timed, captioned, encoded."""
