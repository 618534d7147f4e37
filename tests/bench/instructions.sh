# SPDX-License-Identifier: ISC
# For scripts to source: instructions BUNDLES PLUGIN KIND prints the instructions in run()
# for one block of 64 frames, counted by valgrind's callgrind, which repeats exactly
# on the same machine whatever else it does: 6000 blocks less 2000, halved twice.
# $build is the build folder.
instructions_of() {
	valgrind --tool=callgrind --callgrind-out-file=/dev/null --toggle-collect=stand_counted \
		"$build/tests/bench/blocks" "$1" "$2" "$3" "$4" 2>&1 |
		sed -n 's/.*Collected : \([0-9]*\)$/\1/p'
}

instructions() {
	many=$(instructions_of "$1" "$2" "$3" 6000)
	few=$(instructions_of "$1" "$2" "$3" 2000)
	[ -n "$many" ] && [ -n "$few" ] && echo $(((many - few) / 4000))
}
