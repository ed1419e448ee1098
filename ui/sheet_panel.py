"""A sheet as the page previews it: the very drawing that is printed."""

from base64 import b64encode


def sheet_html(svg: str, page: int) -> str:
    """One page of a sheet as an image on white paper."""
    data = b64encode(svg.encode()).decode()
    return (
        f'<img class="sheet" alt="Page {page + 1} of the sheet as it will be printed" '
        f'src="data:image/svg+xml;base64,{data}">'
    )
