"""Every address of the pages, in one place: routes are declared with them, links built of them."""

from urllib.parse import quote, urlencode

JOBS = "/"
NEW = "/new"
IMPORT = "/import"
NAME = "/name"
STATIC = "/static"
JOB = "/jobs/{job}"
ABOUT = "/jobs/{job}/about"
HISTORY = "/jobs/{job}/history"
UNDO = "/jobs/{job}/undo"
EXPORT = "/jobs/{job}/file"
MEASURE = "/jobs/{job}/measure"
ENTRY = "/jobs/{job}/walls/{wall}/{slot}/{place}"
REMOVE = "/jobs/{job}/walls/{wall}/{slot}/{place}/remove"
SET_OUT = "/jobs/{job}/set-out"
PRICE = "/jobs/{job}/price"
ORDER = "/jobs/{job}/order"
PAPER = "/jobs/{job}/papers/{paper}"
READY = "/jobs/{job}/ready"
CUT = "/jobs/{job}/cut"
CARD = "/jobs/{job}/cut/{tag}"
FOUND = "/jobs/{job}/found"
HAND_OVER = "/jobs/{job}/hand-over"
PHOTOS = "/jobs/{job}/photos"
PHOTO = "/jobs/{job}/photos/{photo}"


def to(address: str, **places: object) -> str:
    """Return a link to an address; what is no place in it becomes its query."""
    inside = {name: quote(str(place), safe="") for name, place in places.items()}
    query = {name: place for name, place in places.items() if f"{{{name}}}" not in address}
    return address.format_map(inside) + (f"?{urlencode(query)}" if query else "")
