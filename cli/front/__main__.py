"""`python -m platewheel` is the command `platewheel`."""

from platewheel.cli.commands.main import main

main()
