#!/bin/sh
# SPDX-License-Identifier: ISC
# The plugin in Ardour, without a window and without a sound card: takes.lua lets
# it record and export, check_takes.py compares that with what should be played.
# Takes some forty seconds.  Usage: tests/hosts/run.sh [BUILD_FOLDER]
set -u
here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "${1:-build}" && pwd) || exit 1
ardour=${ARDOUR:-ardour7-lua}
if ! command -v "$ardour" >/dev/null; then
	echo "skip - Ardour plays the plugin: there is no $ardour here"
	echo "0 passed, 0 failed, 1 skipped"
	exit 0
fi

folder=$(mktemp -d "${TMPDIR:-/tmp}/fourlimb-ardour-XXXXXX") || exit 1
running=
end() {
	# "timeout" hands the signal on to Ardour, and kills it if that is not enough.
	[ -n "$running" ] && kill "$running" 2>/dev/null && wait "$running"
	rm -rf "$folder"
}
trap end EXIT
trap 'exit 1' HUP INT TERM

# The built plugin with a bank of the tests' own, for a person who is nobody yet.
bundle=$folder/lv2/fourlimb.lv2
scripts=$folder/home/.config/ardour7/scripts
mkdir -p "$bundle" "$scripts" "$folder/takes"
for file in fourlimb.so manifest.ttl groove.ttl; do
	ln -s "$build/lv2/fourlimb.lv2/$file" "$bundle/$file"
done
ln -s "$here/../live/bank" "$bundle/bank"
cp "$here/clicks.lua" "$scripts"

# seconds, takes ...
play() {
	seconds=$1
	shift
	env -u XDG_CONFIG_HOME -u XDG_CACHE_HOME -u XDG_DATA_HOME HOME="$folder/home" \
		LV2_PATH="$folder/lv2" timeout -k 5 "$seconds" "$ardour" "$here/takes.lua" \
		"$folder/takes" "$@" </dev/null >"$folder/log" 2>&1 &
	running=$!
	wait "$running"
	status=$?
	running=
	return "$status"
}

if ! play 1800 start middle locate loop seven eighths lane pads; then
	echo "# Ardour ended with status $status; it said:"
	tail -n 5 "$folder/log" | sed 's/^/#   /'
fi
# Ardour 7.3 breaks its own heap about one time in three as an export from a script ends,
# without any plugin in the session too.  Its sound is on the disk then, and is what counts.
if ! play 600 export; then
	echo "# Ardour's export ended with status $status; it said:"
	tail -n 1 "$folder/log" | sed 's/^/#   /'
fi

/usr/bin/python3 "$here/check_takes.py" "$folder/takes"
