"""Print the figures asked for."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import tests.bench
from tests.bench import building, checking
from tests.bench.building import build
from tests.bench.checking import check, check_folder
from tests.bench.painting import SIZES, cards_report, one


def main() -> None:
    what, *counts = sys.argv[1:] or ["check"]
    if what == "check":
        check([int(c) for c in counts] or list(checking.SIZES))
    elif what == "check-folder":
        print(json.dumps(check_folder(Path(counts[0]))))
    elif what == "cards":
        cards_report([int(c) for c in counts] or list(SIZES))
    elif what == "build":
        build([int(c) for c in counts] or list(building.SIZES))
    elif what == "one":
        print(json.dumps(one(*counts)))
    else:
        sys.exit(tests.bench.__doc__)


if __name__ == "__main__":
    main()
