"""`python -m baybook`."""

from baybook.cli import main

main(prog_name="baybook")
