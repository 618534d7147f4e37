#!/bin/sh
# SPDX-License-Identifier: ISC
# The sources themselves: headers stand alone, both compilers are content, format and
# lint are clean.
set -u
here=$(dirname "$0")
. "$here/tally.sh"
cd "$here/../.." || exit 1
build=$1
. "tests/checks/built.sh"
pugl=$(sed -n 's/^PUGL=//p' "$build/flags")
outside=$(pkg-config --cflags-only-I lv2 lilv-0 serd-0 sord-0 pangocairo "$pugl" fluidsynth sndfile | sed 's/-I/-isystem /g')
flags="-std=c11 -D_POSIX_C_SOURCE=200809L -D_XOPEN_SOURCE=700"
sources=$(built plugin ui ttl)

headers_stand_alone() {
	bad=0
	for header in $(find plugin ui tests/help -name '*.h'); do
		# shellcheck disable=SC2086
		echo "#include \"$header\"" | cc $flags $outside -I. -Wall -Wextra -Werror -fsyntax-only -x c - || bad=1
	done
	return $bad
}

# What compilers say stays beside each object, in this build folder and those of clang and
# the sanitizers within it.
compilers_warned_of_nothing() {
	objects=$(find "$build" -name '*.said' | wc -l)
	[ "$objects" -ge "$(echo "$sources" | wc -l)" ] || { echo "only $objects objects were made"; return 1; }
	warned=0
	for said in $(find "$build" -name '*.said' -size +0); do
		[ ! -e "${said%.said}" ] || { cat "$said"; warned=1; }
	done
	return $warned
}

# Against declarations of what it asks for, where that Pugl itself isn't here.
the_other_pugl_compiles() {
	for compiler in gcc clang; do
		# shellcheck disable=SC2086
		$compiler $flags -isystem tests/pane/current $outside -Wall -Wextra -Wpedantic -Wshadow \
			-Wconversion -Werror -c -o /dev/null ui/pane/pane_view_current.c || return 1
	done
}

planted_warning_is_found() {
	build=$(mktemp -d) && sources=
	touch "$build/a.o" && echo "warning: planted" >"$build/a.o.said"
	! compilers_warned_of_nothing >/dev/null
	found=$?
	rm -r "$build"
	return $found
}

formatted() {
	# shellcheck disable=SC2046
	clang-format --dry-run --Werror $(find plugin ui ttl tests -name '*.[ch]')
}

cppcheck_is_content() {
	# shellcheck disable=SC2086
	cppcheck --quiet --error-exitcode=1 --std=c11 --enable=warning,performance,portability \
		--inline-suppr --suppress=missingIncludeSystem --suppress='*:/usr/*' $sources
}

tidy_is_content() {
	# shellcheck disable=SC2086
	printf '%s\n' $sources | xargs -P "$(nproc)" -n 8 sh -c '
		clang-tidy --quiet "$@" -- '"$flags $outside"' -DFOURLIMB_VERSION=\"0\" 2>/dev/null || true' sh |
		grep -E 'warning:|error:' | sort -u >"$build/tidy.txt"
	cat "$build/tidy.txt"
	[ ! -s "$build/tidy.txt" ]
}

analyzer_is_content() {
	bad=0
	for source in $(find plugin -name '*.c'); do
		# shellcheck disable=SC2086
		gcc $flags $outside -O2 -fanalyzer -Werror -c -o /dev/null "$source" || bad=1
	done
	return $bad
}

files_are_short() {
	long=$(find plugin ui ttl tests -name '*.[ch]' -exec wc -l {} + | awk '$2 != "total" && $1 > 400')
	[ -z "$long" ] || { echo "$long"; return 1; }
}

every_file_names_its_licence() {
	bare=$(find plugin ui ttl tests -name '*.[ch]' -o -name '*.sh' -o -name '*.py' | grep -E '^(plugin|ui|ttl|tests)/' |
		xargs grep -L 'SPDX-License-Identifier: ISC')
	[ -z "$bare" ] || { echo "$bare"; return 1; }
}

# All that is run apart is named: with root's packages, for figures, or by others.
every_script_is_run() {
	forgotten=0
	for script in tests/*/*.sh; do
		grep -q "$script" Makefile && continue
		case $script in tests/checks/tally.sh | tests/checks/built.sh | tests/bench/instructions.sh | tests/bench/worst.sh) continue ;; esac
		echo "$script is run by nobody: put it into SCRIPTS" && forgotten=1
	done
	return $forgotten
}

# The first of two is never called: a test that runs no more, and looks as if it did.
twice_in() {
	for script in "$@"; do
		grep -oE '^[a-z_0-9]+\(\)' "$script" | sort | uniq -d | sed "s|^|$script: |"
	done
}

no_function_of_a_script_hides_another() {
	twice=$(twice_in tests/*/*.sh)
	[ -z "$twice" ] || { echo "$twice"; return 1; }
}

planted_second_function_is_found() {
	script=$(mktemp)
	printf 'holds() {\n\ttrue\n}\nholds() {\n\tfalse\n}\n' >"$script"
	[ -n "$(twice_in "$script")" ]
	found=$?
	rm "$script"
	return $found
}

check "every script is run" every_script_is_run
check "no function of a script hides another" no_function_of_a_script_hides_another
check "a second function of a name would be found" planted_second_function_is_found
check "every header compiles alone" headers_stand_alone
check "the compilers warned of nothing" compilers_warned_of_nothing
if [ "$(other_pugl)" = current ]; then
	check "the window compiles against the Pugl with worlds" the_other_pugl_compiles
else
	skip "the window compiles against the first Pugl" "its header isn't here"
fi
check "a warning would be found" planted_warning_is_found
check "every source is formatted (make format)" formatted
check "no source is longer than 400 lines" files_are_short
check "every source names its licence" every_file_names_its_licence
check "cppcheck finds nothing" cppcheck_is_content
check "clang-tidy finds nothing" tidy_is_content
check "gcc's analyzer finds nothing" analyzer_is_content
tally
