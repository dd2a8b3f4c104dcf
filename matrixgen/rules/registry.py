"""Every rule there is, in the order in which they run: one visible list."""

from __future__ import annotations

from matrixgen.model import Problem
from matrixgen.rules.boot_loader import (
    boot_loader_by_one_key,
    boot_loader_by_reset_only,
    boot_loader_key_with_two_meanings,
    boot_loader_one_press_away,
    controller_without_boot_loader,
    controller_without_double_reset,
    duplicate_boot_loader_key,
)
from matrixgen.rules.context import Context, MountedContext, Rule
from matrixgen.rules.diodes import (
    diode_against_scan,
    diodes_not_stated,
    duplicate_diode_exception,
)
from matrixgen.rules.electric import (
    diode_that_breaks_down,
    diode_that_leaks,
    ghost_possible,
    keymap_ghosts,
    low_level_not_guaranteed,
    scan_too_slow,
    settle_too_short,
    too_much_current,
)
from matrixgen.rules.knobs import action_unfit_for_knob, knob_without_action
from matrixgen.rules.layers import (
    action_without_key,
    base_without_way_back,
    hold_key_redefined,
    latch_without_way_back,
    layer_without_cells,
    minus_in_picture,
    unlatch_without_latch,
    unreachable_layer,
    usage_that_computers_ignore,
)
from matrixgen.rules.lights import (
    light_never_lit,
    light_too_dim,
    too_much_current_for_lights,
)
from matrixgen.rules.meanings import (
    presses_alike,
    with_modifier_of_no_key,
    with_without_effect,
)
from matrixgen.rules.pins import (
    more_wires_than_pins,
    pin_held_low,
    pin_not_on_controller,
    pin_used_twice,
    pin_with_second_function,
    pin_without_output,
    pin_without_pull_up,
    reserved_pin,
)
from matrixgen.rules.plate import (
    controller_over_hole,
    controller_over_key,
    hole_under_key,
    keep_clear_over_key,
    keys_overlap,
    part_over_switch,
    screw_head_on_housing,
    stabiliser_none_without_effect,
    thin_web,
)
from matrixgen.rules.settings import (
    allow_by_old_name,
    allow_without_effect,
    clock_above_supply,
    controller_that_forgets,
    impractical_debounce,
    impractical_settle,
    setting_for_no_key,
)
from matrixgen.rules.taps import (
    other_hand_in_the_middle,
    tap_and_hold_alike,
    tap_without_effect,
)
from matrixgen.rules.texts import (
    plate_of_another_layout,
    readable_password,
    typing_takes_too_long,
)
from matrixgen.rules.together import (
    late_together,
    together_out_of_reach,
    together_while_typing,
    together_without_effect,
)
from matrixgen.rules.unfinished import (
    key_without_layer,
    keyboard_without_controller,
    keyboard_without_name,
    keyboard_without_wiring,
    part_without_pin,
    wire_without_pin,
    wiring_without_wires,
)
from matrixgen.rules.unfinished.open_point import OpenRule
from matrixgen.rules.wiring import (
    duplicate_visit,
    key_on_no_column,
    key_on_no_row,
    key_on_two_columns,
    key_on_two_rows,
    two_keys_at_one_crossing,
    wire_without_keys,
    wire_without_route,
)

RULES: tuple[Rule[Context], ...] = (
    impractical_debounce,
    impractical_settle,
    setting_for_no_key,
    allow_by_old_name,
    keys_overlap,
    hole_under_key,
    screw_head_on_housing,
    keep_clear_over_key,
    stabiliser_none_without_effect,
    part_over_switch,
    thin_web,
    key_on_no_column,
    key_on_no_row,
    key_on_two_columns,
    key_on_two_rows,
    duplicate_visit,
    wire_without_keys,
    two_keys_at_one_crossing,
    wire_without_route,
    diode_against_scan,
    duplicate_diode_exception,
    diodes_not_stated,
    keymap_ghosts,
    ghost_possible,
    hold_key_redefined,
    latch_without_way_back,
    base_without_way_back,
    unlatch_without_latch,
    layer_without_cells,
    minus_in_picture,
    unreachable_layer,
    light_never_lit,
    usage_that_computers_ignore,
    action_without_key,
    tap_without_effect,
    tap_and_hold_alike,
    other_hand_in_the_middle,
    presses_alike,
    with_without_effect,
    with_modifier_of_no_key,
    action_unfit_for_knob,
    knob_without_action,
    together_while_typing,
    late_together,
    together_out_of_reach,
    together_without_effect,
    plate_of_another_layout,
    readable_password,
    typing_takes_too_long,
    boot_loader_by_one_key,
    duplicate_boot_loader_key,
    boot_loader_key_with_two_meanings,
    boot_loader_one_press_away,
)
"""The rules on the keyboard itself."""

MOUNTED_RULES: tuple[Rule[MountedContext], ...] = (
    more_wires_than_pins,
    pin_held_low,
    pin_not_on_controller,
    pin_used_twice,
    pin_with_second_function,
    pin_without_output,
    pin_without_pull_up,
    reserved_pin,
    controller_without_boot_loader,
    controller_without_double_reset,
    controller_that_forgets,
    clock_above_supply,
    boot_loader_by_reset_only,
    diode_that_breaks_down,
    diode_that_leaks,
    low_level_not_guaranteed,
    settle_too_short,
    scan_too_slow,
    too_much_current,
    too_much_current_for_lights,
    light_too_dim,
    controller_over_hole,
    controller_over_key,
)
"""The rules on the keyboard on each of the file's controllers."""

OPEN_RULES: tuple[OpenRule, ...] = (
    keyboard_without_name,
    keyboard_without_controller,
    keyboard_without_wiring,
    wiring_without_wires,
    wire_without_pin,
    part_without_pin,
    key_without_layer,
)
"""The rules on what a file may leave open, in the order in which it is reported."""

PROBLEMS: tuple[Problem, ...] = (
    *(rule.PROBLEM for rule in RULES),
    *(rule.PROBLEM for rule in MOUNTED_RULES),
    *(rule.PROBLEM for rule in OPEN_RULES),
    allow_without_effect.PROBLEM,
)
"""What the rules can find, for `explain` and for the list of rules in a SARIF report."""
