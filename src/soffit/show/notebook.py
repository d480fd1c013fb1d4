"""Lives in a notebook: a table of the events and the closing sentence instead of bare arrays."""

from __future__ import annotations


def attach() -> None:
    """Give :class:`~soffit.member.result.Life` the method that notebooks ask for.

    The member floor knows nothing of text, so the package calls this when a life is first asked for.
    """
    from soffit.member.result import Life
    from soffit.show.story import html

    type.__setattr__(Life, "_repr_html_", html)
