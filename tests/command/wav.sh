#!/bin/sh
# SPDX-License-Identifier: ISC
# wav.sh BUILD - songs as WAV files: their headers and peaks by Python's wave module, where
# the soundfont comes from, and what happens where a file can't be written.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

wav() {
	"$python" "$here/check_wav.py" "$@"
}

# nothing_left NAME: neither the file nor a part of it.
nothing_left() {
	same "$(ls "$1"* 2>/dev/null)" ""
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

the_peak_is_told_and_below_full_scale() {
	render --groove 1 --bars 4 --out a.wav
	wav peak a.wav "$(cat out.txt)" || return
	render --groove 238 --ride-on crash --bars 4 --set level=127 --set accent=100 \
		--set accent_feet=100 --out a.wav
	has "$(cat out.txt)" "softer, so that it fits" && wav peak a.wav "$(cat out.txt)"
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

a_soundfont_without_drums_is_passed_by() {
	rm data/soundfonts/mine.sf2
	echo "none" >data/soundfonts/default-GM.sf2
	(export XDG_DATA_HOME="$work/data"; render --groove 3 --bars 1 --out a.wav)
	has "$(cat out.txt)" "by $system"
}

what_is_no_soundfont_is_told() {
	echo "no soundfont" >no.sf2
	run render --groove 1 --soundfont no.sf2 --out none.wav
	same "$status" 2 && has "$err" "no.sf2 is no soundfont" || return
	run render --groove 1 --soundfont nowhere.sf2 --out none.wav
	same "$status" 2 && has "$err" "nowhere.sf2" && [ ! -e none.wav ]
}

a_full_disk_is_told_and_leaves_nothing() {
	(
		ulimit -f 200 # of 512 bytes
		run render --groove 1 --bars 8 --out full.wav
		same "$status" 2 && has "$err" "full.wav can't be written" && has "$err" "file size"
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

# The name has numbers in it that are looked up each time.
begun() {
	ls "$1".wav.part-*
}

an_interrupted_render_leaves_nothing() {
	# So many bars that it isn't through before it is interrupted.
	"$fourlimb" render --groove 1 --bars 400 --rate 96000 --out long.wav >/dev/null 2>&1 &
	program=$!
	awaits "the render has begun its file" begun long || return
	kill -TERM $program
	wait $program
	same "$?" 143 && nothing_left long # 128 and SIGTERM, POSIX 2.8.2
}

what_no_wav_holds_is_refused() {
	run render --groove 3 --bars 700 --tempo 20 --rate 96000 --bits 24 --out huge.wav
	same "$status" 2 && has "$err" "render fewer bars" && nothing_left huge
}

need "$fourlimb" "$python"
render --groove 3 --bars 1 --out a.wav
system=$(sed -n 's/.*full scale.*, by //p' out.txt)
check "rates and bits are in the header" rates_and_bits_are_in_the_header
check "the peak is told and below full scale" the_peak_is_told_and_below_full_scale
check "the same song is the same file" the_same_song_is_the_same_file
check "without a soundfont it says what to install" without_a_soundfont_it_says_what_to_install
check "the user's soundfont comes first" the_users_soundfont_comes_first
check "a soundfont without drums is passed by" a_soundfont_without_drums_is_passed_by
check "what is no soundfont is told" what_is_no_soundfont_is_told
check "a full disk is told and leaves nothing" a_full_disk_is_told_and_leaves_nothing
check "a WAV that is there stays" a_wav_that_is_there_stays
check "a device is never replaced" a_device_is_never_replaced
check "an interrupted render leaves nothing" an_interrupted_render_leaves_nothing
check "what no WAV holds is refused" what_no_wav_holds_is_refused
tally
