"""Batch codes: what is pencilled on a bottle is read back, and nothing else is."""

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model.batch_code import PATTERN, BatchCode, parse_batch_code
from sitegen.problems import Refusal

codes = st.builds(
    BatchCode,
    code=st.from_regex(r"\A[A-Z]{2,4}-[0-9]{2,3}\Z"),
    mixture=st.from_regex(r"\A[a-z0-9]{1,8}(-[a-z0-9]{1,8}){0,3}\Z"),
    mixed=st.dates(min_value=date(1000, 1, 1)),
    revision=st.none() | st.integers(1, 999_999),
)


@given(codes)
def test_what_is_written_on_a_bottle_reads_back(code: BatchCode) -> None:
    assert parse_batch_code(code.written()) == code
    assert parse_batch_code(f"  {code.written().replace(' ', '   ')} ") == code


@given(codes, codes)
def test_two_bottles_never_share_a_code(one: BatchCode, other: BatchCode) -> None:
    assert (one.written() == other.written()) == (one == other)


@given(st.text())
def test_any_other_text_is_refused(text: str) -> None:
    read = " ".join(text.split())
    if re.fullmatch(PATTERN, read):
        return  # a day may still be none
    with pytest.raises(Refusal, match="is not a batch code"):
        parse_batch_code(text)


@pytest.mark.parametrize("text", ["IB-07.0 bath 2026-11-03", "IB-07.3-bath-2026-11-03", "IB-07 bath 03/11/2026"])
def test_other_spellings_are_refused(text: str) -> None:
    with pytest.raises(Refusal, match="is not a batch code"):
        parse_batch_code(text)
