# SPDX-License-Identifier: ISC
# For test scripts to source: check SENTENCE COMMAND... runs the command and
# prints "ok - SENTENCE", or "not ok" and what the command printed; tally prints
# the closing line and sets the exit status.
passed=0 failed=0 skipped=0

check() {
	sentence=$1
	shift
	if said=$("$@" 2>&1); then
		passed=$((passed + 1))
		echo "ok - $sentence"
	else
		failed=$((failed + 1))
		printf '%s\n' "$said" | sed 's/^/# /' | head -n 40
		echo "not ok - $sentence"
	fi
}

skip() {
	skipped=$((skipped + 1))
	echo "# skipped: $2"
	echo "skip - $1"
}

tally() {
	echo "$passed passed, $failed failed, $skipped skipped"
	[ "$failed" -eq 0 ]
}
