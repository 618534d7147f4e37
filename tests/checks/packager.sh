#!/bin/sh
# SPDX-License-Identifier: ISC
# packager.sh BUILD - the build as a distribution does it: flags, folders and tools are the
# packager's, the programs made are for another machine, and neither network nor package
# manager may be asked.  Variables are those of the GNU Coding Standards, 7.2 "Makefile
# Conventions"; CC_FOR_BUILD and its like are Autoconf's custom for cross builds.

here=$(realpath "$(dirname "$0")")
. "$here/../command/shared.inc"
root=$(realpath "$here/../..")
unset MAKEFLAGS MFLAGS MAKELEVEL MAKEOVERRIDES CFLAGS CPPFLAGS LDFLAGS CC PKG_CONFIG
target=$work/target # what the packager builds
id=0123456789abcdef0123456789abcdef01234567

# Whoever asks one of these fails, and is written down.
mkdir fakes
for tool in apt apt-get aptitude dpkg dpkg-query rpm sudo curl wget; do
	printf '#!/bin/sh\necho "%s $*" >>"%s/asked"\nexit 97\n' $tool "$work" >fakes/$tool
done

# The other machine's compiler: what it links finds no loader here, so can't be run.
cat >fakes/target-cc <<END
#!/bin/sh
echo "\$*" >>"$work/target.log"
case " \$* " in
*" -c "* | *" -shared "*) exec cc "\$@" ;;
esac
exec cc "\$@" -Wl,--dynamic-linker=$work/no-such-loader
END
cat >fakes/build-cc <<END
#!/bin/sh
echo "\$*" >>"$work/build.log"
exec cc "\$@"
END
for machine in target build; do
	cat >fakes/$machine-pkg-config <<END
