# SPDX-License-Identifier: ISC
# For scripts to source: worst_of SEED prints the instructions of the block that cost most
# among 48 of the seed's, counted as instructions.sh does, block by block.
# $build is the build folder.
worst_of() {
	dumps=$(mktemp -d)
	valgrind --tool=callgrind --callgrind-out-file="$dumps/out" --toggle-collect=stand_counted \
		--dump-after=stand_counted "$build/tests/bench/worst" "$build/lv2" "$1" 48 >/dev/null 2>&1
	sed -n 's/^totals: //p' "$dumps"/out.* | sort -n | tail -n 1
	rm -rf "$dumps"
}
