# Fourlimb: one Makefile.  "make help" lists what it does.

# ---- The list of packages (Debian 12).  `make run` installs the first row,
# ---- `make check` the first two, `make hosts`, `make crosscheck` and `make bench` one more each.
PACKAGES_BUILD := gcc libc6-dev make pkg-config lv2-dev liblilv-dev libsratom-dev libserd-dev libsord-dev \
	libcairo2-dev libpango1.0-dev fonts-dejavu-core libpugl-dev libgl-dev libx11-dev \
	libfluidsynth-dev libsndfile1-dev timgm6mb-soundfont
PACKAGES_CHECK := bash groff-base man-db clang clang-tidy clang-format cppcheck valgrind binutils midicsv python3 \
	python3-mido fluidsynth lilv-utils sordi serdi jackd2 jalv libjack-jackd2-dev \
	libxml2-utils poppler-utils xvfb libgl1-mesa-dri libglx-mesa0 xdotool imagemagick x11-utils libsuil-0-0 \
	openbox libqt5x11extras5
PACKAGES_HOSTS := ardour qtractor
PACKAGES_FEEL := midicsv
PACKAGES_PLAY := jalv jackd2 fluidsynth
PACKAGES_CROSSCHECK := lilypond
PACKAGES_BENCH := lv2-examples
PACKAGES_FUZZ := clang libclang-rt-14-dev
PACKAGES_NODE := nodejs npm

VERSION := 0.1.0
BUILD := build
BUNDLE := $(BUILD)/lv2/fourlimb.lv2
OPTIMISE := -O2
SANITIZE :=

# ---- What whoever builds may set, in the environment or on make's command line; for a
# ---- cross build CC_FOR_BUILD and its like, of the programs that the build itself runs.
SETTABLE := CC CPPFLAGS CFLAGS LDFLAGS PKG_CONFIG CC_FOR_BUILD CPPFLAGS_FOR_BUILD CFLAGS_FOR_BUILD \
	LDFLAGS_FOR_BUILD PKG_CONFIG_FOR_BUILD PUGL
# A packager's second step, "make install", often comes without the flags of the first:
# what it isn't told is as it was when the folder was built.
ifneq ($(and $(filter install,$(MAKECMDGOALS)),$(wildcard $(BUILD)/flags)),)
$(foreach name,$(SETTABLE),$(if $(filter undefined default,$(origin $(name))),$(eval \
	$(name) := $$(shell sed -n 's/^$(name)=//p' $(BUILD)/flags))))
endif
CFLAGS ?= $(OPTIMISE) -g
PKG_CONFIG ?= pkg-config
# Pugl's pkg-config name: the one with worlds (0.5) where it is there, else the first (Debian 12's).
ifeq ($(PUGL),)
PUGL := $(shell $(PKG_CONFIG) --exists pugl-gl-0 2>/dev/null && echo pugl-gl-0 || echo pugl-0)
endif
OTHER_PUGL := $(if $(filter pugl-gl-0,$(PUGL)),first,current)
PKG_CONFIG_FOR_BUILD ?= pkg-config
V := # V=1 shows the commands
Q := $(if $(V),,@)

# Warnings stop nothing here; they stay beside the object, and "make check" wants none.
WARNINGS := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion \
	-Wdouble-promotion -Wcast-qual -Wcast-align -Wstrict-prototypes -Wmissing-prototypes \
	-Wundef -Wvla -Wswitch-enum -Wformat=2
