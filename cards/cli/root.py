"""The command itself, and where the others are: each is imported when it is called for."""

from __future__ import annotations

from importlib import import_module

import click

import cards

COMMANDS = {
    "chart": ("charting", "Make a wall chart of feeding by age, without a recipe, into out/."),
    "check": ("checking", "Check FILES, or every recipe in the folder, without making cards."),
    "day": ("daying", "Sum, or find, the meals of the day or week in FILE, with its wall chart."),
    "explain": ("checking", "Say what a message of KIND means and how to mend it."),
    "foods": ("foods", "Look into the food table."),
    "icons": ("icons", "Set all icons with their words, a test of them, or a first lesson."),
    "make": ("making", "Make the cards of FILES, or of every recipe in the folder, into out/."),
    "new": ("beginning", "Begin a recipe file for TITLE, with remarks on what to write where."),
    "pack": ("packing", "Make all papers of the training day FILE into one folder out/NAME/."),
    "schema": ("beginning", "Write recipe.schema.json, for editors to check recipe files by."),
    "show": ("showing", "Print a stage of FILE."),
    "tidy": ("checking", "Set FILES, or every recipe in the folder, in one order."),
    "trace": ("tracing", "Tell what a paper was made from, and whether it still holds."),
    "words": ("translating", "Send words to translators, take them back, sign for them."),
}
"""Commands with their module in this room, and what the list of commands says of them.

The list stands here because a module brings what its command works with: all of them together
take two seconds to import, which nobody has to wait for who asks for one command or for help.
"""


class Late(click.Group):
    """A group that imports a command's module when the command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names of all commands, those not imported yet among them."""
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of this name; its module hangs it in here."""
        if cmd_name in COMMANDS:
            import_module(f"cards.cli.{COMMANDS[cmd_name][0]}")
        return super().get_command(ctx, cmd_name)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands in the help, which imports none of them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name][1]) for name in self.list_commands(ctx)])


@click.group(cls=Late, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(cards.__version__, prog_name="cards")
def command() -> None:
    """Turn recipe files into checked, printed cards."""
