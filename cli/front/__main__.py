"""`python -m platewheel` is the command `platewheel`."""

from platewheel.cli.commands.entry import main

main()