# Of each function's stack, in bytes: a host's thread may have 64 kB for all that is called.
# The sanitizers need more.
FRAME_MOST := 16384
FRAMES = $(if $(SANITIZE),,-Wframe-larger-than=$(FRAME_MOST))
# Looked up when used, not before: at first the packages may be missing.
LIBRARIES = lv2 lilv-0 sratom-0 serd-0 sord-0 pangocairo $(PUGL) fluidsynth sndfile
outside = $(shell $(1) --cflags-only-I $(2) | sed 's/-I/-isystem /g')
OUTSIDE_FLAGS = $(eval OUTSIDE_FLAGS := $$(call outside,$(PKG_CONFIG),$(LIBRARIES)))$(OUTSIDE_FLAGS)
BANK_LIBS = $(eval BANK_LIBS := $$(shell $(PKG_CONFIG) --libs sord-0 serd-0))$(BANK_LIBS)
DRAW_LIBS = $(eval DRAW_LIBS := $$(shell $(PKG_CONFIG) --libs pangocairo cairo))$(DRAW_LIBS)
SOUND_LIBS = $(eval SOUND_LIBS := $$(shell $(PKG_CONFIG) --libs fluidsynth sndfile))$(SOUND_LIBS)
PANE_LIBS = $(eval PANE_LIBS := $$(shell $(PKG_CONFIG) --libs $(PUGL) gl x11))$(PANE_LIBS)
HOST_LIBS = $(eval HOST_LIBS := $$(shell $(PKG_CONFIG) --libs lilv-0 sratom-0))$(HOST_LIBS)
# A host's process is everybody's: what is written past its end is caught, and the tables of
# calls can't be written once loaded.  First, so that a packager's flags win.  Fortifying
# wants an optimizer, and is said once; the sanitizers do their own.
HARD = -fstack-protector-strong $(FORTIFY)
FORTIFY = $(if $(SANITIZE)$(findstring _FORTIFY_SOURCE,$(CPPFLAGS) $(CFLAGS)),,$(if \
	$(filter-out -O0,$(lastword $(filter -O%,$(CFLAGS)))),-U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2))
HARD_LINK = -Wl,-z,relro,-z,now,-z,noexecstack
# Last, so that they hold.  -ffp-contract=off: every compiler computes the same frame for
# a stroke.
OWN_FLAGS = -std=c11 -D_POSIX_C_SOURCE=200809L -D_XOPEN_SOURCE=700 -fPIC \
	-fvisibility=hidden -ffp-contract=off -MMD -MP -DFOURLIMB_VERSION='"$(VERSION)"'
COMPILE = $(CC) $(WARNINGS) $(FRAMES) $(HARD) $(CPPFLAGS) $(CFLAGS) $(SANITIZE) $(OWN_FLAGS) $(OUTSIDE_FLAGS)
LINK = $(CC) $(HARD_LINK) $(CFLAGS) $(SANITIZE) $(LDFLAGS)
# Some linkers' own symbols are seen unless told off.
EXPORTS := ttl/exports.map
LINK_LIBRARY = $(LINK) -shared -Wl,--no-undefined,-z,defs -Wl,--version-script=$(EXPORTS)

# The programs that the build runs share their objects with the rest, unless another
# compiler makes them.
ifeq ($(CC_FOR_BUILD),)
TOOLS := $(BUILD)
LINK_TOOL = $(LINK)
TOOL_LIBS = $(BANK_LIBS)
else
TOOLS := $(BUILD)/for-build
COMPILE_TOOL = $(CC_FOR_BUILD) $(CPPFLAGS_FOR_BUILD) $(CFLAGS_FOR_BUILD) $(OWN_FLAGS) $(TOOL_FLAGS)
LINK_TOOL = $(CC_FOR_BUILD) $(CFLAGS_FOR_BUILD) $(LDFLAGS_FOR_BUILD)
TOOL_FLAGS = $(eval TOOL_FLAGS := $$(call outside,$(PKG_CONFIG_FOR_BUILD),sord-0 serd-0))$(TOOL_FLAGS)
TOOL_LIBS = $(shell $(PKG_CONFIG_FOR_BUILD) --libs sord-0 serd-0)
endif

