"""How large a file may be and what a side file is called: known to whoever reads no recipe yet.

They stand apart from the readers of recipes so that a build with nothing to make imports none.
"""

from __future__ import annotations

import re

MAX_CHARACTERS = 400_000
"""A recipe is a page or two; forty times the longest told recipe we can think of."""

SIDE_NAME = re.compile(r"(?P<stem>.+)\.(?P<language>[a-z]{2,3})\.ya?ml")
"""The name of a side file: ``carrot-dal.hi.yaml`` is Hindi for ``carrot-dal.yaml``."""
