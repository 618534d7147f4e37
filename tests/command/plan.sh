#!/bin/sh
# SPDX-License-Identifier: ISC
# plan.sh BUILD - what a practice set's plan says is what its files hold: across meters,
# presets, limbs and options, each set's plan and files read by another program.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

plan_of() {
	"$python" "$here/check_plan.py" "$@"
}

# makes ARGUMENT...: a short set, and its plan is true.
makes() {
	rm -rf set
	run practice --steps 2 --bars 6 --set split_feet=1 --out set "$@"
	same "$status" 0 || { echo "practice $*: $err"; return 1; }
	plan_of set || { echo "in the set of $*"; return 1; }
}

# One groove of each meter that the bank has.
meters() {
	awk -F'"' '/rdfs:label/ { label = $2 } /fl:beatsPerBar/ { split($0, a, " "); beats = a[2] }
		/fl:beatUnit/ { split($0, b, " "); if (!seen[beats "/" b[2]]++) print label }' "$presets/grooves.ttl"
}

plans_are_true_in_every_meter() {
	meters >meters.txt
	same "$(($(wc -l <meters.txt) >= 9))" 1 || return
	while read -r groove; do
		makes --groove "$groove" || return
		makes --groove "$groove" --set gap_rest=1 --set gap_play=3 --count-in 2 || return
	done <meters.txt
}

plans_are_true_of_every_practice_preset() {
	"$fourlimb" list --presets | sed -n '/^ Practice/,/^ [^ ]/s/^  \(.*[^ ]\)   *[A-Z].*/\1/p' | sed 's/  .*//' >names.txt
	same "$(($(wc -l <names.txt) >= 10))" 1 || return
	while read -r name; do
		makes --preset "$name" || return
	done <names.txt
}

plans_are_true_with_options() {
	makes --groove "Upper Station" --feet herta --set gap_rest=2 &&
		makes --groove "Upper Station" --meter 7/8 --feet gallop --set feet_cycle=5 --set click_grid=4 &&
		makes --groove "Brine Stair" --click count-in --set channel=3 &&
		makes --groove "Brine Stair" --click off --count-in 2 &&
		makes --groove "Brine Stair" --click off --count-in 0 &&
		makes --groove "Brine Stair" --set click_channel=5 --set click_grid=2 --set gap_play=5 --set gap_rest=5 &&
		makes --groove "Brine Stair" --set looseness=30 --set push_feet=-40 --set push_hands=30 &&
		makes --groove "Lower Station" --set phrase_bars=3 --turnaround none --set loop_bar=2
}

names() {
	ls set | grep mid | tr '\n' ' '
}

a_set_for_one_limb_is_of_that_limb() {
	makes --groove "Brine Stair" --from 100 --to 120 --set right_foot=0 --set right_hand=0 --set left_hand=0 || return
	same "$(names)" "00-075-warm-up.mid 01-100-left-foot.mid 02-120-left-foot.mid " || return
	same "$(midicsv set/02-120-left-foot.mid | grep -c 'Note_on_c, 9, 36,')" 0
}

what_is_silenced_stays_silent() {
	makes --groove "Brine Stair" --from 100 --to 120 --set right_foot=0 || return
	same "$(names)" "00-075-warm-up.mid 01-100-hands.mid 02-100-left-foot.mid 03-100-together.mid \
04-120-hands.mid 05-120-left-foot.mid 06-120-together.mid " || return
	same "$(midicsv set/06-120-together.mid | grep -c 'Note_on_c, 9, 36,')" 0
}

a_preset_for_feet_alone_is_of_feet_alone() {
	makes --preset "First Eighths" && same "$(names)" "00-060-warm-up.mid 01-080-feet.mid 02-140-feet.mid "
}

