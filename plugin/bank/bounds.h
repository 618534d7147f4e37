// SPDX-License-Identifier: ISC
/* bounds.h - what the bank reads at most, each bound with its reason.  Whoever comes
   to one is told so by the name of the file. */
#pragma once

enum {
    /* [ ] and ( ) inside each other.  The parser calls itself for each, on the stack of
       whatever thread a host calls us in: 550 bytes a level
       (tests/bank/test_gauge prints it).  Entries need one. */
    DEPTH_MOST = 16,

    /* [ ] and ( ) in one sentence, inside each other or side by side, as the parser
       itself counts them: should it ever see other brackets than gauge.c does, it is
       still no deeper than this, 70 kB.  The largest entry, a kit map, has some 30. */
    NESTS_MOST = 128,

    /* A text of one figure or kit map to play or save: what a window can send at once;
       the largest figure has about 16 kB. */
    SINGLE_BYTES_MOST = 32768,

    /* One file, or one text of a session, and all files of a bank.  A thousand own
       entries, as many as there are ids, have about 2 MB; the factory's bank 0.3 MB. */
    FILE_MEGABYTES_MOST = 4,
    BANK_MEGABYTES_MOST = 8,
    FILE_BYTES_MOST = FILE_MEGABYTES_MOST * 1024 * 1024,
    BANK_BYTES_MOST = BANK_MEGABYTES_MOST * 1024 * 1024,

    /* A thousand own entries, one a file, and as many files again. */
    FILES_MOST = 2000,

    /* Of all files.  A figure of 16 lines makes 105, so a thousand of them with the
       factory's bank come to half of it. */
    STATEMENTS_MOST = 250000,

    /* Of one file.  Every name is looked up among all, and written out whole: a bank
       uses five, and their names have less than 60 bytes. */
    PREFIXES_MOST = 64,
    PREFIX_BYTES_MOST = 512,

    /* What follows a broken sentence is read again from the line after its beginning.
       Bytes read of one file, in all: this many times its size. */
    READINGS_MOST = 4
};
