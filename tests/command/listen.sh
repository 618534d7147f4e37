#!/bin/sh
# SPDX-License-Identifier: ISC
# listen.sh BUILD - `fourlimb listen` beside pupils whose faults are known: pupil.py plays what
# `render` writes without feel, by mido, with the left foot on a key of its own, which it then
# brings onto the right foot's, so that only the written sticking tells the feet apart.
# Drummers' and untrained people's spreads: Groove MIDI Dataset (Gillick et al. 2019), Baath & Madison
# (ICMPC 2012); both are told beside one's own.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"
export XDG_DATA_HOME="$work/data"

# write FILE ARGUMENT...: as it is written, on the grid.
write() {
	file=$1
	shift
	render --out "$file" --set looseness=0 --set touch=0 --set liberty=0 "$@"
}

# pupil ARGUMENT...: of pupil.py, from written.mid into played.mid.
pupil() {
	"$python" "$here/pupil.py" written.mid played.mid "$@"
}

# row NAME: written, missed, extra, click, others, spread, drift, level, its spread.
row() {
	sed -n "s/^$1  *\\([0-9].*\\)/\\1/p" out.txt | tr -d , | tr -s ' '
}

# near WHAT GOT WANT MOST: numbers.
near() {
	awk -v got="$2" -v want="$3" -v most="$4" 'BEGIN { exit !(got != "" && got - want <= most && want - got <= most) }' && return
	printf '%s: got %s, want %s within %s\n' "$1" "$2" "$3" "$4"
	return 1
}

# heard NAME WRITTEN MISSED EXTRA OTHERS SPREAD: of a row; what a file's ticks and the
# table's decimals round, no more.
heard() {
	# shellcheck disable=SC2046
	set -- "$@" $(row "$1")
	same "$1: $7 $8 $9" "$1: $2 $3 $4" || return
	near "$1 beside the others" "${11}" "$5" 0.1 && near "$1's spread" "${12}" "$6" 0.1
}

# 16 bars of Lower Station have 80 strokes of the left foot: every ninth of them is 8.
a_weak_left_foot_is_told_limb_by_limb() {
	for tempo in 90 120 160 190; do
		write written.mid --groove "Lower Station" --bars 16 --tempo $tempo --set split_feet=1
		# shellcheck disable=SC2046
		set -- $(pupil 30 35 15 9 6 36)
		same "$1 $2" "80 8" && near "the pupil" "$3" 15 3 || return
		run listen played.mid --groove "Lower Station" --tempo $tempo
		same "$status $err" "0 " && heard "left foot" 80 8 0 "$3" "$4" && same "$(row "right foot" | cut -d' ' -f1-3)" "96 0 0" || return
		has "$out" "What stands out: left foot: 1" && has "$out" "ms behind the others, 8 of 80 dropped." || return
		near "click" "$(row "right hand" | cut -d' ' -f4)" 30 1.5 || return
	done
}

# By counting: the last eight bars weren't played, and nobody drifted.
what_was_not_played_is_dropped_and_no_drift() {
	write written.mid --groove "Lower Station" --bars 8 --tempo 120
	run listen written.mid --groove "Lower Station" --tempo 120 --bars 16
	for limb in "right hand" "left hand" "right foot" "left foot"; do
		# shellcheck disable=SC2046
		set -- $(row "$limb")
		same "$limb: $1 $2 $7" "$limb: $1 $(($1 / 2)) +0.0" || return
	done
}

phrases_that_are_not_clean_are_said_to_be() {
	write written.mid --groove "Lower Station" --bars 16 --tempo 120 --set split_feet=1
	pupil 0 35 15 9 6 36 >count.txt
	run listen played.mid --groove "Lower Station" --tempo 120
	has "$out" "phrase 1, bars 1 to 8: not clean: left foot (4 of 40 dropped)" &&
		has "$out" "phrase 2, bars 9 to 16: not clean: left foot (4 of 40 dropped)" && has "$out" "clean: 0 of 2"
}

