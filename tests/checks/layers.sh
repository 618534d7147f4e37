#!/bin/sh
# SPDX-License-Identifier: ISC
# The direction of flow between rooms is kept: every #include is one that
# tests/checks/layers.txt allows.  From CODE-MODELS' "layers" idea: lint as test.
set -u
here=$(dirname "$0")
. "$here/tally.sh"
root=$here/../..

# Prints every include of a file that its room may not have.
forbidden() {
	awk -v room="$1" -v allowed="$2" -v file="$3" '
		BEGIN { n = split(allowed, names, " ") }
		function ok(name, i) {
			if (index(name, room "/") == 1) return 1
			for (i = 1; i <= n; i++) {
				if (name == names[i]) return 1
				if (names[i] ~ /\*$/ && index(name, substr(names[i], 1, length(names[i]) - 1)) == 1) return 1
				if (names[i] !~ /\.h$/ && index(name, names[i] "/") == 1) return 1
			}
			return 0
		}
		/^#include "/ {
			split($0, part, "\"")
			name = room "/" part[2]
			while (sub(/[^\/.]+\/\.\.\//, "", name)) continue
			if (!ok(name)) { print file ": " name; bad = 1 }
		}
		/^#include </ { split($0, part, /[<>]/); if (!ok(part[2])) { print file ": " part[2]; bad = 1 } }
		END { exit bad }' "$3"
}

room_is_clean() {
	bad=0
	for file in "$root/$1"/*.[ch]; do
		forbidden "$1" "$2" "$file" || bad=1
	done
	return $bad
}

planted_include_is_found() {
	planted=$(mktemp)
	printf '#include <stdio.h>\n' >"$planted"
	! forbidden plugin/engine/time "math.h stdint.h" "$planted" >/dev/null
	found=$?
	rm -f "$planted"
	return $found
}

planted_step_up_is_found() {
	planted=$(mktemp)
	printf '#include "../groove/plan.h"\n' >"$planted"
	! forbidden plugin/engine/written "$(sed -n 's|^plugin/engine/written: ||p' "$here/layers.txt")" "$planted" >/dev/null
	found=$?
	rm -f "$planted"
	return $found
}

# Prints the files that know the window system's headers, the pane's own aside;
# pane.h is for everybody and may not.
know_the_window_system() {
	grep -lE '^#[[:space:]]*include[[:space:]]*[<"](pugl|GL|EGL|X11|xcb)/' "$@" |
		grep -vE '(^|/)ui/pane/pane[a-z_]*\.c$|(^|/)ui/pane/pane_inside\.h$'
}

only_the_pane_knows() {
	# shellcheck disable=SC2046
	known=$(know_the_window_system $(find "$root/ui" "$root/plugin" "$root/ttl" -name '*.[ch]'))
	[ -z "$known" ] || { echo "$known"; return 1; }
}

planted_window_system_is_found() {
	planted=$(mktemp -d)
	mkdir -p "$planted/ui/pane"
	for name in pane.h scene.c; do
		printf '#include <GL/gl.h>\n' >"$planted/ui/pane/$name"
	done
	count=$(know_the_window_system "$planted"/ui/pane/* | wc -l)
	rm -rf "$planted"
	[ "$count" -eq 2 ]
}

while IFS=: read -r room allowed; do
	case $room in '' | \#*) continue ;; esac
	check "$room includes only what it may" room_is_clean "$room" "$allowed"
done <"$here/layers.txt"
check "a forbidden include would be found" planted_include_is_found
check "a step up the engine's staircase would be found" planted_step_up_is_found
check "only the pane knows Pugl, GLX, OpenGL and Xlib" only_the_pane_knows
check "another file that knew them would be found" planted_window_system_is_found
tally
