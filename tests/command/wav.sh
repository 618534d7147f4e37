#!/bin/sh
# SPDX-License-Identifier: ISC
# wav.sh BUILD - songs as WAV files: their headers by Python's wave module, their onsets by
# a detector of rises against the MIDI file as mido reads it, their sound against what the
# fluidsynth program makes of that file; and what happens where one can't be written.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

wav() {
	"$python" "$here/check_wav.py" "$@"
}

both() {
	name=$1
	shift
	render "$@" --out "$name.mid"
	render "$@" --out "$name.wav"
}

rates_and_bits_are_in_the_header() {
	for rate in 44100 48000 96000; do
		for bits in 16 24; do
			render --groove 3 --bars 1 --tempo 400 --rate $rate --bits $bits --out a.wav
			wav header a.wav $rate $bits || return
		done
	done
	render --groove 3 --bars 1 --out a.wav
	wav header a.wav 44100 16
}

# One foot in quarters, so far off the grid that blocks and frames never meet; each stroke
# has died away before the next.
loose_feet="--groove 3 --feet four-on-the-floor --bars 5 --tempo 61.7 --set right_hand=0 --set left_hand=0
	--set looseness=30"

onsets_are_within_half_a_block() {
	for rate in 44100 48000 96000; do
		# shellcheck disable=SC2086
		both feet $loose_feet --rate $rate
		wav onsets feet.wav feet.mid || return
	done
}

a_moved_onset_would_be_found() {
	# shellcheck disable=SC2086
	render $loose_feet --out feet.mid
	# shellcheck disable=SC2086
	render $loose_feet --set push_feet=3 --out feet.wav
	! wav onsets feet.wav feet.mid
}

# A program by others, with a player and a file renderer of its own, plays the MIDI file.
it_sounds_as_another_renderer_has_the_midi_file() {
	both song --groove "Lower Station" --bars 4 --groove "Winter Timetable" --bars 2
	fluidsynth -q -n -i -C 0 -g 0.5 -r 44100 -F other.wav -T wav -O s16 \
		"$system" song.mid >/dev/null 2>&1
	wav alike song.wav other.wav
}

other_drums_would_sound_otherwise() {
	render --groove "Lower Station" --bars 4 --set left_hand=0 --groove "Winter Timetable" \
		--bars 2 --set left_hand=0 --out song.wav
	! wav alike song.wav other.wav
}

the_peak_is_told_and_below_full_scale() {
	render --groove 1 --bars 4 --out a.wav
	wav peak a.wav "$(cat out.txt)" || return
	render --groove 131 --bars 4 --set level=127 --set accent=100 --out a.wav
	has "$(cat out.txt)" "softer, so that it fits" && wav peak a.wav "$(cat out.txt)"
}

# A velocity of half is softer by some decibels in every soundfont: SoundFont 2.04, 8.4.1,
# makes it 20 lg of the velocity's square, so 12 dB; a sample may add its own.
level_is_heard() {
	render --groove 3 --bars 2 --set touch=0 --set accent=0 --set level=100 --out loud.wav
	render --groove 3 --bars 2 --set touch=0 --set accent=0 --set level=50 --out soft.wav
	wav louder loud.wav soft.wav 6
}

# All limbs silent.  The loudest is the accent, half the way from the level to 127: by the
# same formula 4.3 dB louder at twice the level.
the_clicks_level_is_heard() {
	set -- --groove 3 --bars 1 --count-in 2 --click always --set right_hand=0 --set left_hand=0 \
		--set right_foot=0 --set left_foot=0
	render "$@" --set click_level=100 --out loud.wav
	render "$@" --set click_level=50 --out soft.wav
	wav louder loud.wav soft.wav 3
}

clicks_are_where_the_midi_file_has_them() {
	both click --groove 3 --bars 4 --tempo 61.7 --count-in 1 --click always --set right_hand=0 \
		--set left_hand=0 --set right_foot=0 --set left_foot=0
	wav onsets click.wav click.mid
}

# Level and click level are two things.
the_drums_are_as_loud_with_a_loud_click() {
	render --groove 3 --bars 2 --count-in 1 --click count-in --set click_level=20 --out a.wav
	render --groove 3 --bars 2 --count-in 1 --click off --out b.wav
	wav alike a.wav b.wav
}

the_last_cymbal_rings() {
	both end --groove "Lower Station" --bars 1 --turnaround none
	wav rings end.wav end.mid
}

the_same_song_is_the_same_file() {
	render --groove 140 --bars 4 --out a.wav
	render --groove 140 --bars 4 --out b.wav
	cmp a.wav b.wav
}

