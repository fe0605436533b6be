"""A result of the core does not change once it is made."""

import inspect
import pkgutil
from importlib import import_module

import pytest

from gaugerod import core

MODULES = sorted(found.name for found in pkgutil.walk_packages(core.__path__, "gaugerod.core."))


def is_frozen_and_slotted(cls: type) -> bool:
    return vars(cls)["__dataclass_params__"].frozen and "__slots__" in vars(cls)


@pytest.mark.parametrize("name", MODULES)
def test_dataclasses_are_frozen_and_slotted(name: str) -> None:
    loose = [
        cls.__name__
        for cls in vars(import_module(name)).values()
        if inspect.isclass(cls)
        and cls.__module__ == name
        and "__dataclass_params__" in vars(cls)
        and not is_frozen_and_slotted(cls)
    ]
    assert not loose
