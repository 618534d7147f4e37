#!/bin/sh
# SPDX-License-Identifier: ISC
# runner.sh BUILD - tests/run.sh leaves nothing behind, however its tests or itself end, and
# says what failed.  With planted tests, in folders of this script's own.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
run=$here/../run.sh
mkdir tmp
export TMPDIR=$work/tmp

# plant NAME: a test from the lines on the input; it leaves a folder and a process unless it
# tidies up itself: $folder, $process.
plant() {
	{
		echo '#!/bin/sh'
		echo 'folder=$(mktemp -d); sleep 1000 & process=$!'
		echo "echo \$process >'$work/process'"
		cat
	} >"$1.sh"
}

plant well <<'END'
kill $process; rmdir $folder; echo "1 passed, 0 failed, 0 skipped"
END
plant killed <<'END'
echo "# so far it was well"; kill -KILL $$
END
plant messy <<'END'
kill $process; echo "1 passed, 0 failed, 0 skipped"
END
plant leaving <<'END'
rmdir $folder; (setsid sleep 1001 &); kill $process; echo "1 passed, 0 failed, 0 skipped"
END
plant failing <<'END'
kill $process; rmdir $folder; echo "# got 3, want 4"; echo "not ok - a test fails"; echo "ok - another"
echo "1 passed, 1 failed, 0 skipped"; exit 1
END
plant endless <<'END'
echo "# waits for nothing"; wait $process
END

nothing_is_left() {
	left=$(ls -A tmp)
	[ -z "$left" ] || { echo "left: $left"; return 1; }
	! is_process "$(cat process)" || { echo "the test's process runs on"; return 1; }
}

runs() {
	sh "$run" "$build" "$@" >said.txt 2>&1
	status=$?
	said=$(cat said.txt)
}

a_test_that_ends_well_passes() {
	runs ./well.sh
	same "$status" 0 && has "$said" "1 passed, 0 failed, 0 skipped" && nothing_is_left
}

a_killed_test_fails_and_leaves_nothing() {
	runs ./killed.sh ./well.sh
	same "$status" 1 && has "$said" "so far it was well" && has "$said" "ended without a tally, with status 137" &&
		has "$said" "1 passed, 1 failed, 0 skipped" && nothing_is_left
}

a_folder_left_is_a_failure() {
	runs ./messy.sh
	same "$status" 1 && has "$said" "not ok - ./messy.sh left in its temporary folder: tmp." && nothing_is_left
}

a_process_left_is_a_failure_and_ended() {
	runs ./leaving.sh
	same "$status" 1 && has "$said" "not ok - ./leaving.sh left running: sleep 1001" && nothing_is_left &&
		! pgrep -f '^sleep 1001$' --runstates DRST
}

what_failed_is_said_once_more_at_the_end() {
	runs ./failing.sh ./well.sh
	same "$status" 1 && has "$(sed -n '/once more/,$p' said.txt)" "# got 3, want 4
not ok - a test fails" && nothing_is_left
}

# ends_by SIGNAL: the run, in the midst of a test; said.txt is what it said.
ends_by() {
	rm -f process
	sh "$run" "$build" ./endless.sh >said.txt 2>&1 &
	runner=$!
	awaits "the test has begun" [ -s process ] && kill "-$1" $runner || return
	wait $runner
	awaits "nothing is left" nothing_is_left
}

an_interrupted_run_says_where_and_leaves_nothing() {
	ends_by TERM && has "$(cat said.txt)" "waits for nothing" &&
		has "$(cat said.txt)" "interrupted in ./endless.sh"
}

a_killed_run_leaves_nothing_either() {
	ends_by KILL
}

a_test_without_an_end_is_ended() {
	export FOURLIMB_LONGEST=2
	runs ./endless.sh
	unset FOURLIMB_LONGEST
	same "$status" 1 && has "$said" "after 2 seconds" && has "$said" "waits for nothing" && nothing_is_left
}

check "a test that ends well passes" a_test_that_ends_well_passes
check "a killed test fails and leaves nothing" a_killed_test_fails_and_leaves_nothing
check "a folder left is a failure" a_folder_left_is_a_failure
check "a process left is a failure and ended" a_process_left_is_a_failure_and_ended
check "what failed is said once more at the end" what_failed_is_said_once_more_at_the_end
check "an interrupted run says where and leaves nothing" an_interrupted_run_says_where_and_leaves_nothing
check "a killed run leaves nothing either" a_killed_run_leaves_nothing_either
check "a test without an end is ended" a_test_without_an_end_is_ended
tally
