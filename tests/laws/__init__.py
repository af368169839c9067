"""Laws of rules.md over generated studios: each sentence, and the tests that hold it.

*Improves*: a kinder level or `food_ware`, a lower class, a smaller margin, of any layering or glaze (`improvements`).

| sentence of rules.md | tests |
|---|---|
| a pair is never kinder than either of its layers by F1, F5, the upper half of F6 and the studio's cone in F7 | test_a_pair_is_never_kinder_than_either_of_its_layers |
| nor of a lower class than either | test_a_pair_is_never_of_a_lower_class_than_either_of_its_layers |
| a further tile with a fault never improves | test_a_further_tile_with_a_fault_never_improves |
| a further tile with a longer run never improves | test_a_further_tile_with_a_run_of_the_runniest_class_never_improves, test_a_tile_beside_one_that_ran_less_never_improves |
| a good word turned into not known never does: `yes` | test_yes_turned_into_not_known_never_improves |
| `none` | test_no_faults_turned_into_not_looked_over_never_improves |
| `0 mm` | test_no_run_turned_into_not_measured_never_improves |
| `stable` | test_stable_turned_into_not_known_never_improves |
| a label's coats, and its cones | test_label_coats_turned_into_not_known_never_improve, test_label_cones_turned_into_not_known_never_improve |
| a matching lot | test_a_matching_lot_turned_into_not_known_never_improves_nor_makes_evidence_stronger |
| a lab report's good word | test_a_reports_good_word_turned_into_not_known_never_improves |
| a stricter house rule never does | test_a_stricter_house_rule_never_improves, test_no_place_is_added_where_doubtful_glazes_are_kept_off_food_ware |
| the order of files changes nothing | test_the_order_in_which_things_were_written_changes_nothing |
| an unrelated entry and an unrelated tile change nothing | test_an_unrelated_entry_and_an_unrelated_tile_change_nothing, test_a_pair_judged_alone_is_judged_as_in_the_whole_book |
| an entry can make a verdict stricter, never kinder | test_an_entry_that_keeps_its_layering_off_food_never_improves_whatever_a_report_says |
| F3: a lab report that exceeds, whatever its coats, clay or cone; of several, one that exceeds decides | test_a_further_report_that_exceeds_never_improves_and_keeps_its_layers_off_food |
| F9: on exactly this surface, for every clay, and nothing above applies | test_a_lab_report_is_the_verdict_only_where_every_clay_has_its_own_and_none_exceeds |
| a report says nothing kind of another order, coats, clay or cone | test_a_report_that_does_not_match_exactly_never_lifts, test_a_further_report_touches_nothing_but_the_food_of_its_own_layers_in_their_order |
| each regime's rows, units and bases | test_two_readings_of_each_regime_agree_on_every_report, test_a_higher_reading_never_improves_a_report |
| within needs both metals in the row's unit and, for the FDA, six pieces | test_within_needs_both_metals_in_the_rows_unit_a_published_limit_and_for_the_fda_six_pieces |
| mg/L and mg/dm2 are never compared | test_a_reading_in_the_other_unit_is_held_against_nothing |
| a limit from memory can exceed but never gives F9 | test_a_report_against_a_limit_from_memory_never_lifts |
| all reasons that apply, worst first, then by number, then by place, once | test_reasons_are_listed_worst_first_then_by_rule_then_by_place_and_once |
| everything else, once more | test_two_readings_of_the_rules_agree |
"""
