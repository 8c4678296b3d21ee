"""``python3 -m hub …``: makes the environment when this is a bare checkout, then runs the command in it."""

import sys

from hub import cli
from hub.bootstrap import enter

if __name__ == "__main__":
    asked = sys.argv[1:]
    if asked and asked[0] in cli.COMMANDS:  # the list of commands needs no environment
        enter(asked)
    sys.exit(cli.main(asked))
