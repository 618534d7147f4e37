% SPDX-License-Identifier: ISC
% Bars of tuplets for LilyPond to play as MIDI; run.sh renders the same by the
% plugin.  Each score is a file of its own: tuplets.midi, tuplets-1.midi ...
\version "2.24.0"

bar = #(define-music-function (notes) (ly:music?)
  #{ \new DrumStaff \drummode { \time 4/4 \tempo 4 = 120 #notes } #})

% 0: a beat each of triplets, quintuplets, sextuplets and septuplets
\score { \bar \drummode {
  \tuplet 3/2 { bd8 bd bd }
  \tuplet 5/4 { bd16 bd bd bd bd }
  \tuplet 6/4 { bd16 bd bd bd bd bd }
  \tuplet 7/4 { bd16 bd bd bd bd bd bd }
} \midi { } }

% 1: five over four beats
\score { \bar \drummode { \tuplet 5/4 { bd4 bd bd bd bd } } \midi { } }

% 2: seven over two beats, twice
\score { \bar \drummode { \repeat unfold 2 { \tuplet 7/4 { bd8 bd bd bd bd bd bd } } } \midi { } }

% 3 to 6: a bar of triplets, quintuplets, sextuplets, septuplets
\score { \bar \drummode { \repeat unfold 4 { \tuplet 3/2 { bd8 bd bd } } } \midi { } }
\score { \bar \drummode { \repeat unfold 4 { \tuplet 5/4 { bd16 bd bd bd bd } } } \midi { } }
\score { \bar \drummode { \repeat unfold 4 { \tuplet 6/4 { bd16 bd bd bd bd bd } } } \midi { } }
\score { \bar \drummode { \repeat unfold 4 { \tuplet 7/4 { bd16 bd bd bd bd bd bd } } } \midi { } }

% 7: a shuffle, the triplet without its middle
\score { \bar \drummode { \repeat unfold 4 { \tuplet 3/2 { bd4 bd8 } } } \midi { } }
