"""The page of a procedure: every structure of the notebook, told as the master would tell it.

Each notebook under ``tests/notebooks`` named here holds one demand of the craft, written as a shop would write it.
"""

from __future__ import annotations

import re
from pathlib import Path

from expectation import book_of, book_written, expect, page
from procedure_article import part, read, sheet_of, words_of

from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.reckoning import reckoning_pages


def test_limits_have_two_sides_each_with_its_own_way_out() -> None:
    said = read("limits")
    assert "Depth of the groove aim at 0.8 mm, at least 0.6 mm, at most 1.0 mm" in said
    assert "Below 0.6 mm Too shallow. It starves. Cut again. Then do this step again." in said
    assert "0.6 to 1.0 mm Go on." in said
    assert "Above 1.0 mm Too deep. The wall cracks there. Turn it down to the next size. Then go on. See" in said
    assert 'href="#trouble-deep-groove"' in sheet_of("limits").html


def test_limits_with_deviations_fits_and_sizes_of_the_part() -> None:
    """25 H7 is 25.000 to 25.021 mm: ISO 286-2, table of H, as every shop's wall chart has it."""
    said = read("limits")
    assert "Bore 25 H7 mm, 25.000 to 25.021 mm" in said
    assert "Below 32.03 mm It drops through the eye. It is scrap. 32.03 to 32.05 mm Go on." in said
    assert "Length of the bushing 40 +0.2/0 mm" in said
    assert "The same as length (Bushing)." in said
    assert "Below 40.0 mm" in said or "Below 40 mm" in said
    assert "Above 40.2 mm Take one more light cut." in said


def test_limits_relative_to_another_size_and_on_a_sum() -> None:
    said = read("limits")
    assert "Chamfer at most 1/3 of wall (Bushing) or 1 mm, whichever is less" in said
    assert "Above 1 mm Face it back. Then go back to step 1." in said  # a third of 3.5 mm is more than 1 mm
    assert "Off both ends at most 1.2 mm" in said
    assert "It is first end plus second end." in said
    assert 'href="#face-first-end">first end</a>' in sheet_of("limits").html


def test_limits_that_are_unknown_doubtful_or_disputed_lead_to_their_questions() -> None:
    article, said = sheet_of("limits").html, read("limits")
    assert re.search(r'Run-out <b><a class="bl-untold" href="[./]*still-unwritten.html[^"]*">not told yet</a>', article)
    assert "Width of the groove perhaps 2 mm not sure" in said
    assert "In doubt: read off an old bushing that had worn." in said
    assert "at least 5 mm at least 0.197 in says Oda Brekk, 14 January 2026 or at least 8 mm" in said
    assert "not settled" in said
    assert "Ingo Halm: Ingo has seen one break at six. Source: told at the bench." in said


def test_a_guide_condemns_nothing() -> None:
    said = read("limits")
    assert "Warmth when measured 18 to 22 °C 64.4 to 71.6 °F A guide: it shows where one is heading" in said


def test_a_step_ends_by_what_comes_first_last_or_by_the_sign() -> None:
    said = read("ends")
    assert "Done when a printed word can be read in it or about 4 min by the clock, whichever comes first." in said
    assert "Done when at least 12 h by the clock and heat of the blade at most 25 °C" in said
    assert "whichever comes last." in said
    heat = part("ends", "heat")
    assert "go by the sign. Quench it in water at once. Because the block goes on giving heat" in heat
    assert "Takes About 3 min" in heat  # how long it takes and when it ends are two things


def test_the_feel_of_an_end_is_shown_good_beside_bad_with_its_reference_piece() -> None:
    heat = part("ends", "heat")
    assert "By touch. With Strip of tempering colours. Good A file skates off the edge and bites the back." in heat
    assert "Bad It bites the edge." in heat


def test_several_ends_are_stages_and_an_unknown_winner_is_asked_for() -> None:
    stone = part("ends", "stone")
    assert "Done when, one after the other: a wire of steel can be felt along the edge." in stone
    assert "the wire is gone on both sides and about 10 strokes; which of them decides is not told yet." in stone


