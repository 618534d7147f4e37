#!/bin/sh
# SPDX-License-Identifier: ISC
# validate.sh BUILD - the bundle's Turtle before the official validators, and the
# validators before planted faults: one that finds nothing in those proves nothing.
# lv2_validate exits 0 on a syntax error too, so its words are read as well.

build=${1:?usage: validate.sh BUILD_FOLDER}
bundle=$build/lv2/fourlimb.lv2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
passed=0 failed=0 skipped=0

# report NAME STATUS: one line for a test; what was said before it if it failed.
report() {
    if [ "$2" -eq 0 ]; then
        passed=$((passed + 1))
        echo "ok - $1"
    else
        failed=$((failed + 1))
        [ -s "$work/said" ] && sed 's/^/# /' "$work/said" | head -n 12
        echo "not ok - $1"
    fi
}

skip() {
    skipped=$((skipped + 1))
    echo "# skipped: $2"
    echo "skip - $1"
}

have() {
    command -v "$1" >/dev/null 2>&1
}

# valid FILE...: true if lv2_validate finds nothing wrong with them.
valid() {
    lv2_validate "$@" >"$work/said" 2>&1
    grep -q '^Found 0 errors' "$work/said" && ! grep -q '^error' "$work/said"
}

# expect_valid NAME FILE...
expect_valid() {
    name=$1
    shift
    valid "$@"
    report "$name" $?
}

# expect_fault NAME FILE SED: the file with a fault in it must not pass.
expect_fault() {
    sed "$3" "$2" >"$work/faulty.ttl"
    if cmp -s "$2" "$work/faulty.ttl"; then
        echo "the fault was not planted: $3" >"$work/said"
        report "$1" 1
    elif valid "$bundle/bank/terms.ttl" "$work/faulty.ttl"; then
        report "$1" 1
    else
        report "$1" 0
    fi
}

check_syntax() {
    : >"$work/said"
    for file in "$bundle"/*.ttl "$bundle"/bank/*.ttl "$bundle"/presets/*.ttl; do
        serdi -q "$file" >/dev/null 2>>"$work/said" || return 1
    done
}

check_syntax_fault() {
    printf '@prefix fl: <urn:fourlimb:terms#> .\nfl:a fl:b fl:c\nfl:d fl:e fl:f .\n' >"$work/faulty.ttl"
    ! serdi -q "$work/faulty.ttl" >/dev/null 2>"$work/said"
}

if have serdi; then
    check_syntax
    report "every file of the bundle is Turtle" $?
    check_syntax_fault
    report "a sentence without its end is not Turtle" $?
else
    skip "every file of the bundle is Turtle" "serdi is not installed"
fi

if have lv2_validate && have sord_validate; then
    expect_valid "the manifest, the plugin data and the presets are valid LV2" \
        "$bundle/manifest.ttl" "$bundle/groove.ttl" "$bundle"/presets/*.ttl
    expect_valid "the bank is valid by its vocabulary" "$bundle"/bank/*.ttl
    expect_valid "everything together is valid" "$bundle"/*.ttl "$bundle"/bank/*.ttl "$bundle"/presets/*.ttl
    expect_fault "an id that is a word is found" "$bundle/bank/feet.ttl" 's/fl:id 5 ;/fl:id "five" ;/'
    expect_fault "a voice for a limb is found" "$bundle/bank/feet.ttl" \
        's/fl:limb fl:rightFoot/fl:limb fl:kick/'
    expect_fault "a property that the vocabulary lacks is found" "$bundle/bank/hands.ttl" \
        's/fl:grid/fl:grd/'
    expect_fault "two lengths of one figure are found" "$bundle/bank/hands.ttl" \
        's/fl:bars 1 ;/fl:bars 1 ; fl:bars 2 ;/'
    expect_fault "feet in the place of hands are found" "$bundle/bank/grooves.ttl" \
        's/fl:hands hands:[a-z-]*/fl:hands fl:rightFoot/'
    expect_fault "an index that is a word is found" "$bundle/groove.ttl" \
        's/lv2:index 3 /lv2:index "three" /'
    expect_fault "a preset without a name is found" "$bundle/presets/writing.ttl" '/rdfs:label/d'
    expect_fault "two values of one preset's port are found" "$bundle/presets/writing.ttl" \
        's/pset:value 3 /pset:value 3 ; pset:value 4 /'
    expect_fault "a syntax error is found though the validator exits well" "$bundle/groove.ttl" \
        's/a lv2:Plugin , /a lv2:Plugin /'
else
    skip "the bundle is valid LV2" "lv2_validate or sord_validate is not installed"
fi

echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" -eq 0 ]
