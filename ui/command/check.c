// SPDX-License-Identifier: ISC
#include "../../plugin/bank/in_place.h"
#include "../../plugin/bank/own_limits.h"
#include "../../plugin/bank/songs.h"
#include "../../plugin/check/bank_check.h"
#include "bundle.h"
#include "commands.h"
#include "playcheck.h"

#include <stdio.h>
#include <string.h>

static void print_right(const Bank* const bank, const EntryKind kind)
{
    for (uint32_t i = 0; i < bank_count(bank, kind); ++i) {
        const EntryInfo* const entry = bank_entry(bank, kind, i);
        if (entry->is_users) {
            printf("right: %s %s, id %u, \"%s\"\n", kind_rows[kind].word, entry->name, entry->id,
                   entry->label);
        }
    }
}

static int print_wrong(const Diagnostics* const diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; ++i) {
        printf("wrong: %s\n", diagnostics->texts[i]);
    }
    if (diagnostics->unkept) {
        printf("wrong: %zu things more\n", diagnostics->unkept);
    }
    return diagnostics->count ? FAILED : DONE;
}

/* ---- What a musician would find: told, no more, since a bank plays as it is */

static void print_note(void* const out, const char* const text)
{
    fprintf((FILE*)out, "note: %s\n", text);
}

static bool print_notes(const Bank* const bank, const bool own_only, const PlayLimits limits)
{
    const int found = bank_check(&(BankCheck){bank, own_only, limits, print_note, stdout});
    if (found < 0) {
        fprintf(stderr, "fourlimb: there is no memory to check what can be played\n");
    }
    return found >= 0;
}

static bool print_own_notes(const Bank* const bank, const char* const users)
{
    Diagnostics said = {.count = 0}; /* elsewhere */
    const PlayLimits limits = own_limits_read(users, &said);
    diagnostics_clear(&said);
    return print_notes(bank, true, limits);
}

static uint32_t count_entries(const Bank* const bank)
{
    uint32_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        count += bank_count(bank, (EntryKind)kind);
    }
    return count;
}

static int check_factory(const char* const folder)
{
    Bank* const bank = bank_open((BankSources){.factory = folder});
    const bool good = bank && print_notes(bank, false, play_limits_default());
    if (good) {
        printf("right: the factory's bank, %u entries\n", count_entries(bank));
    }
    bank_free(bank);
    return good ? DONE : FAILED;
}

/* What a file of the factory's is, be it changed, it is in that one's place. */
static int check_in_place(const char* const folder, const char* const path)
{
    Bank* const bank = bank_open_in_place(folder, path);
    if (!bank) {
        fprintf(stderr, "fourlimb: there is no memory for the bank\n");
        return FAILED;
    }
    const int status = print_wrong(bank_diagnostics(bank));
    if (status == DONE && print_notes(bank, false, play_limits_default())) {
        printf("right: %s, in the place of the factory's own file of that name; in your folder it "
               "would be left out\n",
               path);
    }
    bank_free(bank);
    return status;
}

/* The limits beside the user's own bank, which are no part of it. */
static int print_limits(const char* const folder)
{
    Diagnostics diagnostics = {.count = 0};
    own_limits_read(folder, &diagnostics);
    const int status = print_wrong(&diagnostics);
    diagnostics_clear(&diagnostics);
    return status;
}

/* The songs of a file, over a bank that has what they name. */
static int print_songs(const Bank* const bank, const char* const path)
{
    Songs songs;
    songs_read(&songs, bank, path);
    for (uint32_t i = 0; i < songs.count; ++i) {
        printf("right: song \"%s\", %u sections\n", songs.songs[i].title,
               songs.songs[i].section_count);
    }
    const int status = songs.met ? print_wrong(&songs.diagnostics) : DONE;
    songs_free(&songs);
    return status;
}

/* The user's folder, or a file of theirs. */
static int check_users(const char* const folder, const char* const file, const char* const users)
{
    Bank* const bank = bank_open((BankSources){folder, file ? NULL : users, file});
    if (!bank) {
        fprintf(stderr, "fourlimb: there is no memory for the bank\n");
        return FAILED;
    }
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        print_right(bank, (EntryKind)kind);
    }
    const int status = print_wrong(bank_diagnostics(bank));
    const int songs_status = file && status == DONE ? print_songs(bank, file) : DONE;
    const bool noted = print_own_notes(bank, users);
    bank_free(bank);
    return !noted ? FAILED : status != DONE ? status : songs_status;
}

static int check_all(const char* const folder, const char* const users)
{
    const int status = check_users(folder, NULL, users);
    const int limits_status = print_limits(users);
    const int factory_status = check_factory(folder);
    return status != DONE ? status : limits_status != DONE ? limits_status : factory_status;
}

int command_check(const Request* const request)
{
    char folder[BUNDLE_PATH_ROOM + 8];
    char users[BANK_FOLDER_ROOM];
    if (playcheck_asked(request)) {
        if (request->operand) {
            fprintf(stderr, "fourlimb: check takes a file of figures or a groove, not both\n");
            return ASKED_WRONGLY;
        }
        return playcheck_run(request);
    }
    const bool has_users = bank_users_folder(users);
    if (!request->operand && !has_users) {
        fprintf(stderr, "fourlimb: there is no folder of your own to check; name a file, or set "
                        "HOME or XDG_DATA_HOME\n");
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, folder)) {
        return FAILED;
    }
    const size_t length = strlen(folder);
    snprintf(folder + length, sizeof folder - length, "/bank");
    if (request->operand && in_place_is_meant(folder, request->operand)) {
        return check_in_place(folder, request->operand);
    }
    return request->operand ? check_users(folder, request->operand, has_users ? users : NULL)
                            : check_all(folder, users);
}