objects = $(patsubst %.c,$(BUILD)/%.o,$(wildcard $(1)))
ENGINE := $(call objects,plugin/engine/*/*.c)
BANK_READER := $(call objects,plugin/bank/*.c)
BANK := $(BANK_READER) $(BUILD)/compiled_factory.o
TALK := $(call objects,plugin/talk/*.c)
LV2 := $(call objects,plugin/lv2/*.c) $(TALK)
SCENE := $(call objects,ui/scene/*.c)
FIND := $(call objects,ui/find/*.c)
DESK := $(call objects,ui/desk/*.c) $(FIND)
PAPER := $(call objects,ui/paper/*.c) $(call objects,ui/notation/*.c)
COMMAND := $(call objects,ui/command/*.c) $(call objects,ui/paper/*.c) $(call objects,ui/file/*.c) $(call objects,ui/notation/*.c) \
	$(call objects,plugin/check/*.c) $(SCENE) $(FIND)
PANE := $(filter-out %_$(OTHER_PUGL).o,$(call objects,ui/pane/pane*.c))
FILES := $(call objects,ui/file/*.c)
WINDOW := $(call objects,ui/window/*.c) $(FILES) $(PAPER) $(PANE) $(DESK) $(SCENE)
BANK_FILES := $(wildcard presets/*.ttl) ttl/terms.ttl
PRESETS := $(patsubst presets/ports/%.ttl.in,$(BUNDLE)/presets/%.ttl,$(wildcard presets/ports/*.ttl.in))
MAN_PAGE := man/man1/fourlimb.1
COMPLETION := bash-completion/completions/fourlimb
TESTS := $(patsubst tests/%.c,$(BUILD)/tests/%,$(wildcard tests/*/test_*.c))
TEST_HELP := $(call objects,tests/help/*.c)

.PHONY: all
all: $(BUNDLE)/fourlimb.so $(BUNDLE)/fourlimb_ui.so $(BUNDLE)/groove.ttl $(BUNDLE)/ui.ttl \
	$(BUNDLE)/about.html $(BUNDLE)/LICENSE \
	$(PRESETS) $(BUILD)/fourlimb $(BUILD)/$(MAN_PAGE) $(BUILD)/$(COMPLETION) ## Build the plugin bundle and the command line

.PHONY: help
help: ## List these targets
	@awk -F ':.*## ' '/^[a-z]+:.*## /{printf "make %-11s %s\n", $$1, $$2}' Makefile

# ---- Building

# Objects depend on the flags they were made with.
PLACES := $(CURDIR) $(abspath $(BUILD))
PKG_CONFIG_ASKS := $(PKG_CONFIG_PATH) $(PKG_CONFIG_LIBDIR) $(PKG_CONFIG_SYSROOT_DIR)
FLAGS := $(SETTABLE) SANITIZE WARNINGS FRAME_MOST HARD HARD_LINK OWN_FLAGS PLACES PKG_CONFIG_ASKS
quoted = '$(subst ','\'',$(1))'
ifneq ($(shell cat $(BUILD)/flags 2>/dev/null),$(strip $(foreach name,$(FLAGS),$(name)=$(strip $($(name))))))
$(BUILD)/flags: FORCE
endif
.PHONY: FORCE
$(BUILD)/flags:
	@mkdir -p $(@D)
	@printf '%s\n' $(foreach name,$(FLAGS),$(call quoted,$(name)=$(strip $($(name))))) >$@

compile = $(1) -c $< -o $@ 2>$@.said; status=$$?; cat $@.said >&2; exit $$status

$(BUILD)/%.o: %.c $(BUILD)/flags
	@mkdir -p $(@D)
	@echo "  CC   $<"
	$(Q)$(call compile,$(COMPILE) $(TEST_FLAGS))

$(BUILD)/tests/%.o: FRAMES :=
$(BUILD)/tests/%.o: TEST_FLAGS = -DFOURLIMB_BUILD='"$(abspath $(BUILD))"' -DFOURLIMB_SOURCE='"$(CURDIR)"'

$(BUILD)/for-build/%.o: %.c $(BUILD)/flags
	@mkdir -p $(@D)
	@echo "  CC   $< (for the build)"
	$(Q)$(call compile,$(COMPILE_TOOL))

$(BUNDLE)/fourlimb.so: $(ENGINE) $(BANK) $(LV2) $(EXPORTS)
	@mkdir -p $(@D)
	@echo "  LINK $@"
	$(Q)$(LINK_LIBRARY) -o $@ $(filter %.o,$^) $(BANK_LIBS) -lm

$(BUNDLE)/fourlimb_ui.so: $(WINDOW) $(TALK) $(BANK) $(ENGINE) $(EXPORTS)
	@mkdir -p $(@D)
	@echo "  LINK $@"
	$(Q)$(LINK_LIBRARY) -o $@ $(filter %.o,$^) $(DRAW_LIBS) $(PANE_LIBS) $(BANK_LIBS) -lm

$(BUNDLE)/bank/terms.ttl: $(BANK_FILES)
	@rm -rf $(@D) && mkdir -p $(@D)
	cp $(BANK_FILES) $(@D)

# The programs that the build runs read the bank; the rest have it compiled.
$(addprefix $(TOOLS)/,points complete compile): $(TOOLS)/%: $(TOOLS)/ttl/%.o $(TOOLS)/ttl/uncompiled.o \
		$(BANK_READER:$(BUILD)/%=$(TOOLS)/%) $(ENGINE:$(BUILD)/%=$(TOOLS)/%)
	@echo "  LINK $@"
	$(Q)$(LINK_TOOL) -o $@ $^ $(TOOL_LIBS) -lm

$(BUILD)/compiled_factory.c: $(TOOLS)/compile $(BUNDLE)/bank/terms.ttl
	$(TOOLS)/compile $(BUNDLE)/bank > $@.part
	@mv $@.part $@

$(BUILD)/compiled_factory.o: $(BUILD)/compiled_factory.c $(BUILD)/flags
	@echo "  CC   $<"
	$(Q)$(call compile,$(COMPILE) -iquote .)

$(BUNDLE)/presets/%.ttl: presets/ports/%.ttl.in $(TOOLS)/complete $(BUNDLE)/bank/terms.ttl
	@mkdir -p $(@D)
	$(TOOLS)/complete $(BUNDLE)/bank < $< > $@.part
	@mv $@.part $@

$(BUNDLE)/ui.ttl $(BUNDLE)/about.html: $(BUNDLE)/%: ttl/%
	@mkdir -p $(@D)
	cp $< $@

$(BUNDLE)/LICENSE: LICENSE
	@mkdir -p $(@D)
	cp $< $@

# Hosts find presets by the manifest, which names each and the file it is in.
$(BUNDLE)/manifest.ttl: ttl/manifest.ttl $(wildcard presets/ports/*.ttl.in)
	@mkdir -p $(@D)
	cat $< > $@.part
	@echo "@prefix pset: <http://lv2plug.in/ns/ext/presets#> ." >> $@.part
	@for file in $(PRESETS:$(BUNDLE)/%=%); do sed -n "s|^<urn:fourlimb:preset:.*>$$|&\n\ta pset:Preset ;\n\tlv2:appliesTo <urn:fourlimb:groove> ;\n\trdfs:seeAlso <$$file> .|p" \
		presets/ports/$$(basename $$file).in >> $@.part; done
	@mv $@.part $@

$(BUNDLE)/groove.ttl: ttl/groove.ttl.in $(TOOLS)/points $(BUNDLE)/bank/terms.ttl $(BUNDLE)/manifest.ttl
	$(TOOLS)/points $(BUNDLE)/bank < $< > $@.part
	mv $@.part $@

$(BUILD)/fourlimb: $(COMMAND) $(TALK) $(BANK) $(ENGINE)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ $(HOST_LIBS) $(DRAW_LIBS) $(SOUND_LIBS) $(BANK_LIBS) -lm

$(TOOLS)/manual: $(patsubst %,$(TOOLS)/ui/%.o,manual/manual command/help command/listed command/options command/request command/section command/typed command/varied)
	@echo "  LINK $@"
	$(Q)$(LINK_TOOL) -o $@ $^ -lm

$(BUILD)/$(MAN_PAGE): WHAT := man
$(BUILD)/$(COMPLETION): WHAT := bash
$(BUILD)/$(MAN_PAGE) $(BUILD)/$(COMPLETION): $(TOOLS)/manual
	@mkdir -p $(@D)
	$(TOOLS)/manual $(WHAT) > $@.part
	@mv $@.part $@

# Objects are kept: most are needed again.
.SECONDARY:

-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)

# ---- Test programs: every tests/*/test_*.c is one

COMMAND_ROOM := $(filter-out %/main.o,$(COMMAND))
STAGE := $(BUILD)/tests/scene/stage.o $(BUILD)/tests/scene/scenes.o $(BUILD)/tests/scene/scenes_names.o $(BUILD)/tests/scene/scenes_looks.o \
         $(BUILD)/tests/scene/scenes_vary.o
TEST_ROOM := $(TEST_HELP) $(STAGE) $(DESK) $(COMMAND_ROOM) $(TALK) $(BANK) $(ENGINE)

# Where a test has __wrap_ functions the linker puts them before the C library's.
wrapped = $(foreach name,$(1),-Wl,--wrap=$(name))
$(BUILD)/tests/desk/test_bank_again: WRAP = $(call wrapped,calloc)
$(BUILD)/tests/%: $(BUILD)/tests/%.o $(BUILD)/ui/window/export.o $(TEST_ROOM)
	@echo "  LINK $@"
	$(Q)$(LINK) $(WRAP) -rdynamic -o $@ $^ $(HOST_LIBS) $(DRAW_LIBS) $(SOUND_LIBS) $(BANK_LIBS) -lm

$(BUILD)/pictures: $(BUILD)/tests/scene/pictures.o $(TEST_ROOM)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ $(HOST_LIBS) $(DRAW_LIBS) $(SOUND_LIBS) $(BANK_LIBS) -lm

$(BUILD)/picture: $(call objects,tests/feel/picture*.c)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ $(DRAW_LIBS) -lm

LIVE_ROOM := $(BUILD)/tests/live/child.o $(BUILD)/tests/live/jack_driver.o \
	$(BUILD)/tests/live/stage.o $(BUILD)/tests/live/tab.o
$(BUILD)/tests/live/test_jalv: $(BUILD)/tests/live/test_jalv.o $(TEST_HELP) $(LIVE_ROOM)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ -ljack -lpthread -lm

$(BUILD)/tests/live/take: $(BUILD)/tests/live/take.o $(TEST_HELP) $(BUILD)/tests/live/child.o $(BUILD)/tests/live/jack_driver.o
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ -ljack -lpthread -lm

$(BUILD)/tests/live/pad: $(BUILD)/tests/live/pad.o $(TEST_HELP)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ -ljack -lpthread -lm

# -rdynamic: a test's own glXSwapBuffers is then the one that Pugl calls.
PANE_ROOM := $(BUILD)/tests/live/child.o \
	$(patsubst %,$(BUILD)/tests/pane/%.o,host xvfb scene shown)
PANE_TESTS := $(filter $(BUILD)/tests/pane/%,$(TESTS))
$(PANE_TESTS): $(BUILD)/tests/pane/%: $(BUILD)/tests/pane/%.o $(TEST_HELP) $(PANE_ROOM) $(PANE)
	@echo "  LINK $@"
	$(Q)$(LINK) -rdynamic -o $@ $^ $(PANE_LIBS) -ldl -lm

# Where LV2's example plugins are, to measure against.
BENCH_EXAMPLES := /usr/lib/lv2

# What is measured is loaded, as hosts do.
$(addprefix $(BUILD)/tests/bench/,blocks worst): %: %.o $(BUILD)/tests/bench/stand.o \
		$(BUILD)/ui/command/uri_table.o $(BUILD)/plugin/engine/groove/controls.o
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ -ldl

$(BUILD)/tests/bench/strokes: $(BUILD)/tests/bench/strokes.o $(ENGINE)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ -lm

$(BUILD)/tests/bench/scan: $(BUILD)/tests/bench/scan.o
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ $(HOST_LIBS)

$(BUILD)/tests/bench/empty.so: $(BUILD)/tests/bench/empty.o
	@echo "  LINK $@"
	$(Q)$(LINK) -shared -o $@ $^

$(BUILD)/tests/bench/pane: $(BUILD)/tests/bench/pane.o $(TEST_HELP) $(filter-out %/shown.o,$(PANE_ROOM)) $(PANE)
	@echo "  LINK $@"
	$(Q)$(LINK) -o $@ $^ $(PANE_LIBS) -lm

# The window's own room isn't linked in: the tests load it, as hosts do; with -rdynamic it
# finds a test's own glTexImage2D first.
RIG := $(BUILD)/tests/window/rig.o $(BUILD)/tests/window/sight.o $(BUILD)/tests/window/person.o \
	$(LIVE_ROOM) $(BUILD)/tests/pane/xvfb.o $(patsubst %,$(BUILD)/ui/command/%.o,host jobs uri_table) \
	$(DESK) $(SCENE)
IN_RIG := $(filter $(BUILD)/tests/window/%,$(TESTS)) $(BUILD)/tests/window/shots $(BUILD)/tests/bench/window
$(IN_RIG): $(BUILD)/tests/%: $(BUILD)/tests/%.o $(TEST_HELP) $(RIG) $(TALK) $(BANK) $(ENGINE)
	@echo "  LINK $@"
	$(Q)$(LINK) -rdynamic -o $@ $^ $(HOST_LIBS) $(DRAW_LIBS) $(BANK_LIBS) -lX11 -ljack -ldl -lpthread -lm

# The plugin linked in.
DIRECT := $(patsubst %,$(BUILD)/tests/plugin/test_%,no_memory small_stack instances inbox ports queue)
$(BUILD)/tests/plugin/test_no_memory: WRAP = $(call wrapped,malloc calloc realloc strdup strndup realpath)
$(BUILD)/tests/plugin/test_instances: WRAP = $(call wrapped,malloc calloc realloc strdup fopen)
$(DIRECT): $(BUILD)/tests/%: $(BUILD)/tests/%.o $(TEST_HELP) $(BUILD)/ui/command/uri_table.o $(LV2) $(BANK) $(ENGINE)
	@echo "  LINK $@"
	$(Q)$(LINK) $(WRAP) -o $@ $^ $(BANK_LIBS) -lpthread -lm

# Inputs of the outside world by chance: each tests/fuzz/fuzz_*.c is fed by libFuzzer, or by
# replay.c with the inputs that are kept.
FUZZERS := $(patsubst tests/%.c,$(BUILD)/tests/%,$(wildcard tests/fuzz/fuzz_*.c))
FUZZER := # -fsanitize=fuzzer: the program finds inputs by itself
$(FUZZERS): $(BUILD)/tests/fuzz/%: $(BUILD)/tests/fuzz/%.o $(if $(FUZZER),,$(BUILD)/tests/fuzz/replay.o) \
		$(BUILD)/tests/fuzz/fuzz.o $(DESK) $(COMMAND_ROOM) $(LV2) $(BANK) $(ENGINE)
	@echo "  LINK $@"
	$(Q)$(LINK) $(FUZZER) -o $@ $^ $(HOST_LIBS) $(DRAW_LIBS) $(SOUND_LIBS) $(BANK_LIBS) -lpthread -lm

# ---- What people do with it

DEMO := $(BUILD)/demo

.PHONY: run demo
run: ## Install what is missing, build, and play the demo into build/demo
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD)"
	@$(MAKE) --no-print-directory -j2 all
	@$(MAKE) --no-print-directory demo