# The whole sentence of the groove speaks of its own feet.
other_feet_are_told_as_they_are() {
	makes --groove "Upper Station" --feet gallop || return
	plan=$(cat set/plan.md)
	comment=$(sed -n '/^feet:gallop$/,/comment/s/.*rdfs:comment "\(.*\)" ;/\1/p' "$presets/feet.ttl")
	own=$(sed -n '/^groove:upper-station$/,/comment/s/.*rdfs:comment "\(.*\)" ;/\1/p' "$presets/grooves.ttl")
	[ -n "$comment" ] && [ -n "$own" ] && has "$plan" "$comment" && has "$plan" "with Gallop" &&
		! has "$plan" "$own" >/dev/null || return
	for command in show chart; do
		run $command --groove "Upper Station" --feet gallop $([ $command = chart ] && echo --out chart.svg)
		same "$status" 0 && ! has "$out$(cat chart.svg 2>/dev/null)" "$own" >/dev/null || return
	done
	makes --groove "Upper Station" && has "$(cat set/plan.md)" "$own"
}

# The lowest of what both were written for: sixteenths from the bank.
a_tempo_beyond_the_feet_is_told() {
	high=$(sed -n '/^feet:sixteenths$/,/tempoHigh/s/.*fl:tempoHigh \([0-9]*\) ;/\1/p' "$presets/feet.ttl")
	makes --groove "Upper Station" --feet sixteenths --to 400 --set right_hand=0 --set left_hand=0 &&
		has "$(cat set/plan.md)" "beyond the $high that"
}

the_looseness_is_stated_and_zero_is_an_option_away() {
	makes --groove "Upper Station" --from 90 --to 120 && plan_of --stray set &&
		has "$(cat set/plan.md)" "looseness=0" || return
	makes --groove "Upper Station" --from 90 --to 120 --set looseness=3 && plan_of --stray set || return
	makes --groove "Upper Station" --from 90 --to 120 --set looseness=0 && plan_of --stray set &&
		has "$(cat set/plan.md)" "don't stray"
}

what_a_set_cannot_be_is_said() {
	rm -rf set
	for setting in clock=1 tempo=90 practice_rate=2 ladder_step=4; do
		run practice --groove 1 --set $setting --out set
		same "$status" 1 && has "$err" "--set ${setting%=*}" && has "$err" "--from" || return
	done
	run practice --groove "Upper Station" --set right_foot=0 --set right_hand=0 --set left_hand=0 --out set
	same "$status" 1 && has "$err" "no stroke of the left foot" || return
	run practice --groove 1 --set right_foot=0 --set left_foot=0 --set right_hand=0 --set left_hand=0 --click off --out set
	same "$status" 1 && has "$err" "every limb is silenced" && [ ! -e set ]
}

# As many settings as there are controls, and some twice: the last of each holds.
no_setting_is_lost_among_many() {
	set --
	for take in $(seq 1 70); do
		set -- "$@" --set take="$take"
	done
	makes --groove "Brine Stair" "$@" --set right_foot=0 && same "$(ls set | grep -c left-foot)" 2
}

a_lie_would_be_found() {
	makes --groove "Brine Stair" || return
	for lie in 's/4 clicks a bar/4 clicks a bar: 2 bars with, 2 without/' 's/hands alone/hands and feet together/' \
		's/| 6 |/| 8 |/' 's/feet alone/left foot alone/' 's/1 bar counted in, then/1 bar of rest, then/' 's/^4\/4/3\/4/'; do
		rm -rf lies && cp -r set lies && sed -i "$lie" lies/plan.md
		! plan_of lies >/dev/null 2>&1 || { echo "not found: $lie"; return 1; }
	done
}

need "$fourlimb" "$python" midicsv
check "plans are true in every meter" plans_are_true_in_every_meter
check "plans are true of every practice preset" plans_are_true_of_every_practice_preset
check "plans are true with options" plans_are_true_with_options
check "a set for one limb is of that limb" a_set_for_one_limb_is_of_that_limb
check "what is silenced stays silent" what_is_silenced_stays_silent
check "a preset for feet alone is of feet alone" a_preset_for_feet_alone_is_of_feet_alone
check "other feet are told as they are" other_feet_are_told_as_they_are
check "a tempo beyond the feet is told" a_tempo_beyond_the_feet_is_told
check "the looseness is stated and zero is an option away" the_looseness_is_stated_and_zero_is_an_option_away
check "what a set cannot be is said" what_a_set_cannot_be_is_said
check "no setting is lost among many" no_setting_is_lost_among_many
check "a lie would be found" a_lie_would_be_found
tally
