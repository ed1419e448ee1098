"""What a topic's result says, told once for page, terminal, paper and JSON alike."""

from optics.account.account import Account, Block, Card, Cards, Figure, Role, Table, TableRow

__all__ = ["Account", "Block", "Card", "Cards", "Figure", "Role", "Table", "TableRow"]
