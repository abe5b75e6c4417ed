"""The command line: one verb a module, each imported only when it is called."""

from __future__ import annotations

import gc
import importlib
import sys
from collections.abc import Sequence

import click

from narrator import __version__
from narrator.errors import NarratorError

VERBS = {
    "draft": "Turn a checklist into a draft report.",
    "find": "Look up what the library calls a thing.",
    "check": "Check a library or a firm's folder: form, wording, cases.",
    "sheets": "Write the sheets for contractors' prices, and the client's worksheet.",
    "take": "Take what was changed by hand in a draft, and apply it at each redraft.",
    "settle": "Confirm or answer what a draft asks about a line.",
    "edit": "Change an entry's wording for your firm.",
    "explain": "Show where each sentence of a finding came from.",
    "review": "Read one report for what speaks against itself or says too much.",
    "compare": "Show what changed between two reports, by meaning.",
    "impact": "Show which paragraphs of an archive a change of wording would alter.",
    "learn": "Show what people keep changing in drafts, and the firm edit that would settle it.",
}


class Verbs(click.Group):
    """A group that loads a verb's module only when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The verbs, in the order of a day's work."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The verb's command, from its own module."""
        if cmd_name not in VERBS:
            return None
        module = importlib.import_module(f"narrator.commands.{cmd_name}")
        command: click.Command = module.command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """A verb that is not known is answered with the nearest one."""
        from narrator.errors import did_you_mean

        if args and args[0] not in VERBS and not args[0].startswith("-"):
            hint = did_you_mean(args[0], VERBS)
            raise click.UsageError(f"'{args[0]}' is not one of narrator's commands ({', '.join(VERBS)}).{hint}")
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of verbs without loading any of them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(VERBS.items()))


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="narrator")
def cli() -> None:
    """Turn a field checklist into a plain-language report narrative.

    narrator drafts; a named person reads, edits and issues. Start with:

        narrator draft tonight.txt -o tonight.html
    """


def main(args: Sequence[str] | None = None) -> None:
    """Run the command line; every fault is a message with its place, never a traceback."""
    # One short run: collecting garbage costs more than the little it would free.
    gc.disable()
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")
    try:
        code = cli.main(args=list(args) if args is not None else None, standalone_mode=False)
    except click.ClickException as error:
        error.show()
        code = 2
    except click.Abort:
        click.echo("Stopped.", err=True)
        code = 2
    except NarratorError as error:
        click.echo(str(error), err=True)
        code = 2
    except BrokenPipeError:
        code = 0
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        click.echo(f"{name}{error.strerror or error}", err=True)
        code = 2
    sys.exit(code if isinstance(code, int) else 0)
