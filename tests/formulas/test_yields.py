"""How many reach the end of a row of operations."""

from fractions import Fraction

import pytest

from site_builder.formulas.errors import Impossible
from site_builder.formulas.yields import reach_the_end


def test_the_label_printer() -> None:
    """Worked example "What are throughput yield (YTP) and rolled throughput yield (YRT)", Minitab support pages:
    1000 labels are printed, 950 go on; 800 of them are laminated well, 700 of those cut well."""
    losses = [Fraction(50, 1000), Fraction(150, 950), Fraction(100, 800)]
    assert reach_the_end(Fraction(1000), losses) == 700


def test_without_operations_nothing_is_lost() -> None:
    assert reach_the_end(Fraction(100), []) == 100


def test_what_is_all_lost_stays_lost() -> None:
    assert reach_the_end(Fraction(100), [Fraction(1), Fraction(1, 10)]) == 0


@pytest.mark.parametrize("scrap", [Fraction(-1, 100), Fraction(101, 100)])
def test_no_share_below_nothing_or_above_all(scrap: Fraction) -> None:
    with pytest.raises(Impossible, match="between 0 and 1"):
        reach_the_end(Fraction(100), [scrap])