def test_the_end_of_the_whole_work_stands_after_the_steps() -> None:
    said = read("ends")
    whole = said[said.index("How you know it is good") :]
    assert "You are done when it takes a curl off a newspaper held in the air" in whole
    assert "Press it once on a bamboo stick." in whole


def test_windows_are_a_line_with_a_table_and_a_way_out() -> None:
    expect(sheet_of("windows"), "procedure-windows")
    second = part("windows", "second")
    assert "Recoat, counted from the end of step 2 to the start of this step: by the table" in second
    assert "Earlier Too early. The first coat wrinkles. Wait. Then do this step again." in second
    assert "Later Missed. It will peel like a skin. Sand it dull with P320. Then go back to step 2." in second
    assert "By the lowest air temperature since the end of step 2" in second
    assert "10 to 15 °C 8 h 48 h 15 to 25 °C 4 h 24 h" in second
    assert "Outside the table there is no value: stop and ask." in second


def test_a_window_may_be_the_same_day_and_have_no_way_back() -> None:
    second = part("windows", "second")
    assert "The same day In time. After that day Missed. There is no way back." in second


def test_pot_life_is_taken_over_from_the_material() -> None:
    first = part("windows", "first")
    assert "Open time, counted from the end of step 1 to the end of step 2: at most pot life (Spar varnish" in first
    assert "After 3 h Missed. It drags and never shines. Wipe it off with spirit. Then go back to step 1." in first


def test_waiting_has_an_earliest_and_a_latest_and_follows_the_weather() -> None:
    second = part("windows", "second")
    assert "Let it stand, from the end of this step to the start of the next: at least 2 days, at most" in second
    assert "Holds at air temperature 18 °C" in second
    assert "It falls 1 h for every 1 °C more of air temperature." in second
    assert "Before 2 days Too early. 2 to 14 days In time. After 14 days Missed. Wash it before it is rigged." in second


def test_loops_say_from_where_until_what_and_how_often() -> None:
    said = read("loops")
    assert "Do this again until a ring of blows stands beside the last without a gap. Usually 8 times" in said
    assert "Again from step 1 until the wall gives nowhere under both thumbs (by touch) and depth of the bowl" in said
    assert "whichever comes last. Usually 5 to 6 times, at most 8." in said
    assert "because copper hardens under the hammer and then it tears." in said


def test_loops_for_each_spot_and_for_the_whole_lot() -> None:
    said = read("loops")
    assert "Do this again for each spot until the spot shines. How often at most is not told yet" in said
    assert "Do this again for the whole lot until no black is left on any bowl. At most 2 times." in said
    assert said.index("Again from step 2 for the whole lot until it rings") > said.index("Pickle the lot.")


def test_a_page_can_be_read_for_one_variant() -> None:
    article, said = sheet_of("variants").html, read("variants")
    assert article.count('<fieldset class="bl-reading">') == 2
    assert 'name="read-metal" value="spotted"> spotted<span class="bl-reading__of"> metal</span>' in article
    assert "The metal is decided at the start of Solder the pipe. The organ builder chooses it" in said
    assert '<li data-for-metal="spotted">' in article
    assert '<li id="close" style="counter-reset:step 1" data-for-seam="gapped">' in article  # the numbers stay
    assert '<tr data-for-metal="plain"><th scope="row">plain</th><td data-label="Wall">under 0.6' in article


def test_variants_in_words_for_those_who_read_everything() -> None:
    said = read("variants")
    assert "Only for the spotted metal: Blow on it at once." in said
    assert "Only for the plain metal or length of the pipe over 2 m: Two pairs of eyes." in said
    assert "Only for one who works beside: The teacher draws the first hand’s breadth." in said
    assert "Only for the spotted metal: Never dip it in water. It warps." in said
    assert "about 10 mm/s about 0.39 in/s for the spotted metal; about 8 mm/s" in said


