#!/bin/sh
# SPDX-License-Identifier: ISC
# sound.sh BUILD - what WAV files sound like: their onsets by a detector of rises against the
# MIDI file as mido reads it, and their sound against what the fluidsynth program makes of it.

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

# One foot in quarters, so far off the grid that blocks and frames never meet; each stroke
# has died away before the next, and all are as loud: a softer one is found later.
loose_feet="--groove 3 --feet four-on-the-floor --bars 5 --tempo 61.7 --set right_hand=0 --set left_hand=0
	--set looseness=30 --set touch=0 --set accent_feet=0"

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

clicks_are_where_the_midi_file_has_them() {
	both click --groove 3 --bars 4 --tempo 61.7 --count-in 1 --click always --set right_hand=0 \
		--set left_hand=0 --set right_foot=0 --set left_foot=0
	wav onsets click.wav click.mid
}

# A program by others, with a player and a file renderer of its own, plays the MIDI file.
it_sounds_as_another_renderer_has_the_midi_file() {
	both song --groove "Lower Station" --bars 4 --groove "Winter Timetable" --bars 2
	# Its sound drivers may look for a folder of PulseAudio's: here, not in the home.
	PULSE_RUNTIME_PATH=$work/pulse fluidsynth -q -n -i -C 0 -g 0.5 -r 44100 -F other.wav -T wav -O s16 \
		"$system" song.mid >/dev/null 2>&1
	wav alike song.wav other.wav
}

other_drums_would_sound_otherwise() {
	render --groove "Lower Station" --bars 4 --set left_hand=0 --groove "Winter Timetable" \
		--bars 2 --set left_hand=0 --out song.wav
	! wav alike song.wav other.wav
}

# A velocity of half is softer by some decibels in every soundfont: SoundFont 2.04, 8.4.1,
# makes it 20 lg of the velocity's square, so 12 dB; a sample may add its own.
level_is_heard() {
	render --groove 3 --bars 2 --set touch=0 --set accent=0 --set accent_feet=0 --set level=100 --out loud.wav
	render --groove 3 --bars 2 --set touch=0 --set accent=0 --set accent_feet=0 --set level=50 --out soft.wav
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

need "$fourlimb" "$python" fluidsynth
render --groove 3 --bars 1 --out a.wav
system=$(sed -n 's/.*full scale.*, by //p' out.txt)
check "onsets are within half a block of the MIDI file's" onsets_are_within_half_a_block
check "an onset 3 ms away would be found" a_moved_onset_would_be_found
check "clicks are where the MIDI file has them" clicks_are_where_the_midi_file_has_them
check "it sounds as another renderer has the MIDI file" it_sounds_as_another_renderer_has_the_midi_file
check "other drums would sound otherwise" other_drums_would_sound_otherwise
check "level is heard" level_is_heard
check "the click's level is heard" the_clicks_level_is_heard
check "the drums are as loud with a click as without" the_drums_are_as_loud_with_a_loud_click
check "the last cymbal rings" the_last_cymbal_rings
tally
