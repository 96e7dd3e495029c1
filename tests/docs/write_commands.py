"""Writes the page of commands of the guide from the commands: `python tests/docs/write_commands.py`."""

from assurance.cli import main
from assurance.reference.commands_page import commands_page
from assurance.site.templates import templates_folder

PAGE = templates_folder() / "guide" / "reading" / "commands.md"

if __name__ == "__main__":
    PAGE.write_text(commands_page(main), "utf-8")
