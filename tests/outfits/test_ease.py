"""Published ease, and where it must not be used."""

import pytest

from fitting.outfits.calculation.ease import OVER_MODERN_UNDERWEAR, ease_presets
from tests.makers.cases import inches

# Robinson, Central Washington University costume text, ch. 16, in inches.
PUBLISHED = [
    ("dress", "waist", 0.75, 1),
    ("skirt", "waist", 0.5, 0.75),
    ("any", "hip", 2, 2.75),
    ("fitted shirt", "bust", 1.5, 2.5),
    ("trousers", "hip", 1.5, 2),
]


@pytest.mark.parametrize(("garment", "level", "least", "most"), PUBLISHED)
def test_a_preset_is_the_published_one(garment, level, least, most):
    (preset,) = (
        one for one in ease_presets(over_stays=False) if (one.garment, one.level) == (garment, level)
    )
    assert (preset.least_mm, preset.most_mm) == pytest.approx((inches(least), inches(most)))
    assert "Robinson" in preset.source


def test_two_schools_disagree_and_both_are_shown():
    # Robinson: 1 1/2 to 2 in; Hamilton, New Mexico State University, C-228, table 1: 3 to 4 in.
    bodice = [one for one in OVER_MODERN_UNDERWEAR if (one.garment, one.level) == ("bodice", "bust")]
    assert [one.least_mm for one in bodice] == pytest.approx([inches(1.5), inches(3)])
    assert [one.most_mm for one in bodice] == pytest.approx([inches(2), inches(4)])


def test_no_modern_table_fills_in_over_stays():
    over_stays = ease_presets(over_stays=True)
    assert not set(over_stays) & set(OVER_MODERN_UNDERWEAR)
    assert all(preset.most_mm <= inches(0.5) for preset in over_stays)
    assert {preset.source for preset in over_stays} == {"common practice, no source"}
