"""Every line of the notation's table of wrong values: its code, what is said, and what to write instead."""

from __future__ import annotations

import pytest

from site_builder.quantity import NotationError, parse_value

# text, code, a part of the message, the whole text after mending ("" where we cannot know it)
WRONG = [
    ("25", "unit-missing", "25 what? Write `25 mm`.", "25 mm"),
    ("max 0.1", "unit-missing", "0.1 what?", "max 0.1 mm"),
    ("180 °", "unit-missing", "°C or °F? They make two different accidents.", ""),
    ("180 degrees", "unit-missing", "for an angle write `180 ° angle`", ""),
    ("180 C", "unit-missing", "°C or °F? They make two different accidents.", "180 °C"),
    ("180 F", "unit-missing", "°C or °F? They make two different accidents.", "180 °F"),
    ("2,5 mm", "decimal-comma", "Write `2.5 mm`; write thousands without a comma.", "2.5 mm"),
    ("1,000 mm", "decimal-comma", "thousands without a comma", "1000 mm"),
    ("12-30 °C", "range-hyphen", "A hyphen may be a minus: write `12..30 °C`.", "12..30 °C"),
    ("12 - 30 °C", "range-hyphen", "A hyphen may be a minus: write `12..30 °C`.", "12..30 °C"),
    ("12 mm-30 mm", "range-hyphen", "A hyphen may be a minus", "12 mm..30 mm"),
    ("12 mm..3 in", "range-mixed", "one system of units", ""),
    ("12 mm..3 kg", "range-mixed", "one kind of unit", ""),
    ("3 pieces..5 strokes", "range-mixed", "one kind of unit", ""),
    ("20 °C..5 K", "range-mixed", "one kind of unit", ""),
    ("min 3 mm; max 1 in", "range-mixed", "one system of units", ""),
    ("30..12 °C", "range-backward", "write `12..30 °C`", "12..30 °C"),
    ("max 5..4 mm", "range-backward", "write `4..5 mm`", ""),
    ("min 5 mm; max 4 mm", "range-backward", "Nothing lies between min 5 mm and max 4 mm.", ""),
    ("aim 5 mm; max 4 mm", "aim-outside", "aim 5 mm lies outside max 4 mm", ""),
    ("aim 5 mm; over 5", "aim-outside", "aim 5 mm lies outside over 5 mm", ""),
    ("about 20..40 min; max 0.5 h", "aim-outside", "about 40 min lies outside max 0.5 h", ""),
    ("aim 3 mm; 5 mm", "clause-bare", "What is 5 mm: `min`, `max`?", ""),
    ("5 mm; max 6 mm", "clause-bare", "What is 5 mm: `aim`, `min`, `max`?", ""),
    ("smooth, max 3 mm", "clause-bare", "What is smooth", ""),
    ("min 5 mm or 1/2 of wall", "whichever-missing", "`whichever is more` or `whichever is less`", ""),
    ("25 +/- 0.1 mm", "value-broken", "Write `25 ±0.1 mm`.", "25 ±0.1 mm"),
    ("25 ± 0.1", "unit-missing", "Write `25 ±0.1 mm`.", "25 ±0.1 mm"),
    ('1/8"', "value-broken", "Write `1/8 in`.", "1/8 in"),
    ("3 dollops", "unit-unknown", "If you count in dollops, add the word under `words`.", ""),
    ("0000", "value-broken", "put a word first: `grade 0000`", "grade 0000"),
    ("316 stainless", "value-broken", "put a word first: `grade 316 stainless`", "grade 316 stainless"),
    # from the table of what YAML and habit do to a value
    ("1:5", "value-broken", "For a mix write `composition` with parts; for a time `1 h 5 min`.", ""),
    ("%50", "value-broken", "The number comes first: write `50 %`.", "50 %"),
    ("30 min?", "value-broken", "Doubt is a word: write `perhaps 30 min`.", "perhaps 30 min"),
    # habits the tables do not name
    ("5 mm max", "value-broken", "The word comes first", "max 5 mm"),
    ("approx 5 mm", "value-broken", "Write `about 5 mm`.", "about 5 mm"),
    ("up to 80 °F", "value-broken", "Write `max 80 °F`.", "max 80 °F"),
    ("down to 3 mm", "value-broken", "Write `min 3 mm`.", "min 3 mm"),
    ("4/7 of 6.5 L", "value-broken", "Work it out: `about 3.71 L`.", "about 3.71 L"),
    ("at least 3 mm", "value-broken", "Write `min 3 mm`.", "min 3 mm"),
    ("between 3 and 5 mm", "value-broken", "Write `3..5 mm`.", "3..5 mm"),
    (".5 mm", "value-broken", "Write the nought before the point", "0.5 mm"),
    ("25 mm ±0.1 mm", "value-broken", "The unit comes once, at the end", "25 ±0.1 mm"),
    ("25 +0.2 mm", "value-broken", "A tolerance has two sides", "25 +0.2/0 mm"),
    ("25 -0.05/+0.2 mm", "range-backward", "The upper deviation comes first", "25 +0.2/-0.05 mm"),
    ("25 H7", "unit-missing", "Write `25 H7 mm`.", "25 H7 mm"),
    ("25 ZC7 mm", "value-broken", "The class ZC7 is not worked out here", ""),
    ("3 inches", "unit-unknown", "Write `3 in`.", "3 in"),
    ("2800 rpm", "unit-unknown", "Write `2800 rev/min`.", "2800 rev/min"),
    ("2 h 30", "unit-missing", "30 what? Write `30 min`.", "2 h 30 min"),
    ("30 min 2 h", "value-broken", "from great to small", ""),
    ("wall x 2", "unit-missing", "The number comes first", "2 x wall"),
    ("20 °C plus 5 °C", "value-broken", "Two temperatures in one sum", ""),
    ("5 mm plus 3 kg", "value-broken", "length and mass cannot be added", ""),
    ("max 3 mm; max 4", "value-broken", "`max` stands twice", ""),
    ("max", "value-broken", "`max` what?", ""),
    ("some", "unit-missing", "Some what?", ""),
    ("some dollops", "unit-unknown", "`dollops` is no unit", ""),
    ("aim 1; min 30 µm; max 2 mm", "unit-missing", "1 what?", "aim 1 mm; min 30 µm; max 2 mm"),
    # as a busy hand writes it
    ('1-1/4" +1/8 -0', "value-broken", "The unit comes once, at the end", "1-1/4 +1/8/0 in"),
    ("16 1/2 in ± 1/4", "value-broken", "The unit comes once, at the end", "16-1/2 ±1/4 in"),
    ("30mm ±3%", "value-broken", "The unit comes once, at the end", "30 ±0.9 mm"),
    ("30 mm ±1 in", "value-broken", "in one unit", ""),
    ("30mm or more", "value-broken", "Write `min 30mm`.", "min 30mm"),
    ("30 mm approx", "value-broken", "The word comes first", "about 30 mm"),
    ("two inches", "value-broken", "Write figures", "2 in"),
    ("half an hour", "value-broken", "Write figures", "1/2 hour"),
    ("30 mm.", "value-broken", "No full stop after a value", "30 mm"),
    ("1h30", "value-broken", "Write `1 h 30 min`.", "1 h 30 min"),
    ("1:30 h", "value-broken", "Write `1 h 30 min`.", "1 h 30 min"),
    ("1 hr 20 min", "unit-unknown", "Write `1 h`.", "1 h 20 min"),
    ("20 min each", "value-broken", "Write `20 min per piece`.", "20 min per piece"),
    ("2 turns per inch", "unit-unknown", "Write `per in`.", "2 turns per in"),
    ("30 x 20 mm", "value-broken", "Each size has a name", ""),
    ("10 dozen", "value-broken", "Write `120 pieces`.", "120 pieces"),
    ("120 pcs", "unit-unknown", "Write `120 pieces`.", "120 pieces"),
    ("5 of 100", "value-broken", "A share is written `5 %`.", "5 %"),
    ("1 in 20", "value-broken", "A share is written `5 %`.", "5 %"),
    ("18 ga", "value-broken", "A gauge number means another thickness for each metal", "gauge 18"),
    ("70 deg C", "value-broken", "Write `70 °C`.", "70 °C"),
    ("3mm thick", "value-broken", "words go under `note`", "3mm"),
    ("Ø 30 mm", "value-broken", "stands in the name", "30 mm"),
    ("2 $/lb", "value-broken", "Money is no unit", ""),
    ("ask Edda", "value-broken", "`ask` stands alone", "ask"),
    ("unknown", "value-broken", "What is not known yet is asked for", "ask"),
    ("n/a", "value-broken", "What does not apply is left out", "ask"),
    ("?", "value-broken", "What is not known yet is asked for", "ask"),
    ("3 to 4", "unit-missing", "4 what?", "3 to 4 mm"),
    ("1 pair", "unit-unknown", "If you count in pair", ""),
    ("perhaps perhaps 3 mm", "value-broken", "stands once", ""),
    ("9" * 400 + " mm", "value-broken", "too long", ""),
]


@pytest.mark.parametrize(("text", "code", "said", "mended"), WRONG, ids=[w[0][:30] for w in WRONG])
def test_a_wrong_value_is_named_and_mended(text: str, code: str, said: str, mended: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_value(text)
    error = caught.value
    assert error.code == code
    assert said in error.message
    assert 0 <= error.start < error.end <= len(text)
    assert (text[: error.start] + error.fix + text[error.end :] if error.fix else "") == mended
    if mended:
        parse_value(mended)


def test_the_place_is_told_in_the_text_as_it_was_typed() -> None:
    text = "max 1½ mm; 5 mm"
    with pytest.raises(NotationError) as caught:
        parse_value(text)
    assert text[caught.value.start : caught.value.end] == "5 mm"
