# SPDX-License-Identifier: ISC
# For scripts to source: instructions KIND prints the instructions in run() for
# one block of 64 frames, counted by valgrind's callgrind, which repeats exactly
# on the same machine whatever else it does: 6000 blocks less 2000, halved twice.
instructions_of() {
	valgrind --tool=callgrind --callgrind-out-file=/dev/null --toggle-collect='lilv_instance_run' \
		--toggle-collect='host_run' "$1/tests/bench/blocks" "$2" "$3" 2>&1 |
		sed -n 's/.*Collected : \([0-9]*\)$/\1/p'
}

instructions() {
	many=$(instructions_of "$1" "$2" 6000)
	few=$(instructions_of "$1" "$2" 2000)
	[ -n "$many" ] && [ -n "$few" ] && echo $(((many - few) / 4000))
}
