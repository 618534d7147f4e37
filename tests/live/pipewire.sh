#!/bin/sh
# SPDX-License-Identifier: ISC
# pipewire.sh BUILD - `make play` on machines where PipeWire has the sound card, each made of
# stand-ins on PATH: what is started, by what, and what is said.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
play=$here/../../ui/play.sh
unset PIPEWIRE_REMOTE PIPEWIRE_RUNTIME_DIR DISPLAY WAYLAND_DISPLAY FOURLIMB_BY_PW_JACK

# stand_in NAME: a program that says what was asked of it, and by whom, then does standard input.
stand_in() {
	cat >"bin/$1"
	chmod +x "bin/$1"
}

# machine [SERVER]: one with SERVER's JACK answering (jack, pipewire or none), nothing else
# on PATH but what the script itself needs.
machine() {
	rm -rf bin runtime log.txt && mkdir bin runtime
	touch log.txt
	for tool in sh cat id realpath sleep tail grep; do
		ln -s "$(command -v $tool)" bin/
	done
	stand_in jack_lsp <<-END
		#!/bin/sh
		case $1,\$BY_PIPEWIRE in
		jack,* | pipewire,yes) echo fourlimb-drums:midi_00 ;;
		*) exit 1 ;;
		esac
	END
	for tool in jalv fluidsynth jack_connect jackd; do
		stand_in $tool <<-END
			#!/bin/sh
			echo "$tool\${BY_PIPEWIRE:+ on PipeWire}" >>"$work/log.txt"
		END
	done
	# It is closed when the others have begun.
	cat >>bin/jalv <<-END
		tries=0
		until grep -q jack_connect "$work/log.txt" && grep -q fluidsynth "$work/log.txt" || [ \$tries -eq 2400 ]; do
			sleep 0.1
			tries=\$((tries + 1))
		done
	END
	XDG_RUNTIME_DIR=$work/runtime
	export XDG_RUNTIME_DIR
}

with_pipewire() {
	"$python" -c 'import socket, sys; socket.socket(socket.AF_UNIX).bind(sys.argv[1])' runtime/"${1:-pipewire-0}"
}

with_pw_jack() {
	stand_in pw-jack <<-END
		#!/bin/sh
		echo "pw-jack" >>"$work/log.txt"
		BY_PIPEWIRE=yes exec "\$@"
	END
}

plays() {
	(PATH=$work/bin sh "$play" "$build") >said.txt 2>&1
	status=$?
	said=$(cat said.txt)
	log=$(sort log.txt | uniq | tr '\n' ';')
}

pw_jack_is_used_by_itself() {
	machine pipewire && with_pipewire && with_pw_jack && plays
	same "$status" 0 && same "$log" "fluidsynth on PipeWire;jack_connect on PipeWire;jalv on PipeWire;pw-jack;" &&
		same "$(grep -c pw-jack log.txt)" 1
}

no_server_is_advised() {
	! has "$said" "jackd" >/dev/null && ! has "$said" "Start a JACK" >/dev/null || { cat said.txt; return 1; }
}

without_pw_jack_the_package_is_named() {
	machine none && with_pipewire && plays
	same "$status" 1 && has "$said" "package pipewire-jack" && same "$log" "" && no_server_is_advised
}

pipewire_that_is_silent_is_told() {
	machine none && with_pipewire && with_pw_jack && plays
	same "$status" 1 && has "$said" "PipeWire" && same "$log" "pw-jack;" && no_server_is_advised
}

another_remote_is_found() {
	machine pipewire && with_pipewire studio && with_pw_jack
	PIPEWIRE_REMOTE=studio && export PIPEWIRE_REMOTE && plays
	first=$log
	PIPEWIRE_REMOTE=$work/runtime/studio && rm log.txt && touch log.txt && plays
	unset PIPEWIRE_REMOTE
	same "$status" 0 && has "$first" "jalv on PipeWire" && same "$log" "$first"
}

a_jack_server_that_answers_is_used() {
	machine jack && with_pipewire && with_pw_jack && plays
	same "$status" 0 && same "$log" "fluidsynth;jack_connect;jalv;"
}

without_either_a_server_is_advised() {
	machine none && with_pw_jack && plays
	same "$status" 1 && has "$said" "jackd -d alsa" && same "$log" ""
}

need "$fourlimb" "$python"
check "pw-jack is used by itself" pw_jack_is_used_by_itself
check "without pw-jack the package is named, and no server advised" without_pw_jack_the_package_is_named
check "PipeWire that doesn't answer is told, and no server advised" pipewire_that_is_silent_is_told
check "another remote is found" another_remote_is_found
check "a JACK server that answers is used" a_jack_server_that_answers_is_used
check "without either a JACK server is advised" without_either_a_server_is_advised
tally