def test_what_the_work_finds_decides_which_steps_follow() -> None:
    look = part("variants", "look")
    assert "What you find decides the seam" in look
    assert "gapped A thread of light stands in it. By eye. If not: Ask. Stop. Do not go on. step 2" in look
    assert "clean No light comes through. go on" in look


def test_acts_within_a_step_have_their_rhythm_and_all_that_a_step_may_have() -> None:
    expect(sheet_of("within-a-step"), "procedure-within-a-step")
    seam = read("within-a-step")
    assert "Heat of the iron from 320 to 260 °C" in seam
    assert "Speed from 12 to 8 mm/s" in seam
    assert "At the start; every 5 pieces Tin it anew." in seam
    assert "CAUTION Spitting flux. It spits into the eyes. Turn the face away." in seam
    assert "In short 2 steps, about 1 min As told at Tin the iron, in short: Rub the tip on the" in seam
    assert "In the last 3 s Lift the iron slowly. because lifted fast it leaves a point. Height of the point" in seam
    assert "In the first 10 s Hold the end down with the stick." in seam
    assert "During step 1 Let the other iron heat." in seam


def test_acts_that_run_through_the_whole_work_stand_before_the_steps() -> None:
    said = read("within-a-step")
    assert said.index("About every 20 min Look at the pilot flame.") < said.index("Run the iron down the seam.")


def test_settings_are_looked_up_computed_or_judged() -> None:
    said = read("settings")
    assert "Cutting speed 60 to 90 m/min 197 to 295 ft/min The same as cutting speed (Brass bar)." in said
    assert "1800 rev/min at bar 8 to 12 mm; 1200 rev/min at bar 12 to 20 mm; not told yet at bar 20 to 30 mm" in said
    assert "Taken off passes × depth of cut" in said
    assert "Only for bar 8 to 20 mm: Depth of cut about 0.5 mm" in said
    assert "Holds at depth of cut 0.5 mm" in said
    assert "It falls with depth of cut." in said
    assert "Last cut judged by the chip, it curls and does not break Good: long bright curls. Bad: dust." in said
    assert "Tool height lowest that does not rub Find it by lowering until it squeals." in said
    assert "Gap 80 % of depth of cut" in said


def test_how_long_tools_mixes_and_gauges_last_stands_where_they_are_laid_ready() -> None:
    said = read("wear")
    assert "Saw blade 4/0: Lasts until it wanders off the line or at most 3 h" in said
    assert "about 12 pieces, whichever comes first. Break it and bin it." in said
    assert "Spoon stake: Lasts until a nick shows in the bowl or a straight-edge shows light (by eye)" in said
    assert "Dial gauge: In date until 10 April 2026." in said
    assert "Pickle: Lasts until it has gone blue as a jay" in said
    assert "Shelf life 12 months. Shelf life after opening perhaps 3 months not sure" in said
    assert "At the start; after each new blade. If not: Put a new one in. Then look again." in said


def test_hands_who_does_what_who_leads_and_what_if_one_is_missing() -> None:
    said = read("hands")
    assert "Alone Oda Brekk and Ingo Halm Within call of one of them Runa Sund Beside one of them Till Voss" in said
    assert "Skill Forge welding, from 18 years of age" in said
    assert "Hands 2 to 3 at once. The smith (Forge welding): holds the tongs and taps where the blow must fall." in said
    assert "The smith leads. If one is missing: Lay the pieces back at the edge of the fire. Stop. Do not" in said
    assert "Keep away: anybody without an apron, visitors." in said
    assert "It is looked at by somebody else than the one who made it." in said
    assert "Left out if it is a show piece that will never hold a boat. Oda Brekk allows it. Write down" in said


