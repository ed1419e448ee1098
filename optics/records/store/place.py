"""Where the records lie on this machine."""

import os
from pathlib import Path

from platformdirs import user_data_dir

VARIABLE = "SHIMWRIGHT_DATA"
FILE_NAME = "records.sqlite"


def data_folder() -> Path:
    """The folder named by the environment variable SHIMWRIGHT_DATA, else the user's own."""
    named = os.environ.get(VARIABLE, "").strip()
    return Path(named or user_data_dir("shimwright", appauthor=False)).expanduser()


def default_path() -> Path:
    """The records file; it need not exist yet."""
    return data_folder() / FILE_NAME
