"""The command that tells where a paper comes from."""

from __future__ import annotations

import sys

import click
from pydantic import TypeAdapter

from cards.batch.papers import papers_of
from cards.batch.trace import Trace, trace
from cards.cli.common import ERRORS, WRONG_USE, begin, tell
from cards.cli.root import command
from cards.diagnostics.render import visible


@command.command("trace")
@click.argument("what")
@click.option("--json", "json_lines", is_flag=True, help="The answers as JSON lines.")
def trace_paper(what: str, json_lines: bool) -> None:
    """Tell what a paper was made from, and whether it still holds.

    WHAT is the code at a page's foot, a PDF, or a picture of the QR code.
    """
    workspace, kit = begin(json_lines)
    papers = papers_of(what)
    tell(papers.diagnostics, {}, json_lines)
    if papers.value is None:
        sys.exit(WRONG_USE)
    found = [trace(paper, workspace, kit) for paper in papers.value]
    for one in found:
        click.echo(_JSON.dump_json(one) if json_lines else "\n".join(map(visible, _told(one))))
    if any(one.state == "unknown" for one in found):
        sys.exit(WRONG_USE)
    sys.exit(ERRORS if any(one.state != "current" or one.recall for one in found) else 0)


_JSON = TypeAdapter(Trace)


def _told(one: Trace) -> list[str]:
    card = one.page == "card"
    lines = [f"{one.code}: {one.title or one.recipe or 'not known'}"]
    lines += [f"  RECALL THIS {'CARD' if card else 'PAPER'}: {why}" for why in one.recall]
    if one.state == "unknown":
        if one.others:
            lines.append(f"  did you mean: {', '.join(one.others)}")
        else:
            lines.append("  no file here has this code, nor had one in what git remembers")
        return lines
    what = "recipe" if card else "file"
    lines.append(f"  {what}: {one.recipe}")
    if one.state == "current":
        lines.append(
            f"  this paper is current ({one.now})" if one.now else "  this paper is current"
        )
    elif one.state == "gone":
        paper = f"; the paper has {one.printed_from}" if one.printed_from else ""
        lines.append(f"  the {what} is no longer here{paper}")
    else:
        now = f"the {what} has {one.now} now" if one.now else f"the {what} is another now"
        lines.append(f"  out of date: {now}")
        lines += [f"  the paper has {one.printed_from}"] if one.printed_from else []
        if not one.compared:
            lines.append("  what was printed is not known here, so the two cannot be compared")
        elif not one.changed:
            lines.append("  nothing that can be told has changed" if not card else
                         "  nothing that is printed has changed")  # fmt: skip
    for change in one.changed:
        lines.append(f"  {change.block}: {change.before or '(not there)'}")
        lines.append(f"  {' ' * len(change.block)}  now {change.now or '(taken out)'}")
    return lines
