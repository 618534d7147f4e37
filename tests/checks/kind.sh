#!/bin/sh
# SPDX-License-Identifier: ISC
# Adding a kind of entry is adding a row: a copy of the sources gets one more, builds without
# a warning, and lists, checks, saves and tells of entries of it like of all others.
set -u
here=$(realpath "$(dirname "$0")")
. "$here/tally.sh"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
cd "$here/../.." || exit 1
export XDG_DATA_HOME="$work/data"

# Songs that are kit maps: the values don't matter here.
row='    X(SONG, song, Song, Kit, kit, KIT, true, "song", "songs", "Song", "nothing plays instead")'

add_row() {
	cp -r Makefile LICENSE plugin ui ttl presets "$work" || return 1
	sed -i "s|^    FIGURE_KIND_ROWS(X)  *\\\\|&\n$row \\\\|" "$work/plugin/engine/written/kinds.h"
	grep -q "X(SONG" "$work/plugin/engine/written/kinds.h"
}

builds() {
	MAKEFLAGS= make -s -j2 -C "$work" OPTIMISE=-O0 CFLAGS=-O0 FRAME_MOST=65536 all >"$work/said.txt" 2>&1 || { tail -20 "$work/said.txt"; return 1; }
	! grep -rh "warning:" "$work"/build --include='*.said'
}

# A song of the user's own, with a key for each voice that kit maps have.
write_song() {
	mkdir -p "$work/data/fourlimb"
	sed -n '/^@prefix/p' presets/kits.ttl >"$work/data/fourlimb/songs.ttl"
	sed -n '/^kit:general-midi/,/\.$/p' presets/kits.ttl |
		sed 's/^kit:general-midi/<urn:test:song>/; s/a fl:Kit/a fl:Song/; s/fl:id [0-9]*/fl:id 1000/; s/label "[^"]*"/label "Tide Song"/' \
			>>"$work/data/fourlimb/songs.ttl"
}

is_listed() {
	write_song
	"$work/build/fourlimb" list songs | tee "$work/list.txt" | grep -q "Tide Song" || { cat "$work/list.txt" "$work/data/fourlimb/songs.ttl"; return 1; }
	[ "$(sed -n 1p "$work/list.txt" | cut -d' ' -f1-2)" = "1 songs" ] || { cat "$work/list.txt"; return 1; }
}

is_checked() {
	"$work/build/fourlimb" check | grep -q '^right: song .*id 1000, "Tide Song"' || return 1
	sed -i 's/fl:note [0-9]*/fl:note 300/' "$work/data/fourlimb/songs.ttl"
	! "$work/build/fourlimb" check >"$work/wrong.txt"
	grep -q "^wrong: songs.ttl:.*expected a whole number from 0 to 127" "$work/wrong.txt" || { cat "$work/wrong.txt"; return 1; }
}

# The same program that saves what a window sends, built with the row in.
is_saved() {
	cat >"$work/save.c" <<-'END'
		#include "plugin/bank/user_bank.h"
		#include <stdio.h>
		int main(const int argc, char** const argv)
		{
		    static char text[65536];
		    char why[USER_BANK_WHY_ROOM] = "";
		    FILE* const file = argc == 3 ? fopen(argv[1], "r") : NULL;
		    const size_t size = file ? fread(text, 1, sizeof text - 1, file) : 0;
		    const Saved saved = user_bank_save(argv[2], text, size, NULL, why);
		    printf("%s %s%s\n", kind_rows[saved.kind].word, saved.file, why);
		    return saved.id != 1000;
		}
	END
	# shellcheck disable=SC2046
	cc -std=c11 -I "$work" -o "$work/save" "$work/save.c" "$work"/build/plugin/bank/*.o "$work/build/compiled_factory.o" \
		"$work"/build/plugin/engine/*/*.o $(pkg-config --cflags --libs sord-0 serd-0) -lm || return 1
	write_song
	said=$("$work/save" "$work/data/fourlimb/songs.ttl" "$work/saved")
	[ "$said" = "song song-1000.ttl" ] || { echo "got \"$said\", want \"song song-1000.ttl\""; return 1; }
	grep -q "fl:Song" "$work/saved/song-1000.ttl"
}

check "a kind more is a row more" add_row
check "it builds without a warning" builds
check "entries of it are listed" is_listed
check "entries of it are checked, and what is wrong with them is told" is_checked
check "one of it is saved into a file of its name" is_saved
tally
