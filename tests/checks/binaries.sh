#!/bin/sh
# SPDX-License-Identifier: ISC
# What the built files may ask of the outside: the engine only arithmetic and
# memory moves, and the plugin exports its one entry point.
set -u
here=$(dirname "$0")
. "$here/tally.sh"
build=$1

# Everything the engine calls that isn't itself: no heap, no files, no clock.
engine_is_pure() {
	ld -r -o "$build/engine-whole.o" "$build"/plugin/engine/*/*.o || return 1
	nm -u "$build/engine-whole.o" | awk '{print $2}' |
		grep -vxE 'ceil|floor|fabs|fmax|fmaxf|fmin|fminf|llround|lround|log|log2|lrintf|pow|sqrt|round|memcmp|memcpy|memset|memmove|_GLOBAL_OFFSET_TABLE_|__stack_chk_fail|__mem(cpy|set|move)_chk' >"$build/impure.txt"
	cat "$build/impure.txt"
	[ ! -s "$build/impure.txt" ]
}

engine_has_no_variables() {
	size -A "$build"/plugin/engine/*/*.o | awk '/:$/ { file = $1 } ($1 == ".data" || $1 == ".bss") && $2 > 0 { print file, $1, $2 }' >"$build/variables.txt"
	cat "$build/variables.txt"
	[ ! -s "$build/variables.txt" ]
}

# Variables of the plugin's rooms: the list of banks that the process shares, and none else.
plugin_has_one_variable() {
	for object in "$build"/plugin/*/*.o "$build"/plugin/engine/*/*.o; do
		objdump -t "$object" | awk -v object="$object" '$3 == "O" && ($4 == ".data" || $4 == ".bss") { print object, $NF }'
	done | sed "s|^$build/||" >"$build/variables.txt"
	[ "$(cat "$build/variables.txt")" = "plugin/bank/shared.o shared" ] || { cat "$build/variables.txt"; return 1; }
}

exports_only() {
	exported=$(nm -D --defined-only "$1" | awk '{print $3}' | tr '\n' ' ')
	[ "$exported" = "$2 " ] || { echo "exports $exported"; return 1; }
}

# A folder that is searched is where code is put in; a table of calls that stays writable is
# how it is reached.  Words of readelf, of the ELF gABI and of ld's "-z" options.
is_hard() {
	dynamic=$(readelf -dW "$1") && segments=$(readelf -lW "$1") && symbols=$(nm -D --undefined-only "$1") || return
	for found in "BIND_NOW|Flags:.*NOW=$dynamic" "GNU_RELRO=$segments" "__stack_chk_fail=$symbols" "_chk@=$symbols"; do
		printf '%s\n' "${found#*=}" | grep -qE "${found%%=*}" || { echo "$1: no ${found%%=*}"; return 1; }
	done
	printf '%s\n' "$segments" | grep -qE 'GNU_STACK.* RW ' || { echo "$1: its stack may be run"; return 1; }
	! printf '%s\n' "$dynamic" | grep -E 'TEXTREL|RPATH|RUNPATH'
}

is_anywhere() {
	readelf -hW "$1" | grep -E 'Type: *DYN'
}

# The same text, hard and not, each way for itself.
planted_softness_is_found() {
	printf '#include <stdio.h>\nvoid f(const char* t);\nvoid f(const char* t) { char b[9]; sprintf(b, "%%s", t); puts(b); }\n' >"$build/soft.c"
	hard="-fstack-protector-strong -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2 -Wl,-z,relro,-z,now,-z,noexecstack"
	soft() { cc -O2 -fPIC -shared -w $hard "$@" -o "$build/soft.so" "$build/soft.c" && is_hard "$build/soft.so"; }
	soft || return
	for flag in -fno-stack-protector -U_FORTIFY_SOURCE -Wl,-z,norelro -Wl,-z,lazy -Wl,-z,execstack -Wl,-rpath,/tmp; do
		! soft "$flag" >/dev/null || { echo "$flag goes unseen"; return 1; }
	done
}

planted_export_is_found() {
	! exports_only "$build/soft.so" lv2_descriptor
}

planted_call_is_found() {
	printf '#include <stdlib.h>\nvoid* f(void);\nvoid* f(void) { return malloc(1); }\n' >"$build/planted.c"
	cc -c -o "$build/planted.o" "$build/planted.c" &&
		nm -u "$build/planted.o" | grep -q malloc
}

check "the engine calls nothing but arithmetic and memory moves" engine_is_pure
check "the engine keeps no variables of its own" engine_has_no_variables
check "the plugin's one variable is the list of shared banks" plugin_has_one_variable
check "the plugin exports lv2_descriptor alone" exports_only "$build/lv2/fourlimb.lv2/fourlimb.so" lv2_descriptor
check "the window exports lv2ui_descriptor alone" exports_only "$build/lv2/fourlimb.lv2/fourlimb_ui.so" lv2ui_descriptor
for file in lv2/fourlimb.lv2/fourlimb.so lv2/fourlimb.lv2/fourlimb_ui.so fourlimb; do
	check "$(basename $file) is hardened: stack, calls of libc, tables of calls" is_hard "$build/$file"
done
check "the command can be loaded anywhere in memory" is_anywhere "$build/fourlimb"
check "one that lacks any of this would be found" planted_softness_is_found
check "a symbol too many would be found" planted_export_is_found
check "a call to malloc would be found" planted_call_is_found
tally
