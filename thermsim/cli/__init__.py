"""The command line: a file for each command, a thin layer on the package.

Nothing heavy is imported before a command needs it, so that `--help` answers at once.
"""
