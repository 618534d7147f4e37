#!/bin/sh
# SPDX-License-Identifier: ISC
# fuzz.sh BUILD MINUTES [NAME] - feeds each program of tests/fuzz for so many minutes, one after
# the other, from the inputs that are kept and those found before (BUILD/fuzz/corpus/NAME); what
# breaks one is left as BUILD/fuzz/found/NAME-*, and the program that is told it says why.
set -u
here=$(dirname "$0")
build=$1 minutes=$2 only=${3-}
export ASAN_OPTIONS=detect_leaks=1:malloc_context_size=3:quarantine_size_mb=8 LSAN_OPTIONS=suppressions=$(cd "$here/../checks" && pwd)/leaks.txt:print_suppressions=0
export XDG_DATA_HOME=/nowhere/at/all
status=0

for source in "$here"/fuzz_*.c; do
	name=$(basename "$source" .c | sed 's/^fuzz_//')
	[ -z "$only" ] || [ "$only" = "$name" ] || continue
	corpus=$build/fuzz/corpus/$name log=$build/fuzz/$name.log
	mkdir -p "$corpus" "$build/fuzz/found"
	case $name in
	text | state | song) dictionary=-dict=$here/turtle.dict ;;
	*) dictionary= ;;
	esac
	# shellcheck disable=SC2086
	"$build/fuzz/tests/fuzz/fuzz_$name" -max_total_time=$((minutes * 60)) -max_len=4096 -timeout=20 \
		-rss_limit_mb=2048 -close_fd_mask=2 -print_final_stats=1 $dictionary \
		-artifact_prefix="$build/fuzz/found/$name-" "$corpus" "$here/seeds/$name" >"$log.out" 2>"$log" ||
		{ status=1; echo "$name: broken by an input, see $log and $build/fuzz/found"; grep -h '^# ' "$log.out" | tail -n 1; }
	awk -v name="$name" '/stat::number_of_executed_units/ { units = $2 } /stat::average_exec_per_sec/ { rate = $2 }
		/cov: / { for (i = 1; i < NF; ++i) if ($i == "cov:") cov = $(i + 1) }
		END { printf "%-8s %9d executions, %6d a second, %5d places reached\n", name, units, rate, cov }' "$log"
done
exit $status
