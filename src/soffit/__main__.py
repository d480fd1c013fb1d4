"""Run the command line: ``python -m soffit``, and the start of the installed command."""

from __future__ import annotations

import sys


def main() -> int:
    """As :func:`soffit.cli.main`, which it imports where Ctrl-C already ends quietly."""
    try:
        from soffit.cli import main as run

        return run()
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main())
