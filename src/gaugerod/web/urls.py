"""Every address of the pages, in one place: routes are declared with them, links built of them."""

from urllib.parse import quote, urlencode

JOBS = "/"
NEW = "/new"
IMPORT = "/import"
NAME = "/name"
STATIC = "/static"
JOB = "/jobs/{job}"
ABOUT = "/jobs/{job}/about"
SHEET = "/jobs/{job}/about/{sheet}"
LISTED = "/jobs/{job}/about/{sheet}/{listed}/{place}"
LISTED_OUT = "/jobs/{job}/about/{sheet}/{listed}/{place}/take-out"
HISTORY = "/jobs/{job}/history"
UNDO = "/jobs/{job}/undo"
EXPORT = "/jobs/{job}/file"
MEASURE = "/jobs/{job}/measure"
WALLS = "/jobs/{job}/walls"
WALL = "/jobs/{job}/walls/{wall}"
WALL_MOVE = "/jobs/{job}/walls/{wall}/move"
WALL_OUT = "/jobs/{job}/walls/{wall}/take-out"
ENTRY = "/jobs/{job}/walls/{wall}/{slot}/{place}"
REMOVE = "/jobs/{job}/walls/{wall}/{slot}/{place}/remove"
SET_OUT = "/jobs/{job}/set-out"
PLANNING = "/jobs/{job}/planning"
PRICE = "/jobs/{job}/price"
ORDER = "/jobs/{job}/order"
PAPER = "/jobs/{job}/papers/{paper}"
READY = "/jobs/{job}/ready"
CUT = "/jobs/{job}/cut"
CARD = "/jobs/{job}/cut/{tag}"
FOUND = "/jobs/{job}/found"
RETAKE = "/jobs/{job}/found/{wall}/{place}"
HAND_OVER = "/jobs/{job}/hand-over"


def to(address: str, **places: object) -> str:
    """Return a link to an address; what is no place in it becomes its query."""
    inside = {name: quote(str(place), safe="") for name, place in places.items()}
    query = {name: place for name, place in places.items() if f"{{{name}}}" not in address}
    return address.format_map(inside) + (f"?{urlencode(query)}" if query else "")