def test_a_closer_look_that_ends_by_itself_is_one_sentence(tmp_path: Path) -> None:
    site = book_written(
        "=== procedures/spring/wind.yml\nprocedure: wind\ntitle: Wind it\nsteps:\n  - do: Wind it.\n    limits:\n"
        "      length:\n        is: 30 ±1 mm\n        check:\n          when: every 10 pieces\n"
        "          tighten: {after: 1 failed piece, when: each piece}\n"
        "          relax: {after: 10 clean pieces, when: full}\n",
        tmp_path)
    said = words_of(page(procedure_pages, site, "the-work/spring/wind.md").html)
    assert "Every 10 pieces. After one bad piece check every piece until 10 pass." in said


def test_inspection_tightens_relaxes_grades_writes_and_keeps() -> None:
    coil, load = part("inspection", "coil"), part("inspection", "load")
    assert "2 in the first 60 pieces; then 1 in every 60 pieces. At least 98 % of them must be good." in coil
    assert "After one bad piece check every piece. After one doubtful piece check 4 more than planned." in coil
    assert "After 20 clean pieces check 1/2 of the full plan. Never below one in a hundred." in coil
    assert "Write down the length and the time of day. Keep: The first spring of each coil of wire" in coil
    assert "(1 piece per lot). Where: the rack with the wire number. Until the wire is used up." in coil
    assert "Bad It has grown shorter. Bad One coil touches its neighbour." in load
    assert "3 of every 50 pieces. It is looked at by somebody else" in load
    assert "A Not a hair shorter. Loss of length at most 0.1 mm" in load
    assert "With Spring. Bend one until it breaks. Good The break is grey and silky." in load
    bag = part("inspection", "bag")
    assert "The first and the last by size of the bag. At least 100 % of them must be good." in bag


def test_what_is_written_down_and_kept_is_gathered_at_the_end() -> None:
    said = read("inspection")
    end = said[said.index("What is written down and kept") :]
    assert "Step 1 Free length: the length and the time of day The first spring of each coil of wire" in end
    assert "Step 2 A: a green dot; B: a yellow dot; who found it; his letter" in end


def test_hazards_stand_gravest_first_and_the_same_one_only_once() -> None:
    said = read("harm")
    first = said[said.index("First, stay whole") : said.index("Get ready")]
    words = re.findall(r"DANGER|WARNING|CAUTION|NOTICE|HAZARD", first)
    assert words == ["DANGER", "WARNING", "HAZARD"]
    assert "Also: slippery floor. In full: Pickling tank." in first  # a caution of the tank stands at its place
    assert first.count("Acid in the eyes.") == 1  # the tank and the acid both say it
    assert "With pickling tank and pickling acid." in first
    assert "Wear throughout Visor; acid gloves, elbow length" in first
    assert "Wear with pickling acid, ready mixed, and at step 1 Rubber apron" in first
    assert "Comes before this page: Pickling acid, ready mixed: Safety data sheet of the acid, May 2025" in said


def test_all_that_can_go_wrong_at_a_step_is_told_directly_before_it() -> None:
    step = part("harm", "lower")
    assert step.index("WARNING Splash.") < step.index("NOTICE") < step.index("Lower the basket with the hook.")
    assert step.index("Never reach into the bath.") < step.index("Lower the basket with the hook.")
    assert "Unnamed hazard" not in step
    assert "HAZARD Unnamed smell. How to avoid it is not told yet" in step
    top = read("harm")
    assert "Splash. It burns through cloth. Lower it slowly. See step 1." in top


def test_a_never_begins_with_the_word_and_gives_its_reason() -> None:
    said = read("harm")
    assert "Never leave the lid open. The fumes creep along the floor. The bath cools. Unless the fan runs" in said
    assert "Never whistle at the bath. Why is not told yet" in said
    assert "Never pour water into acid. It boils up and throws acid in your face. With Pickling tank." in said
    assert said.count("Never reach into the bath. Gloves have holes.") == 1