# A song of the invented band Salt Funicular from its plan; and one part taken apart, feet alone.
demo: all
	@mkdir -p $(DEMO)
	@echo "Playing through the plugin in $(BUNDLE):"
	@$(BUILD)/fourlimb song presets/songs/last-car-to-ostrel.ttl --out $(DEMO)/last-car-to-ostrel.mid --force
	@$(BUILD)/fourlimb song presets/songs/last-car-to-ostrel.ttl --out $(DEMO)/last-car-to-ostrel.wav --force >/dev/null
	@$(BUILD)/fourlimb practice --groove "Brine Stair" --out $(DEMO)/brine-stair-practice --force >/dev/null
	@$(BUILD)/fourlimb show --groove "Lower Station" > $(DEMO)/lower-station.txt
	@$(BUILD)/fourlimb chart --groove "Lower Station" --out $(DEMO)/lower-station.pdf --force
	@echo
	@sed -n '1,/^bar 2/p' $(DEMO)/lower-station.txt | sed '$$d'
	@echo
	@echo "Made: $(DEMO)/last-car-to-ostrel.wav and .mid (the song), brine-stair-practice (a set to practise by),"
	@echo "      lower-station.pdf (the first groove as a chart), lower-station.txt (the same as text)."
	@echo "Open a .mid file in any program that plays MIDI; drums are on channel 10, General MIDI keys."
	@echo "In a recording host: \"make install\", then put the plugin \"Fourlimb\" on a MIDI track in front"
	@echo "of a drum instrument and start the transport.  Without installing: LV2_PATH=$(BUILD)/lv2 HOST"

