"""The help of the command line, set in columns without boxes."""

from __future__ import annotations

import textwrap
from typing import Any


class HelpPage:
    """A help formatter of cyclopts: a bold heading, then names and what they mean side by side."""

    def __call__(self, console: Any, options: Any, panel: Any) -> None:
        if not panel.entries:
            return
        rows = [(self._names(entry), self._meaning(entry)) for entry in panel.entries]
        column = max(len(names) for names, _ in rows) + 4
        self._heading(console, str(panel.title))
        for names, meaning in rows:
            first, *rest = textwrap.wrap(meaning, max(console.width - column, 24), break_on_hyphens=False) or [""]
            self._print(console, f"  {names}".ljust(column) + first)
            for line in rest:
                self._print(console, " " * column + line)
        self._print(console, "")

    def render_usage(self, console: Any, options: Any, usage: Any) -> None:
        text = _plain(usage).removeprefix("Usage:").strip()
        self._heading(console, text)
        self._print(console, "")

    def render_description(self, console: Any, options: Any, description: Any) -> None:
        for paragraph in _plain(description).split("\n\n"):
            for line in textwrap.wrap(paragraph, console.width):
                self._print(console, line)
            self._print(console, "")

    @staticmethod
    def _names(entry: Any) -> str:
        return ", ".join(entry.display_labels_with_metavar or entry.display_labels)

    @staticmethod
    def _meaning(entry: Any) -> str:
        meaning = _plain(entry.description)
        return f"{meaning} One of: {', '.join(entry.choices)}." if entry.choices else meaning

    @staticmethod
    def _heading(console: Any, text: str) -> None:
        console.print(text, style="bold", markup=False, highlight=False)

    @staticmethod
    def _print(console: Any, text: str) -> None:
        console.print(text.rstrip(), markup=False, highlight=False, soft_wrap=True)


def _plain(text: Any) -> str:
    inner = getattr(text, "primary_renderable", text)
    return str(getattr(inner, "plain", inner or "")).strip()
