"""The command itself, which the others are hung into."""

from __future__ import annotations

import click

import cards


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(cards.__version__, prog_name="cards")
def command() -> None:
    """Turn recipe files into checked, printed cards."""