# Within the published spread of drummers, 17 to 20 ms, a phrase is clean.
a_good_player_is_clean_and_nothing_stands_out() {
	write written.mid --groove "Lower Station" --bars 16 --tempo 120
	pupil 20 36 0 0 17 >count.txt
	run listen played.mid --groove "Lower Station" --tempo 120
	same "$status" 0 && has "$out" "clean: 2 of 2" && has "$out" "Nothing stands out." &&
		has "$out" "Drummers have 17 to 20" && has "$out" "untrained people 29"
}

# What is played as written has no fault: every groove of the bank, flams and drags with it.
every_groove_as_written_is_clean() {
	for id in $("$fourlimb" list grooves | sed -nE 's/^ +([0-9]+)  .*/\1/p'); do
		write written.mid --groove "$id" --bars 8
		run listen written.mid --groove "$id"
		same "$id: $status $(grep -c 'not clean' out.txt) $(grep -c 'Nothing stands out' out.txt)" "$id: 0 0 1" || return
	done
}

a_file_beside_a_file_is_told_drum_by_drum() {
	write written.mid --groove "Lower Station" --bars 8 --tempo 120
	# shellcheck disable=SC2046
	set -- $(pupil 0 36 12 7 5)
	run listen written.mid played.mid
	same "$status" 0 && has "$out" "A file names no limbs" || return
	heard kick "$1" "$2" 0 "$3" "$4"
}

a_count_in_is_passed_over() {
	write written.mid --groove "Lower Station" --bars 8 --tempo 120 --count-in 1
	run listen written.mid --groove "Lower Station" --tempo 120 --count-in 1
	same "$status" 0 && has "$out" ": 8 bars" && has "$out" "clean: 1 of 1"
}

another_tempo_is_told_with_what_to_check() {
	write written.mid --groove "Lower Station" --bars 16 --tempo 120
	for tempo in 100 110 130 180; do
		run listen written.mid --groove "Lower Station" --tempo $tempo
		same "$status" 0 && has "$out" "hardly what is written" && has "$out" "--tempo ($tempo here; the played file says 120)" || return
	done
}

# refused STATUS WORDS ARGUMENT...
refused() {
	want=$1
	words=$2
	shift 2
	run listen "$@"
	same "$status $out" "$want " && has "$err" "$words" && same "$(wc -l <err.txt)" 1
}

what_is_no_playing_is_refused() {
	: >empty.mid
	printf 'MThd\0\0\0\6\0\0\0\1\0\140MTrk\0\0\0\4\0\377\57\0' >silent.mid
	write whole.mid --groove 1 --bars 2
	head -c 60 whole.mid >broken.mid
	refused 2 "byte" empty.mid && refused 2 "byte" broken.mid && refused 2 "holds no notes" silent.mid &&
		refused 2 "nowhere.mid" nowhere.mid && refused 2 "byte" broken.mid whole.mid &&
		refused 1 "needs a MIDI file" && refused 1 "not both" whole.mid whole.mid --groove 1 &&
		refused 1 "one word too many" whole.mid whole.mid whole.mid
}

cautions_are_said() {
	write written.mid --groove 1 --bars 2
	run listen written.mid --groove 1
	has "$out" "can hurt" && has "$out" "licensed professional"
}

need "$fourlimb" "$python"
check "a weak left foot is told limb by limb" a_weak_left_foot_is_told_limb_by_limb
check "what wasn't played is dropped and no drift" what_was_not_played_is_dropped_and_no_drift
check "phrases that aren't clean are said to be" phrases_that_are_not_clean_are_said_to_be
check "a good player is clean and nothing stands out" a_good_player_is_clean_and_nothing_stands_out
check "every groove as written is clean" every_groove_as_written_is_clean
check "a file beside a file is told drum by drum" a_file_beside_a_file_is_told_drum_by_drum
check "a count-in is passed over" a_count_in_is_passed_over
check "another tempo is told with what to check" another_tempo_is_told_with_what_to_check
check "what is no playing is refused" what_is_no_playing_is_refused
check "cautions are said" cautions_are_said
tally
