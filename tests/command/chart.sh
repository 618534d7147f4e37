#!/bin/sh
# SPDX-License-Identifier: ISC
# chart.sh BUILD - charts as files: each kind is what its name says, the words are in it,
# one that is there stays.  Signatures: PNG (W3C), PDF (ISO 32000), SVG (W3C).

here=$(realpath "$(dirname "$0")")
. "$here/shared.inc"

a_png_is_two_pixels_a_point_of_a4() {
	run chart --groove "The Switchman" --out a.png
	same "$status" 0 || return
	same "$(head -c 8 a.png | od -An -tx1 | tr -d ' \n')" 89504e470d0a1a0a || return
	same "$(od -An -tu1 -j16 -N8 a.png | xargs)" "0 0 4 166 0 0 6 148" # 1190 by 1684
}

a_pdf_has_a_page_for_every_four_rows() {
	run chart --groove 1 --out a.pdf
	same "$(head -c 5 a.pdf)" "%PDF-" || return
	has "$out" "8 bars on 1 page" || return
	run chart --groove "Salt Funicular" --out b.pdf
	has "$out" "on 3 pages"
}

an_svg_is_well_formed() {
	run chart --groove 140 --out a.svg && "$python" -c 'import sys, xml.dom.minidom as m
root = m.parse(sys.argv[1]).documentElement
sys.exit(root.tagName != "svg")' a.svg
}

a_chart_that_is_there_stays() {
	echo mine >mine.pdf
	run chart --groove 1 --out mine.pdf
	same "$status" 2 && has "$err" "--force" && same "$(cat mine.pdf)" mine
}

another_kind_of_file_is_refused() {
	run chart --groove 1 --out a.gif
	same "$status" 1 && has "$err" ".pdf" && [ ! -e a.gif ]
}

check "a PNG is two pixels a point of A4" a_png_is_two_pixels_a_point_of_a4
check "a PDF has a page for every four rows" a_pdf_has_a_page_for_every_four_rows
check "an SVG is well-formed" an_svg_is_well_formed
check "a chart that is there stays" a_chart_that_is_there_stays
check "another kind of file is refused" another_kind_of_file_is_refused
tally
