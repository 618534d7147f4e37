#!/bin/sh
# SPDX-License-Identifier: ISC
# options.sh BUILD - the table of options as people meet it: what `COMMAND --help` lists is
# taken, what it doesn't list is refused, and README, manual page and completion list the same.

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

page=$build/man/man1/fourlimb.1
completion=$build/bash-completion/completions/fourlimb

commands() {
	"$fourlimb" --help | sed -nE '/^Options/q; s/^  fourlimb ([a-z]+).*/\1/p'
}

# options COMMAND: without dashes, as its help lists them.
options() {
	"$fourlimb" "$1" --help | sed -nE 's/^  --([a-z-]+).*/\1/p'
}

# value COMMAND OPTION: one that makes sense, from README; nothing for an option that has none.
value() {
	case $1:$2 in
	*:groove) echo "Fog Bell" ;;
	*:preset) echo "Blank Sheet in Seven" ;;
	*:hands) echo quarter-hats ;;
	*:feet) echo gallop ;;
	*:ride-on) echo floor-tom ;;
	*:turnaround) echo none ;;
	*:kit | *:bars | *:steps | *:count-in) echo 1 ;;
	*:tempo | *:from) echo 90 ;;
	*:to) echo 400 ;;
	*:meter) echo 7/8 ;;
	*:family) echo rock ;;
	*:grid) echo 16ths ;;
	*:limit) echo 7 ;;
	*:click) echo off ;;
	*:set) echo feet_cycle=5 ;;
	*:minutes) echo 1 ;;
	*:variation) echo "As Gallops" ;;
	*:lighten) echo 5 ;;
	*:save) echo Lighter ;;
	*:title | *:new) echo "A title" ;;
	*:sections) echo "verse 1, chorus 2 7/8 x2" ;;
	*:rate) echo 48000 ;;
	*:bits) echo 24 ;;
	render:out | song:out) echo other.mid ;;
	chart:out) echo other.svg ;;
	chart:notation) echo other.musicxml ;;
	practice:out) echo other ;;
	keep:out) echo . ;;
	*:soundfont) echo "$soundfont" ;;
	*:bundle) echo "$build/lv2/fourlimb.lv2" ;;
	*:force | *:left-handed | *:wav | *:midi | *:presets | *:kits | *:help) ;;
	*) echo "give --$2 of $1 a value to try" ;;
	esac
}

# try COMMAND ARGUMENT...: with the least that the command needs besides.
try() {
	command=$1
	shift
	case $command in
	render) set -- --bars 1 --out "out.$kind" --force "$@" ;;
	chart) set -- --out out.pdf --force "$@" ;;
	song)
		case $1 in
		--new | --groove | --sections) set -- --new A --sections "verse 1" "$@" ;;
		*) set -- plan.ttl --out "out.$kind" --force "$@" ;;
		esac
		;;
	listen) set -- whole.mid "$@" ;;
	practice) set -- --bars 1 --steps 1 --out set --force "$@" ;;
	check)
		case $1 in
		--bundle) set -- mine.ttl "$@" ;;
		--save) set -- --lighten 5 "$@" ;;
		esac
		;;
	esac
	run "$command" "$@"
}

# try_option COMMAND OPTION
try_option() {
	value=$(value "$1" "$2")
	try "$1" "--$2" ${value:+"$value"}
}

what_is_listed_is_taken() {
	for option in $(options "$1"); do
		try_option "$1" "$option"
		same "$option: $status $err" "$option: 0 " || return
	done
}

# Another command's, and nobody's.
what_is_not_listed_is_refused() {
	for other in $(commands); do
		options "$other"
	done | sort -u >all.txt
	echo frobnicate >>all.txt
	options "$1" >own.txt
	grep -vxFf own.txt all.txt >others.txt
	while read -r option; do
		grep -q "^$option" own.txt && continue # short for another, as getopt_long() has it
		try_option "$1" "$option"
		same "$option: $status $(wc -l <err.txt)" "$option: 1 1" && has "$err" "--$option" && has "$err" "--" || return
	done <others.txt
}

# refuses WORDS ARGUMENT...: each of these commands, with the same words.
refuses() {
	words=$1
	shift
	for command in render show chart; do
		try $command "$@"
		same "$command: $status" "$command: 1" && has "$err" "$words" || return
		cp err.txt "$command.txt"
	done
	cmp render.txt show.txt && cmp render.txt chart.txt
}

# As `list controls` has the ranges.
the_same_values_are_refused_with_the_same_words() {
	refuses "channel can't be 17" --set channel=17 && refuses "a whole number from 0 to 64" --set feet_cycle=2.5 &&
		refuses "from 20 to 400" --set tempo=5000 && refuses "looseness can't be 31" --set looseness=31 &&
		refuses "no control \"volume\"" --set volume=1 && refuses "symbol=number" --set channel &&
		refuses "20 to 400" --tempo 401 && refuses "7/8" --meter 4/3 && refuses "Nowhere" --groove Nowhere &&
		refuses "Nowhere" --hands Nowhere && refuses "Nowhere" --feet Nowhere &&
		refuses "Nowhere" --turnaround Nowhere && refuses "Nowhere" --preset Nowhere
}

