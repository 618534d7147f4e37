// SPDX-License-Identifier: ISC
#include "../../plugin/bank/in_place.h"
#include "../../plugin/bank/own_limits.h"
#include "bundle.h"
#include "commands.h"
#include "playcheck.h"

#include <stdio.h>

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

/* What a file of the factory's is, be it changed, it is in that one's place. */
static int check_in_place(const char* const folder, const char* const path)
{
    Bank* const bank = bank_open_in_place(folder, path);
    if (!bank) {
        fprintf(stderr, "fourlimb: there is no memory for the bank\n");
        return FAILED;
    }
    const int status = print_wrong(bank_diagnostics(bank));
    if (status == DONE) {
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

int command_check(const Request* const request)
{
    char bundle[BUNDLE_PATH_ROOM];
    char folder[BUNDLE_PATH_ROOM + 8];
    char users[BANK_FOLDER_ROOM];
    if (playcheck_asked(request)) {
        if (request->operand) {
            fprintf(stderr, "fourlimb: check takes a file of figures or a groove, not both\n");
            return ASKED_WRONGLY;
        }
        return playcheck_run(request);
    }
    if (!request->operand && !bank_users_folder(users)) {
        fprintf(stderr, "fourlimb: there is no folder of your own to check; name a file, or set "
                        "HOME or XDG_DATA_HOME\n");
        return ASKED_WRONGLY;
    }
    if (!bundle_find(request->bundle, bundle)) {
        return FAILED;
    }
    snprintf(folder, sizeof folder, "%s/bank", bundle);
    if (request->operand && in_place_is_meant(folder, request->operand)) {
        return check_in_place(folder, request->operand);
    }
    const BankSources file = {.factory = folder, .file = request->operand};
    const BankSources all = {.factory = folder, .users = users};
    Bank* const bank = bank_open(request->operand ? file : all);
    if (!bank) {
        fprintf(stderr, "fourlimb: there is no memory for the bank\n");
        return FAILED;
    }
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        print_right(bank, (EntryKind)kind);
    }
    const int bank_status = print_wrong(bank_diagnostics(bank));
    const int limits_status = request->operand ? DONE : print_limits(users);
    bank_free(bank);
    return bank_status == DONE ? limits_status : bank_status;
}
