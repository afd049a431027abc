"""The lists of deliberate faults still fit the code; `python -m tests.survey.faults` shows that each is caught."""

import ast

import pytest

from tests.planted import Fault, text_of
from tests.shutoff.faults import FAULTS as SHUTOFF
from tests.survey.faults import FAULTS as SURVEY


@pytest.mark.parametrize("faults", [SURVEY, SHUTOFF], ids=["survey", "shutoff"])
def test_there_are_at_least_25_of_them_each_of_its_own(faults) -> None:
    assert len({(one.module, one.right, one.wrong) for one in faults}) == len(faults) >= 25


@pytest.mark.parametrize("fault", [*SURVEY, *SHUTOFF], ids=lambda one: one.does)
def test_each_applies_once_and_is_still_a_program(fault: Fault) -> None:
    text = text_of(fault)
    assert text.count(fault.right) == 1
    ast.parse(text.replace(fault.right, fault.wrong))
