#!/bin/sh
# SPDX-License-Identifier: ISC
# names.sh BUILD - a name means one thing: a type is defined once, and a public function
# begins with the name of its file, so that a reader finds it.
set -u
here=$(realpath "$(dirname "$0")")
. "$here/tally.sh"
cd "$here/../.." || exit 1
build=$1
. "$here/built.sh"
planted=$(mktemp -d)
trap 'rm -rf "$planted"' EXIT
trap 'exit 1' HUP INT TERM

# Prefixes that a file or a folder has besides.  ui/scene: what draws a part of the window.
# ticks: a meter, and the whole numbers that ticks are computed with.  stroke: the limb that
# plays it.  Entry points have their names from outside.
agreed="ui/scene: draw
plugin/engine/time/ticks.c: meter floor whole common
plugin/engine/written/stroke.c: limb
ui/window/ui.c: lv2ui
ui/manual/manual.c: main"

names() {
	/usr/bin/python3 "$here/names.py" "$@"
}

every_type_is_defined_once() {
	# shellcheck disable=SC2046
	names types $(find plugin ui ttl -name '*.[ch]' | sort)
}

every_public_function_begins_with_its_files_name() {
	# shellcheck disable=SC2046
	names functions "$build" "$agreed" $(built plugin ui)
}

# found WHAT COMMAND...: it fails, and names what it was for.
found() {
	what=$1
	shift
	said=$(cd "$planted" && "$@") && { echo "nothing found: $said"; return 1; }
	case $said in *"$what"*) return 0 ;; esac
	printf 'got:  %s\nwant: %s\n' "$said" "$what"
	return 1
}

a_second_type_of_a_name_is_found() {
	printf 'typedef struct {\n    int a;\n} Page;\n' >"$planted/a.h"
	printf 'typedef enum { A, B } Page;\ntypedef struct Other Other;\n' >"$planted/b.c"
	printf 'typedef struct Other Other;\ntypedef int (*Page)(int a);\n' >"$planted/c.h"
	found "Page: a.h b.c c.h" names types a.h b.c c.h
}

a_function_of_another_name_is_found() {
	mkdir -p "$planted/room"
	echo "void page_turn(void); void room_open(void); void paging(void); static void own(void) {}
void page_turn(void) { own(); } void room_open(void) {} void paging(void) {}" >"$planted/room/page.c"
	cc -c -o "$planted/room/page.o" "$planted/room/page.c" && found "room/page.c: paging
3 public functions, 1 of them" names functions . "" room/page.c
}

check "every type is defined once" every_type_is_defined_once
check "every public function begins with its file's name" every_public_function_begins_with_its_files_name
check "a second type of a name is found" a_second_type_of_a_name_is_found
check "a function of another name is found" a_function_of_another_name_is_found
tally
