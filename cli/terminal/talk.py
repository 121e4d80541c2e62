"""Questions and answers in the terminal, at any width; or answers that are piped in."""

from __future__ import annotations

import sys

from platewheel.parts.base.faults import Fault, SpecError

MOST_ANSWERS = 500  # that are piped in: the questions are some thirty


class TerminalTalk:
    """Speaks on stdout; `answers` counts those that came."""

    def __init__(self) -> None:
        from rich.console import Console

        self._console = Console(highlight=False)
        self.answers = 0

    @property
    def watched(self) -> bool:
        """Whether a person sits there."""
        return sys.stdin.isatty()

    def say(self, line: str) -> None:
        """A line, wrapped at words."""
        from rich.text import Text

        quiet = "".join(c if c.isprintable() else " " for c in line)
        self._console.print(Text(quiet), soft_wrap=False)

    def ask(self, label: str, default: str) -> str:
        """One answer. Raises: typer.Abort at Ctrl-C or where the answers end; SpecError where they
        come without end."""
        import typer

        if self.answers >= MOST_ANSWERS and not self.watched:
            allowed = f"at most {MOST_ANSWERS} answers, one a line"
            advice = "answers in a file; `?` tells what a question takes"
            raise SpecError([Fault("--ask", "more answers piped in", allowed, advice)])
        text = str(typer.prompt(label, default=default))
        self.answers += 1
        if not self.watched:
            typer.echo()  # no Enter of a person's has ended the line
        return text
