#!/bin/sh
# SPDX-License-Identifier: ISC
# list.sh BUILD - `fourlimb list` as somebody looks for something: words, grid, limit, tempo, meter.
# Strokes a second by arithmetic: sixteenths at 180 are twelve, six of each foot; limits as published.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
export XDG_DATA_HOME="$work/data"

# found: the names of the list, in its order.
found() {
	echo "$out" | sed -nE 's/^ +[0-9]+  (.{34}).*/\1/p' | sed 's/ *$//'
}

# looks ARGUMENT...: lists that, without a word on standard error.
looks() {
	run list "$@"
	same "$status $err" "0 "
}

the_best_comes_first_under_what_it_was_found_by() {
	looks feet gallop && same "$(found | head -n 2 | xargs)" "Gallop Reverse gallop" || return
	echo "$out" | grep -E '^ [a-z]' >headings.txt
	same "$(sed 's/ ([0-9]*)$//' headings.txt | xargs)" "the name in the name begins a word of the name" || return
	looks feet shuffle && has "$(echo "$out" | grep -E '^ [a-z]' | tail -n 1)" "on the grid"
}

# Options, words of a wish and one quoted word are one reader's.
options_and_words_ask_for_the_same() {
	looks feet --grid triplets --limit 5 --tempo 150 doubles || return
	mv out.txt options.txt
	[ "$(grep -c '^  *[0-9]' options.txt)" -gt 2 ] || { cat options.txt; return 1; }
	for words in "on triplets limit 5 at 150 doubles" "doubles at 150 under 6 on triplets"; do
		# shellcheck disable=SC2086
		looks feet $words && diff options.txt out.txt && looks feet "$words" && diff options.txt out.txt || return
	done
	looks feet --meter 7/8 && mv out.txt options.txt && looks feet in 7/8 && diff options.txt out.txt
}

rates_and_who_can_play_it_are_told_at_the_tempo() {
	looks feet sixteenths at 180 && has "$out" "right  left     at  for 4 minutes" || return
	same "$(echo "$out" | sed -nE 's/^ +50  Sixteenths .*1 quarter +//p')" "6     6    180  playable" || return
	looks hands at 240 "plain hats" || looks hands at 240 hats || return
	has "$out" "right  left     at" || return
	looks feet sixteenths at 300
	has "$(echo "$out" | grep -E '^ +50  ')" "10    10    300  too fast" || return
	looks feet sixteenths at 180 --minutes 30
	has "$out" "for 30 minutes"
}

# What one foot has more of a second isn't found, and all else is.
a_limit_keeps_out_what_is_faster() {
	looks feet at 180 && echo "$out" | sed -nE 's/^ +([0-9]+)  .* ([0-9]+) +([0-9]+) +180  .*/\1 \2 \3/p' |
		awk '$2 <= 5 && $3 <= 5 { print $1 }' | sort -n >want.txt
	looks feet --limit 5 --tempo 180 && echo "$out" | sed -nE 's/^ +([0-9]+)  .{34}  [1-5] .*/\1/p' | sort -n >got.txt
	[ "$(wc -l <want.txt)" -gt 50 ] && diff want.txt got.txt
}

what_is_written_for_the_tempo_comes_first() {
	looks feet at 250 || return
	echo "$out" | sed -nE 's/^ +[0-9]+  .{34}  [1-5]  .{9}  +([0-9]+)-([0-9]+) .*/\1 \2/p' |
		awk '{ inside = $1 <= 250 && $2 >= 250; if (inside && outside) exit 1; outside = outside || !inside }
			END { if (!outside || NR < 100) exit 1 }' ||
		{ echo "one for 250 comes after one for another tempo"; return 1; }
}

nothing_found_says_what_to_leave_out() {
	looks feet gallop under 2 at 200 && has "$out" "0 of" &&
		has "$out" "nothing: without gallop 1, without at most 1 a second 1" || return
	looks feet canter && has "$out" "nothing of" || return
	looks groves && has "$out" "there are lists of grooves"
}

# Among all lists, where the first word is none.
a_word_that_is_no_list_is_looked_for_in_all() {
	looks gallop || return
	for kind in "hands figures" "feet figures" turnarounds grooves "kit maps"; do
		has "$out" " $kind: gallop" || return
	done
	has "$(found | xargs)" "Gallop Reverse gallop"
}

need "$fourlimb"
check "the best comes first, under what it was found by" the_best_comes_first_under_what_it_was_found_by
check "options and words ask for the same" options_and_words_ask_for_the_same
check "rates and who can play it are told at the tempo" rates_and_who_can_play_it_are_told_at_the_tempo
check "a limit keeps out what is faster" a_limit_keeps_out_what_is_faster
check "what is written for the tempo comes first" what_is_written_for_the_tempo_comes_first
check "nothing found says what to leave out" nothing_found_says_what_to_leave_out
check "a word that is no list is looked for in all" a_word_that_is_no_list_is_looked_for_in_all
tally
