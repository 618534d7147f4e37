#!/bin/sh
# SPDX-License-Identifier: ISC
# practice.sh BUILD - a set to practise by: the folder's files as mido reads them, and the
# plan against them and against the published noise limits in tests/data.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

set_of() {
	"$python" "$here/check_practice.py" "$@"
}

a_set_has_a_plan_a_chart_and_sorted_files() {
	run practice --groove "Upper Station" --from 70 --to 101 --out set
	same "$status" 0 || return
	same "$(ls set | tr '\n' ' ')" "00-053-warm-up.mid 01-070-hands.mid 02-070-right-foot.mid 03-070-together.mid \
04-080-hands.mid 05-080-right-foot.mid 06-080-together.mid 07-091-hands.mid 08-091-right-foot.mid 09-091-together.mid \
10-101-hands.mid 11-101-right-foot.mid 12-101-together.mid chart.pdf plan.md " || return
	same "$(head -c 5 set/chart.pdf)" "%PDF-"
}

the_noise_table_is_the_published_one() {
	set_of noise set "$here/../data/niosh-98-126.tsv"
}

a_wrong_noise_table_would_be_found() {
	mkdir -p wrong && sed 's/| 94 dBA | 60 min/| 94 dBA | 90 min/' set/plan.md >wrong/plan.md
	! set_of noise wrong "$here/../data/niosh-98-126.tsv"
}

the_total_is_files_and_breaks() {
	set_of total set
}

a_wrong_total_would_be_found() {
	rm -rf longer && cp -r set longer && cp set/12-101-together.mid longer/00-053-warm-up.mid
	! set_of total longer
}

each_file_has_its_limbs_alone() {
	set_of limbs set
}

limbs_too_many_would_be_found() {
	rm -rf mixed && cp -r set mixed && cp set/03-070-together.mid mixed/02-070-right-foot.mid
	! set_of limbs mixed
}

tempi_are_a_ladder() {
	set_of tempi set 70 101 4 || return
	run practice --groove 3 --from 60 --to 66 --steps 3 --bars 2 --out short
	same "$status" 0 && set_of tempi short 60 66 3
}

a_count_in_comes_first_and_the_click_goes_on() {
	set_of click set
}

without_a_click_there_is_none() {
	run practice --groove 3 --bars 2 --steps 1 --click off --count-in 0 --out quiet
	same "$status" 0 && has "$(cat quiet/plan.md)" "no click" || return
	same "$(midicsv "$(ls quiet/*-together.mid)" | grep -cE 'Note_on_c, 9, 3[34],')" 0
}

cautions_name_their_sources_and_defer() {
	plan=$(cat set/plan.md)
	has "$plan" "Stop at pain" && has "$plan" "98-126" && has "$plan" "Azar 2020" &&
		has "$plan" "NASM and PAMA" && has "$plan" "Local rules" && has "$plan" "physiotherapist"
}

wav_files_are_as_long_as_the_plan_says() {
	run practice --groove 3 --from 100 --to 140 --steps 1 --bars 2 --wav --out sound
	same "$status" 0 || return
	"$python" - sound <<'END'
import pathlib, sys, wave
folder = pathlib.Path(sys.argv[1])
lines = [line.split("|") for line in (folder / "plan.md").read_text().splitlines() if ".wav" in line]
for row in lines:
    with wave.open(str(folder / row[1].strip())) as file:
        length = file.getnframes() / file.getframerate()
    minutes, seconds = row[5].split(":")
    print(row[1], row[5], length)
    assert length <= 60 * int(minutes) + int(seconds) < length + 1
assert len(lines) == 4
END
}

a_folder_with_something_in_it_stays() {
	mkdir -p kept && echo mine >kept/00-053-warm-up.mid
	run practice --groove "Upper Station" --from 70 --to 101 --out kept
	same "$status" 2 && has "$err" "--force" || return
	same "$(ls kept)" 00-053-warm-up.mid && same "$(cat kept/00-053-warm-up.mid)" mine || return
	run practice --groove "Upper Station" --from 70 --to 101 --bars 2 --out kept --force
	same "$status" 0 && same "$(head -c 4 kept/00-053-warm-up.mid)" MThd
}

an_empty_folder_will_do() {
	mkdir -p empty
	run practice --groove 3 --bars 1 --steps 1 --out empty
	same "$status" 0 && [ -e empty/plan.md ]
}

# refuses STATUS WORD ARGUMENT...
refuses() {
	want=$1
	word=$2
	shift 2
	run practice --out refused "$@"
	same "$status" "$want" && has "$err" "$word" && [ ! -e refused ]
}

wrong_ladders_are_refused() {
	refuses 1 "--from" --groove 1 --from 200 --to 100 || return
	refuses 1 "--steps" --groove 1 --from 100 --to 102 --steps 4 || return
	refuses 1 "--steps" --groove 1 --steps 13 || return
	refuses 1 "20 to 400" --groove 1 --to 500 || return
	refuses 1 "--from and --to" --groove 1 --tempo 100 || return
	refuses 1 "Nowhere" --groove Nowhere || return
	refuses 1 "volume" --groove 1 --set volume=1 || return
	run render --groove 1 --from 100 --out refused
	same "$status" 1 && has "$err" "practice"
}

without_a_soundfont_no_folder_is_made() {
	(
		export HOME="$work/none" XDG_DATA_HOME="$work/none" XDG_DATA_DIRS="$work/none"
		run practice --groove 3 --wav --out unheard
		same "$status" 2 && has "$err" "timgm6mb-soundfont"
	) && [ ! -e unheard ]
}

a_preset_at_half_speed_is_at_the_tempo_that_files_say() {
	run practice --preset "Blast at Half Speed" --from 170 --to 170 --steps 1 --bars 2 --out blast
	same "$status" 0 && set_of click blast || return
	# Seven strokes of the ride a bar or more at full speed; two bars.
	same "$(($(midicsv blast/03-170-together.mid | grep -c 'Note_on_c, 9, 51,') >= 14))" 1
}

a_folder_in_none_is_told() {
	run practice --groove 1 --out nowhere/set
	same "$status" 2 && has "$err" "nowhere/set can't be made"
}

need "$fourlimb" "$python" midicsv
check "a set has a plan, a chart and sorted files" a_set_has_a_plan_a_chart_and_sorted_files
check "the noise table is the published one" the_noise_table_is_the_published_one
check "a wrong noise table would be found" a_wrong_noise_table_would_be_found
check "the total is files and breaks" the_total_is_files_and_breaks
check "a wrong total would be found" a_wrong_total_would_be_found
check "each file has its limbs alone" each_file_has_its_limbs_alone
check "limbs too many would be found" limbs_too_many_would_be_found
check "tempi are a ladder" tempi_are_a_ladder
check "a count-in comes first and the click goes on" a_count_in_comes_first_and_the_click_goes_on
check "without a click there is none" without_a_click_there_is_none
check "cautions name their sources and defer" cautions_name_their_sources_and_defer
check "WAV files are as long as the plan says" wav_files_are_as_long_as_the_plan_says
check "a folder with something in it stays" a_folder_with_something_in_it_stays
check "an empty folder will do" an_empty_folder_will_do
check "wrong ladders are refused" wrong_ladders_are_refused
check "without a soundfont no folder is made" without_a_soundfont_no_folder_is_made
check "a preset at half speed is at the tempo that files say" a_preset_at_half_speed_is_at_the_tempo_that_files_say
check "a folder in none is told" a_folder_in_none_is_told
tally
