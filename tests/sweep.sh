#!/bin/sh
# SPDX-License-Identifier: ISC
# sweep.sh FOLDER [wait|now] - ends every process of a run of tests/run.sh: those with
# FOURLIMB_RUN=FOLDER in their environment, whatever session they have gone to.  Kindly
# first, and by force after three seconds.  Then FOLDER is removed.  With a second word it
# stays; with "wait" the processes have ten seconds to end by themselves, and those that
# didn't are printed.
set -u
folder=$1
kind=${2:-all}

# /proc has a process' environment as it was started, a null byte after each variable.
left() {
	grep -lszxF "FOURLIMB_RUN=$folder" /proc/[0-9]*/environ | sed 's/[^0-9]//g'
}

# gone TENTHS: waits so long for the last of them to end.
gone() {
	tenths=0
	while [ -n "$(left)" ]; do
		[ "$tenths" -lt "$1" ] || return 1
		tenths=$((tenths + 1))
		sleep 0.1
	done
}

say() {
	for process in $(left); do
		tr '\0' ' ' <"/proc/$process/cmdline" 2>/dev/null && echo "(process $process)"
	done
}

end() {
	[ -n "$(left)" ] || return 0
	# shellcheck disable=SC2046
	kill $(left) 2>/dev/null
	# shellcheck disable=SC2046
	gone 30 || kill -KILL $(left) 2>/dev/null
	gone 30
}

[ "$kind" = wait ] && { gone 100 || say; }
end
[ "$kind" = all ] || exit 0
# A test may have mounted a small file system there.
sed -n "s|^[^ ]* \($folder/[^ ]*\) .*|\1|p" /proc/mounts | while read -r place; do umount "$place"; done
chmod -R u+rwx "$folder" 2>/dev/null
rm -rf "$folder"
