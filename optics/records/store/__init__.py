"""Where jobs and the user's library are kept: one SQLite file, safe against a sudden end."""

from optics.records.store.jobs import JobLine, KeptJob
from optics.records.store.learned import ShopFigure
from optics.records.store.library import ItemLine, KeptItem
from optics.records.store.place import default_path
from optics.records.store.store import Store
from optics.records.store.versions import Revision

__all__ = [
    "ItemLine",
    "JobLine",
    "KeptItem",
    "KeptJob",
    "Revision",
    "ShopFigure",
    "Store",
    "default_path",
]