def test_reasons_hang_on_each_thing_in_the_margin() -> None:
    said = read("reasons")
    assert "Only after Plane the frame, because planed after gluing the plane tears the joint. Within a day." in said
    assert "Warm the wood at the stove. because cold wood freezes the glue before it is pressed." in said
    assert "because Oda brushed once before warming" in said  # a name keeps its capital
    assert "Tenon first. because it drinks more. and because it is the harder one to reach." in said
    assert "Humidity 40 to 60 % because the wood swells with it." in said
    assert "because no bead means a starved joint." in said
    assert "Because fresh glue does not hold on a skin." in said
    assert "because a third time the glue has gone." in said


def test_troubles_have_cause_remedy_and_a_way_back_or_none() -> None:
    said = read("troubles")
    ledger = said[said.index("When it goes wrong") :]
    assert "The skin is white and rough. The tin has burnt out. Why The metal was hot. Do Cool the pot." in ledger
    assert "A crack through the foot. Why Knocked out hot. Then Not recoverable" in ledger
    assert "A fold runs round the lip. (step 2) Why The metal was cold. Do Throw it back. Then Melt the" in ledger
    assert "It will not leave the mould. (step 2) Why not told yet Do Call Oda." in ledger
    assert ledger.count("Pinholes under the lip.") == 2  # two causes of one sign are two troubles


def test_the_two_sides_of_one_limit_may_lead_to_two_troubles() -> None:
    pour = part("troubles", "pour")
    assert "Below 260 °C Wait for the burner. Then do this step again. See “A fold runs round the lip”." in pour
    assert "Above 290 °C Put a cold bar in. Then do this step again. See “The skin is white and rough”." in pour
    assert "Goes wrong A fold runs round the lip; It will not leave the mould" in pour


def test_lots_set_up_warm_up_and_begin_again_after_a_pause() -> None:
    blind, fire = part("lots", "blind"), part("lots", "fire")
    assert "At the start; after each pause The whole lot before the next step" in blind
    assert "Loss 100 % scrapped" in blind
    assert "Do this again for the whole lot until the plate comes out bright to the rim. Usually 2 times" in blind
    assert "Standstill, counted from each good load to the start of this step: at most 30 min" in fire
    assert "Fire waste plates again. Then go back to step 2." in fire


def test_lots_use_a_mix_that_another_work_makes() -> None:
    said = words_of(page(procedure_pages, book_of("lots"), "the-work/shared/mill-slip.md").html)
    assert "Used in Fire the sign" in said
    assert "Makes Enamel slip" in said
    assert "Mill the slip In short 2 steps, 3 h for the whole lot Charge the mill. Run it." in read("lots")


def test_time_for_the_batch_of_the_first_order() -> None:
    """45 house signs take 2 signs each: 90 pieces. 60 + 90 × 4 + 8 loads × 20 = 580 min, at 8 h a day 1.2 days."""
    assert "Time for 90 About 9 h 40 min: one day for one pair of hands" in read("lots")


def test_yield_returns_and_what_is_kept() -> None:
    said = read("yield")
    assert "Loss 4 % scrapped, 6 % done again and 30 % of the metal goes back; counted over 500 pieces" in said
    assert "Loss 100 % scrapped and 100 % of the metal goes back. They warm the mould." in said
    assert "Loss 3 % scrapped; from memory" in said
    assert "One bell as cast (1 piece per lot). Where: the drawer of the year. Until at least 10 years" in said
    assert "Because a dull one that comes back is laid beside it." in said


def test_a_figure_begins_with_a_capital_even_where_its_name_does_not(tmp_path: Path) -> None:
    text = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  ring: {title: Ring, sizes: {width: 20 ±0.4 mm}}
  slot: {title: Slot, sizes: {width: 21 ±0.3 mm}}
=== procedures/ring/fit-ring.yml
procedure: fit-ring
title: Fit the ring
steps:
  - do: Drop it in.
    limits: {play: {is: 0.1..2 mm, sum: [slot/width, minus ring/width]}}
"""
    html = page(reckoning_pages, book_written(text, tmp_path), "the-work/ring/fit-ring-reckoning.md").html
    assert "“Play” comes to" in html.replace("\u00a0", " ")
