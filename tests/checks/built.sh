# SPDX-License-Identifier: ISC
# For test scripts to source, after `build` is set and within the project's folder.
other_pugl() {
	if grep -qx PUGL=pugl-0 "$build/flags"; then echo current; else echo first; fi
}

# built FOLDER...: the sources that are built: all but what is for the Pugl that isn't here.
built() {
	find "$@" -name '*.c' | grep -v "^ui/pane/pane_view_$(other_pugl)" | sort
}