.PHONY: play
play: ## Open the plugin in jalv on JACK or PipeWire, with fluidsynth to hear it
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) $(PACKAGES_PLAY)"
	@$(MAKE) --no-print-directory -j2 all
	@sh ui/play.sh $(BUILD)

PREFIX ?=
LIBDIR ?= $(if $(PREFIX),$(PREFIX)/lib)
BINDIR ?= $(if $(PREFIX),$(PREFIX)/bin,$(HOME)/.local/bin)
LV2DIR ?= $(if $(LIBDIR),$(LIBDIR)/lv2,$(HOME)/.lv2)
DATADIR ?= $(if $(PREFIX),$(PREFIX)/share,$(or $(XDG_DATA_HOME),$(HOME)/.local/share))
INSTALLED := $(DESTDIR)$(LV2DIR)/fourlimb.lv2
INSTALL := install

.PHONY: install uninstall clean
install: all ## Install for this user, or under PREFIX (DESTDIR, LIBDIR, BINDIR, DATADIR are honoured)
	rm -rf "$(INSTALLED)"
	$(INSTALL) -d "$(INSTALLED)/bank" "$(INSTALLED)/presets" "$(DESTDIR)$(BINDIR)"
	$(INSTALL) -m 644 $(BUNDLE)/*.so $(BUNDLE)/*.ttl $(BUNDLE)/about.html $(BUNDLE)/LICENSE "$(INSTALLED)"
	$(INSTALL) -m 644 $(BUNDLE)/bank/*.ttl "$(INSTALLED)/bank"
	$(INSTALL) -m 644 $(BUNDLE)/presets/*.ttl "$(INSTALLED)/presets"
	$(INSTALL) -m 755 $(BUILD)/fourlimb "$(DESTDIR)$(BINDIR)"
	$(INSTALL) -D -m 644 $(BUILD)/$(MAN_PAGE) "$(DESTDIR)$(DATADIR)/$(MAN_PAGE)"
	$(INSTALL) -D -m 644 $(BUILD)/$(COMPLETION) "$(DESTDIR)$(DATADIR)/$(COMPLETION)"

uninstall: ## Remove what "make install" put there
	rm -rf "$(INSTALLED)"
	rm -f "$(DESTDIR)$(BINDIR)/fourlimb" "$(DESTDIR)$(DATADIR)/$(MAN_PAGE)" "$(DESTDIR)$(DATADIR)/$(COMPLETION)"

clean: ## Remove the build folder
	rm -rf $(BUILD)

# ---- Tests

SCRIPTS := tests/checks/layers.sh tests/checks/circles.sh tests/checks/names.sh tests/checks/kind.sh tests/checks/binaries.sh tests/checks/sources.sh \
	tests/checks/instructions.sh tests/checks/linear.sh tests/checks/same.sh tests/checks/packager.sh tests/checks/runner.sh \
	tests/plugin/validate.sh tests/command/command.sh tests/command/refusals.sh tests/command/options.sh tests/command/chart.sh \
	tests/command/wav.sh tests/command/sound.sh tests/command/interrupt.sh tests/command/practice.sh tests/command/plan.sh tests/command/song.sh tests/command/presets.sh tests/command/play.sh tests/command/vary.sh tests/command/listen.sh tests/command/keep.sh tests/command/list.sh tests/command/audition.sh tests/feel/pictures.sh tests/live/play.sh tests/live/pipewire.sh \
	tests/live/session.sh tests/live/located.sh tests/live/learn.sh tests/live/windows.sh tests/pane/cures.sh tests/fuzz/replay.sh
SAN := -fsanitize=address,undefined,float-cast-overflow -fno-sanitize-recover=all -fno-omit-frame-pointer

.PHONY: tests test check hosts crosscheck feel screenshots format bench goldens
tests: all $(TESTS) $(FUZZERS) $(BUILD)/picture $(BUILD)/tests/live/take $(BUILD)/tests/live/pad $(BUILD)/tests/bench/blocks \
	$(BUILD)/tests/bench/empty.so $(BUILD)/tests/bench/scan $(BUILD)/tests/bench/worst $(BUILD)/tests/bench/strokes \
	$(BUILD)/tests/bench/reading $(BUILD)/tests/bench/instances $(BUILD)/tests/bench/pane $(BUILD)/tests/bench/window

test: tests ## Run the quick tests only: every test program, once
	@sh tests/run.sh $(BUILD) $(TESTS)

check: ## Install what is missing, build and run every test
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) $(PACKAGES_CHECK)"
	@$(MAKE) --no-print-directory -j2 tests
	@$(MAKE) --no-print-directory -j2 tests BUILD=build/clang CC=clang
	@$(MAKE) --no-print-directory -j2 tests BUILD=build/sanitize OPTIMISE=-O1 SANITIZE="$(SAN)"
	@sh tests/run.sh $(BUILD) $(TESTS) $(SCRIPTS) tests/checks/sanitized.sh

# -O2 and no waiting for a bank: thousands of inputs a second.
MINUTES := 2
FUZZ :=
fuzz: ## Feed control port, state, texts, window and command line by chance, MINUTES each (FUZZ=name: one)
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) $(PACKAGES_FUZZ)"
	@$(MAKE) --no-print-directory -j2 fuzzers BUILD=$(BUILD)/fuzz CC=clang OPTIMISE=-O2 \
		SANITIZE="$(SAN) -fsanitize=fuzzer-no-link" FUZZER=-fsanitize=fuzzer
	@sh tests/fuzz/fuzz.sh $(BUILD) $(MINUTES) $(FUZZ)

.PHONY: fuzz fuzzers
fuzzers: $(BUNDLE)/bank/terms.ttl $(FUZZERS)

hosts: ## Install Ardour and Qtractor and test inside them, with windows and without
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) $(PACKAGES_CHECK) $(PACKAGES_HOSTS)"
	@$(MAKE) --no-print-directory -j2 all
	@sh tests/run.sh $(BUILD) tests/hosts/run.sh tests/hosts/ardour.sh tests/hosts/qtractor.sh

screenshots: ## Draw the README's pictures of the window and the feel anew, into ui/docs
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) $(PACKAGES_CHECK)"
	@$(MAKE) --no-print-directory -j2 all $(BUILD)/tests/window/shots $(BUILD)/picture $(BUILD)/tests/feel/test_drummers
	@XDG_DATA_HOME=$(abspath $(BUILD))/nobody $(BUILD)/tests/window/shots $(BUILD)
	@for shot in $(BUILD)/window-*.png; do \
		convert $$shot -strip +dither -colors 256 -define png:compression-level=9 PNG8:ui/docs/$$(basename $$shot) || exit 1; done
	@$(BUILD)/fourlimb chart --groove "The Switchman" --out $(BUILD)/the-switchman.png --force
	@convert $(BUILD)/the-switchman.png -strip +dither -colors 64 -define png:compression-level=9 PNG8:ui/docs/the-switchman.png
	@sh tests/feel/draw.sh $(BUILD) $(DEMO)
	@convert $(DEMO)/feel-offsets.png -strip +dither -colors 64 -define png:compression-level=9 PNG8:ui/docs/feel.png

feel: ## Draw how the feel plays beside what drummers do, and print the figures (build/demo/feel*)
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) $(PACKAGES_FEEL)"
	@$(MAKE) --no-print-directory -j2 all $(BUILD)/picture $(BUILD)/tests/feel/test_drummers
	@sh tests/feel/draw.sh $(BUILD) $(DEMO)
	@echo "Made: $(DEMO)/feel-offsets.png, feel-habits.png, feel-contour.png, feel-liberty.png, feel.txt (figures), feel-*.mid"

crosscheck: ## Install LilyPond and an npm package, and compare rhythms with theirs
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BUILD) midicsv"
	@command -v npm >/dev/null || $(MAKE) --no-print-directory packages ROWS="$(PACKAGES_NODE)"
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_CROSSCHECK)"
	@$(MAKE) --no-print-directory -j2 all
	@sh tests/run.sh $(BUILD) tests/crosscheck/run.sh

format: ## Lay out every source by clang-format
	clang-format -i $$(find plugin ui ttl tests -name '*.[ch]')

# Small enough to keep: 128 colours are within what the comparison lets pass.
GOLDEN := tests/scene/golden
goldens: all $(BUILD)/pictures ## Draw the pictures anew that tests/scene/test_pictures compares with
	@mkdir -p $(GOLDEN) $(BUILD)/goldens
	@rm -f $(GOLDEN)/*.png $(BUILD)/goldens/*.png
	@XDG_DATA_HOME=$(BUILD) $(BUILD)/pictures $(BUILD)/goldens
	@for picture in $(BUILD)/goldens/*.png; do \
		convert $$picture +dither -colors 128 -strip -define png:compression-level=9 \
			PNG8:$(GOLDEN)/$$(basename $$picture) || exit 1; done
	@du -sh $(GOLDEN)

bench: tests ## Measure against LV2's examples: instructions per block, instances, scan, window
	@$(MAKE) --no-print-directory packages ROWS="$(PACKAGES_BENCH)"
	@sh tests/bench/bench.sh $(BUILD) $(BENCH_EXAMPLES)

# ---- Packages: only what is missing is asked for, so that a machine that has
# ---- them needs neither network nor root.
.PHONY: packages
packages:
	@command -v dpkg-query >/dev/null || { echo "Without dpkg, it is for you to see that these are there (names as in Debian 12): $(ROWS)"; exit 0; }; \
	missing=; for p in $(ROWS); do \
		dpkg-query -W -f '$${db:Status-Status}\n' $$p 2>/dev/null | grep -qx installed || missing="$$missing $$p"; done; \
	[ -z "$$missing" ] && exit 0; \
	command -v apt-get >/dev/null || { echo "Install these first:$$missing"; exit 1; }; \
	sudo=; [ "$$(id -u)" = 0 ] || sudo=sudo; \
	echo "Installing:$$missing"; \
	export DEBIAN_FRONTEND=noninteractive; \
	$$sudo apt-get update -qq && $$sudo apt-get install -y -qq --no-install-recommends $$missing
