"""The commands, their options and their exit codes."""

from __future__ import annotations

import io
import sys

import click

from cards.cli.codes import BUG, ERRORS
from cards.cli.root import command

__all__ = ["command", "main"]


def main() -> None:
    """Run the command; a fault of our own is told as one, with what to send us."""
    for stream in (sys.stdout, sys.stderr):
        # a terminal that cannot show a letter shows a question mark, and nothing breaks
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    try:
        command(standalone_mode=True)
    except OSError as trouble:
        click.echo(f"this cannot go on: {trouble.strerror or trouble}", err=True)
        sys.exit(ERRORS)
    except Exception:
        import traceback  # only where something broke

        traceback.print_exc()
        click.echo(
            "this is a fault of the program; please report it with the lines above", err=True
        )
        sys.exit(BUG)
