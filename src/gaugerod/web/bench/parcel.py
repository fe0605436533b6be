"""Work and results as bytes, from one process of ours to another."""

import copyreg
import io
import pickle
from collections.abc import Callable, Mapping
from struct import Struct
from types import MappingProxyType
from typing import IO, Any

_LENGTH = Struct(">Q")


class _Pickler(pickle.Pickler):
    """Packs views of tables too, which messages and catalogues hold."""

    dispatch_table = copyreg.dispatch_table | {
        MappingProxyType: lambda view: (_view, (dict(view),)),
    }


def _view(table: dict[Any, Any]) -> Mapping[Any, Any]:
    return MappingProxyType(table)


def packed(what: object) -> bytes:
    """Return something as bytes; functions go by their name, so they must have one."""
    file = io.BytesIO()
    _Pickler(file, pickle.HIGHEST_PROTOCOL).dump(what)
    return file.getvalue()


def unpacked(parcel: bytes) -> Any:  # noqa: ANN401  (whatever was packed)
    """Return what was packed. Only for bytes that a process of ours made."""
    return pickle.loads(parcel)  # noqa: S301  (nobody else has the other end of the pipe)


def send(parcel: bytes, to: IO[bytes]) -> None:
    """Write a parcel into a pipe."""
    to.write(_LENGTH.pack(len(parcel)))
    to.write(parcel)
    to.flush()


def receive(pipe: IO[bytes]) -> bytes | None:
    """Return the next parcel of a pipe; None where it ends, be it in the middle of one."""
    head = pipe.read(_LENGTH.size)
    if len(head) < _LENGTH.size:
        return None
    (length,) = _LENGTH.unpack(head)
    parcel = pipe.read(length)
    return parcel if len(parcel) == length else None


def attempt(work: Callable[[], object]) -> tuple[str, Any]:
    """Return what came of some work, ready to be packed: a result or an error."""
    try:
        return "result", work()
    except Exception as error:  # noqa: BLE001  (it is raised again where the work was asked for)
        return "error", (type(error), error.args, dict(vars(error)))


def raised(kind: type[Exception], args: tuple[Any, ...], state: Mapping[str, Any]) -> Exception:
    """Return an error as it was raised; it may have been made of other things than its `args`."""
    error = kind.__new__(kind, *args)
    vars(error).update(state)
    return error