#!/bin/sh
pkg-config "\$@" || exit
case "\$*" in *--cflags*) echo "-I$work/of-$machine" ;; esac
END
done
chmod +x fakes/*
PATH=$work/fakes:$PATH

# Where the kernel lets us, there is no network either.
alone=
unshare -rn true 2>/dev/null && alone="unshare -rn"

make_here() {
	$alone make -C "$root" BUILD="$target" "$@"
}

packagers() {
	make_here CC=target-cc CFLAGS="${cflags:--O1 -fstack-protector-all -DOF_CFLAGS}" \
		CPPFLAGS="-D_FORTIFY_SOURCE=2 -DOF_CPPFLAGS" LDFLAGS="-Wl,-z,relro,-z,now -Wl,--build-id=0x$id" \
		PKG_CONFIG=target-pkg-config CC_FOR_BUILD=build-cc CFLAGS_FOR_BUILD=-DOF_BUILD \
		PKG_CONFIG_FOR_BUILD=build-pkg-config "$@"
}

it_builds_and_asks_nobody() {
	packagers -j2 >made.txt 2>&1 || { tail -n 20 made.txt; return 1; }
	[ ! -e asked ] || { cat asked; return 1; }
}

# lines_without FILE WORD: prints the lines that lack it.
lines_without() {
	[ -s "$1" ] && ! grep -vF -e "$2" "$1" | head -n 3 | grep .
}

compiled() {
	grep -e ' -c ' "$1" >compiled.txt
}

every_object_has_the_packagers_flags() {
	compiled target.log && lines_without compiled.txt -DOF_CFLAGS && lines_without compiled.txt -DOF_CPPFLAGS &&
		lines_without compiled.txt "of-target" && lines_without compiled.txt "-D_FORTIFY_SOURCE=2"
}

every_link_has_the_packagers_flags() {
	grep -ve ' -c ' target.log >linked.txt
	same "$(wc -l <linked.txt)" 3 && lines_without linked.txt "-z,now" && lines_without linked.txt -DOF_CFLAGS
}

no_warning_is_an_error() {
	! grep -l -e -Werror target.log build.log
}

binaries="fourlimb lv2/fourlimb.lv2/fourlimb.so lv2/fourlimb.lv2/fourlimb_ui.so"

hardening_is_in_the_binaries() {
	for file in $binaries; do
		has "$(readelf -dW "$target/$file")" "NOW" && has "$(readelf -lW "$target/$file")" GNU_RELRO &&
			has "$(readelf -sW "$target/$file")" __stack_chk_fail &&
			has "$(readelf -sW "$target/$file")" __snprintf_chk &&
			has "$(readelf -nW "$target/$file")" "Build ID: $id" || { echo "in $file"; return 1; }
	done
}

programs_of_the_build_are_made_for_this_machine() {
	compiled build.log && lines_without compiled.txt -DOF_BUILD && lines_without compiled.txt of-build || return
	! grep -e OF_CFLAGS -e of-target -e '-z,now' build.log
}

what_is_built_cannot_run_here() {
	! "$target/fourlimb" --help 2>&1
}

the_bundle_says_what_one_built_here_says() {
	for file in $(cd "$build/lv2" && find . -name '*.ttl'); do
		cmp "$build/lv2/$file" "$target/lv2/$file" || return
	done
	! find "$build/lv2" "$target/lv2" -name '*.part' | grep .
}

with_the_same_flags_nothing_is_made_again() {
	packagers --question
}

# CC lines of what make would do.
would_compile() {
	grep -c -e '-cc .* -c ' would.txt
}

another_flag_makes_every_object_again() {
	objects=$(find "$target" -name '*.o' | wc -l)
	for flag in CFLAGS=-O0 CPPFLAGS=-DOTHER LDFLAGS=-Wl,-z,lazy CC=cc PKG_CONFIG=pkg-config VERSION=9 \
		CC_FOR_BUILD=cc; do
		! packagers --question "$flag" >/dev/null 2>&1 || { echo "after $flag nothing is made"; return 1; }
	done
	cflags="-O0 -DANOTHER" && packagers --question
	packagers --dry-run V=1 >would.txt && cflags=
	same "$(would_compile)" "$objects"
}

an_object_is_made_with_the_flag_of_now() {
	cflags="-O0 -DANOTHER"
	packagers "$target/ui/command/main.o" && has "$(tail -n 1 target.log)" "-DANOTHER"
}

install_into() {
	make_here "$@" PREFIX=/usr LIBDIR=/usr/lib/elsewhere
}

# Packagers' install step often has no flags in its environment.
installing_compiles_nothing() {
	lines=$(wc -l <target.log)
	(umask 077 && install_into install DESTDIR="$work/pack age") || return
	same "$(wc -l <target.log)" "$lines" && [ ! -e asked ]
}

files_are_where_they_were_told_to_be() {
	lv2="pack age/usr/lib/elsewhere/lv2/fourlimb.lv2"
	(cd "$target/lv2/fourlimb.lv2" && find . -type f | sort) >want.txt
	(cd "$lv2" && find . -type f | sort) >got.txt
	diff want.txt got.txt && [ -x "pack age/usr/bin/fourlimb" ] || return
	[ -s "pack age/usr/share/man/man1/fourlimb.1" ] &&
		[ -s "pack age/usr/share/bash-completion/completions/fourlimb" ] || return
	same "$(find "pack age" -type f | wc -l)" "$(($(wc -l <want.txt) + 3))" || return
	! find "pack age/usr" ! -perm -444 | grep .
}

uninstalling_leaves_nothing() {
	install_into uninstall DESTDIR="$work/pack age" && ! find "pack age" ! -type d | grep .
}

# The library folder is nowhere near the program; LV2_PATH or what lilv was built with says where.
the_installed_command_finds_its_plugin() {
	make -C "$root" BUILD="$build" install DESTDIR="$work/away" PREFIX=/usr LIBDIR=/opt/lib64 >/dev/null || return
	HOME=$work/nobody LV2_PATH=$work/away/opt/lib64/lv2 "$work/away/usr/bin/fourlimb" render --bars 1 --out a.mid
}

need "$fourlimb" make cc readelf pkg-config
check "a packager's build asks neither network nor package manager" it_builds_and_asks_nobody
check "every object is compiled with the packager's flags" every_object_has_the_packagers_flags
check "every link has the packager's flags" every_link_has_the_packagers_flags
check "no warning is an error outside of make check" no_warning_is_an_error
check "hardening is in the binaries" hardening_is_in_the_binaries
check "programs that the build runs are made for this machine" programs_of_the_build_are_made_for_this_machine
check "what is built for another machine can't run here" what_is_built_cannot_run_here
check "its bundle says what one built here says" the_bundle_says_what_one_built_here_says
check "with the same flags nothing is made again" with_the_same_flags_nothing_is_made_again
check "another flag makes every object again" another_flag_makes_every_object_again
check "installing compiles nothing and asks nobody" installing_compiles_nothing
check "files are where they were told to be, for everybody to read" files_are_where_they_were_told_to_be
check "uninstalling leaves nothing" uninstalling_leaves_nothing
check "the installed command finds its plugin in another library folder" the_installed_command_finds_its_plugin
check "an object is made with the flag of now" an_object_is_made_with_the_flag_of_now
tally