without_a_soundfont_it_says_what_to_install() {
	mkdir -p empty
	(
		export HOME="$work/empty" XDG_DATA_HOME="$work/empty" XDG_DATA_DIRS="$work/empty"
		run render --groove 1 --out none.wav
		same "$status" 2 && has "$err" "timgm6mb-soundfont" && has "$err" "--soundfont"
	) && [ ! -e none.wav ]
}

the_users_soundfont_comes_first() {
	mkdir -p data/soundfonts
	cp "$(realpath "$system")" data/soundfonts/mine.sf2
	(export XDG_DATA_HOME="$work/data"; render --groove 3 --bars 1 --out a.wav)
	has "$(cat out.txt)" "by $work/data/soundfonts/mine.sf2"
}

what_is_no_soundfont_is_told() {
	echo "no soundfont" >no.sf2
	run render --groove 1 --soundfont no.sf2 --out none.wav
	same "$status" 2 && has "$err" "no.sf2 is no soundfont" || return
	run render --groove 1 --soundfont nowhere.sf2 --out none.wav
	same "$status" 2 && has "$err" "nowhere.sf2" && [ ! -e none.wav ]
}

# nothing_left NAME: neither the file nor a part of it.
nothing_left() {
	same "$(ls "$1"* 2>/dev/null)" ""
}

a_full_disk_is_told_and_leaves_nothing() {
	(
		ulimit -f 200 # of 512 bytes
		run render --groove 1 --bars 8 --out full.wav
		same "$status" 2 && has "$err" "full.wav can't be written: File too large"
	) && nothing_left full
}

a_wav_that_is_there_stays() {
	echo mine >mine.wav
	run render --groove 3 --bars 1 --out mine.wav
	same "$status" 2 && has "$err" "--force" && same "$(cat mine.wav)" mine || return
	run render --groove 3 --bars 1 --out mine.wav --force
	same "$status" 0 && same "$(head -c 4 mine.wav)" RIFF
}

a_device_is_never_replaced() {
	ln -s /dev/full device.wav
	run render --groove 3 --bars 1 --out device.wav --force
	same "$status" 2 && has "$err" "no plain file" && [ -c device.wav ] && [ -L device.wav ]
}

an_interrupted_render_leaves_nothing() {
	"$fourlimb" render --groove 1 --bars 100 --rate 96000 --out long.wav >/dev/null 2>&1 &
	program=$!
	tries=0
	until ls long.wav.part-* >/dev/null 2>&1; do
		sleep 0.05
		tries=$((tries + 1))
		[ $tries -lt 200 ] || return
	done
	kill -TERM $program
	wait $program
	same "$?" 143 && nothing_left long # 128 and SIGTERM, POSIX 2.8.2
}

what_no_wav_holds_is_refused() {
	run render --groove 3 --bars 10000 --tempo 20 --rate 96000 --bits 24 --out huge.wav
	same "$status" 2 && has "$err" "render fewer bars" && nothing_left huge
}

need "$fourlimb" "$python" fluidsynth
render --groove 3 --bars 1 --out a.wav
system=$(sed -n 's/.*full scale.*, by //p' out.txt)
check "rates and bits are in the header" rates_and_bits_are_in_the_header
check "onsets are within half a block of the MIDI file's" onsets_are_within_half_a_block
check "an onset 3 ms away would be found" a_moved_onset_would_be_found
check "it sounds as another renderer has the MIDI file" it_sounds_as_another_renderer_has_the_midi_file
check "other drums would sound otherwise" other_drums_would_sound_otherwise
check "the peak is told and below full scale" the_peak_is_told_and_below_full_scale
check "level is heard" level_is_heard
check "the click's level is heard" the_clicks_level_is_heard
check "clicks are where the MIDI file has them" clicks_are_where_the_midi_file_has_them
check "the drums are as loud with a click as without" the_drums_are_as_loud_with_a_loud_click
check "the last cymbal rings" the_last_cymbal_rings
check "the same song is the same file" the_same_song_is_the_same_file
check "without a soundfont it says what to install" without_a_soundfont_it_says_what_to_install
check "the user's soundfont comes first" the_users_soundfont_comes_first
check "what is no soundfont is told" what_is_no_soundfont_is_told
check "a full disk is told and leaves nothing" a_full_disk_is_told_and_leaves_nothing
check "a WAV that is there stays" a_wav_that_is_there_stays
check "a device is never replaced" a_device_is_never_replaced
check "an interrupted render leaves nothing" an_interrupted_render_leaves_nothing
check "what no WAV holds is refused" what_no_wav_holds_is_refused
tally
