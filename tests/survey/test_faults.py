"""The list of deliberate faults still fits the code; `python -m tests.survey.faults` shows that each is caught."""

import ast

import pytest

from tests.survey.faults import FAULTS, Fault, text_of


def test_there_are_at_least_25_of_them_each_of_its_own() -> None:
    assert len({(one.module, one.right, one.wrong) for one in FAULTS}) == len(FAULTS) >= 25


@pytest.mark.parametrize("fault", FAULTS, ids=lambda one: one.does)
def test_each_applies_once_and_is_still_a_program(fault: Fault) -> None:
    text = text_of(fault)
    assert text.count(fault.right) == 1
    ast.parse(text.replace(fault.right, fault.wrong))