one_groove_is_one_groove() {
	for command in show vary chart practice check; do
		try $command --groove 1 --groove 3
		same "$command: $status" "$command: 1" && has "$err" "one groove" || return
	done
}

# By the conventions of getopt_long(), as its manual page in Linux man-pages has them.
options_are_typed_as_elsewhere() {
	run show --groove 3 --tempo 150
	echo "$out" >plain.txt
	for typed in "--groove=3 --tempo=150" "--gro 3 --temp 150"; do
		# shellcheck disable=SC2086
		run show $typed
		echo "$out" | diff plain.txt - || return
	done
	run list -- hands
	same "$status" 0 || return
	run list -h
	same "$status $(head -c 15 out.txt)" "0   fourlimb list" || return
	try render --force=yes
	same "$status" 1 && has "$err" "--force takes no value"
}

the_readme_lists_the_same() {
	for command in $(commands); do
		sed -n "s/^| \`$command\`[^|]*|\(.*\)|\$/\1/p" "$here/../../README.md" | grep -oE -- '--[a-z-]+' | sort >readme.txt
		options "$command" | grep -vx help | sed 's/^/--/' | sort >help.txt
		[ -s readme.txt ] && diff readme.txt help.txt || { echo "of $command"; return 1; }
	done
}

# The page by groff, once with every warning, and once as people read it.
the_manual_page_lists_the_same() {
	same "$(groff -man -Tutf8 -ww -z "$page" 2>&1)" "" && has "$(lexgrog "$page")" "fourlimb - plays drum grooves" || return
	groff -man -Tascii -P-cbou "$page" >page.txt
	for command in $(commands); do
		awk -v command="$command" '/^ ? ? ?[A-Za-z]/ { within = $1 == command && NF == 1 } within' page.txt |
			sed -nE 's/^ +--([a-z-]+).*/\1/p' >got.txt
		options "$command" | diff - got.txt || { echo "of $command"; return 1; }
	done
}

# completes WANT WORD...: what bash offers for the last of the words.
completes() {
	want=$1
	shift
	got=$(bash -c '. "$0"; COMP_WORDS=(fourlimb "$@"); COMP_CWORD=$#; _fourlimb; printf "%s\n" "${COMPREPLY[@]}"' \
		"$completion" "$@" | xargs)
	same "$got" "$want"
}

completion_offers_the_same() {
	completes "$(commands | xargs) --help --version" "" && completes "show" sh || return
	for command in $(commands); do
		completes "$(options "$command" | sed 's/^/--/' | xargs)" "$command" -- || return
	done
	completes "off count-in always" render --click "" && completes "" show --groove "" || return
	echo >"a chart.pdf"
	completes "a chart.pdf" chart --out "a ch" && completes "a chart.pdf" check "a ch"
}

every_kind_that_is_offered_can_be_listed() {
	kinds=$(bash -c '. "$0"; COMP_WORDS=(fourlimb list ""); COMP_CWORD=2; _fourlimb; echo "${COMPREPLY[@]}"' "$completion")
	has "$kinds" "grooves hands feet turnarounds kits controls" || return
	for kind in ${kinds##*--help}; do
		run list "$kind"
		same "$kind: $status" "$kind: 0" || return
	done
}

cat >mine.ttl <<'END'
@prefix fl: <urn:fourlimb:terms#> .
@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> .
<urn:example:mine> a fl:FeetFigure ; fl:id 1000 ; rdfs:label "Mine" ;
	fl:line [ fl:limb fl:rightFoot ; fl:voice fl:kick ; fl:grid 1 ; fl:steps "O" ] .
END
export XDG_DATA_HOME="$work/data" # what --save keeps
need "$fourlimb" bash groff lexgrog
kind=wav
try render --groove 3
soundfont=$(sed -n 's/.*full scale.*, by //p' out.txt)
kind=mid
"$fourlimb" render --bars 1 --out whole.mid >out.txt
"$fourlimb" song --new "A plan" --sections "verse 1" >plan.ttl
for command in $(commands); do
	check "every option that $command lists is taken" what_is_listed_is_taken "$command"
	check "every other is refused by $command" what_is_not_listed_is_refused "$command"
done
check "render, show and chart refuse the same values with the same words" the_same_values_are_refused_with_the_same_words
check "show, chart and practice take one groove" one_groove_is_one_groove
check "options are typed as elsewhere" options_are_typed_as_elsewhere
check "README lists the same options" the_readme_lists_the_same
check "the manual page lists the same options" the_manual_page_lists_the_same
check "bash completes the same options" completion_offers_the_same
check "every kind that is offered can be listed" every_kind_that_is_offered_can_be_listed
tally
