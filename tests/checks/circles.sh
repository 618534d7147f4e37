#!/bin/sh
# SPDX-License-Identifier: ISC
# circles.sh BUILD - who calls whom goes one way: no object, and no folder, leads back to
# itself by the symbols that built objects ask for and define.
set -u
here=$(realpath "$(dirname "$0")")
. "$here/tally.sh"
cd "$here/../.." || exit 1
build=$1
. "$here/built.sh"
planted=$(mktemp -d)
trap 'rm -rf "$planted"' EXIT
trap 'exit 1' HUP INT TERM

circles() {
	/usr/bin/python3 "$here/circles.py" "$@"
}

nothing_leads_back_to_itself() {
	# shellcheck disable=SC2046
	circles "$build" $(built plugin ui)
}

# plant FILE FUNCTION CALLED: a function that calls another one, compiled.
plant() {
	mkdir -p "$planted/$(dirname "$1")"
	echo "void $3(void); void $2(void); void $2(void) { $3(); }" >"$planted/$1.c"
	cc -c -o "$planted/$1.o" "$planted/$1.c"
}

# found WHAT FILE...: the circle is printed, each call with the name that is called.
found() {
	what=$1
	shift
	said=$(cd "$planted" && circles . "$@" 2>&1) && { echo "no circle found: $said"; return 1; }
	case $said in *"$what"*) return 0 ;; esac
	printf 'got:  %s\nwant: %s\n' "$said" "$what"
	return 1
}

a_planted_circle_is_found() {
	plant a/one one two && plant a/two two three && plant a/three three one && plant a/four four one &&
		found "  a/one.c
    -> a/two.c (two)
    -> a/three.c (three)
    -> a/one.c (one)" a/four.c a/one.c a/three.c a/two.c
}

# No object of these leads back to itself.
a_planted_circle_of_folders_is_found() {
	plant b/up up down && plant c/down down nobody && plant c/again again other && plant b/other other nobody &&
		found "  b
    -> c (up.c: down)
    -> b (again.c: other)" b/other.c b/up.c c/again.c c/down.c
}

what_is_not_built_is_told() {
	found "not built: ['a/five.c']" a/five.c a/one.c
}

check "no object and no folder leads back to itself" nothing_leads_back_to_itself
check "a planted circle of objects is found" a_planted_circle_is_found
check "a planted circle of folders is found" a_planted_circle_of_folders_is_found
check "what isn't built is told, not passed over" what_is_not_built_is_told
tally
