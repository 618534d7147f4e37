// SPDX-License-Identifier: ISC
#include "kept_selection.h"

#include "../engine/groove/selection.h"
#include "absent.h"
#include "draft.h"
#include "utf8.h"
#include "write_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void set_name(KeptSelection* const kept, const char* const name)
{
    const size_t length = utf8_cut(name, strlen(name), KEPT_NAME_ROOM - 1);
    memcpy(kept->name, name, length);
    kept->name[length] = '\0';
    utf8_repair(kept->name);
    for (char* at = kept->name; *at; ++at) {
        if ((unsigned char)*at < ' ') {
            *at = ' '; /* a name is one line */
        }
    }
}

static void set_values(KeptSelection* const kept, const float values[CONTROL_COUNT])
{
    for (int i = 0; i < CONTROL_COUNT; ++i) {
        kept->values[i] = control_rows[i].is_selection ? settings_fit((Control)i, values[i])
                                                       : control_rows[i].normal;
    }
}

static void say(Messages* const messages, const char* const who, const char* const what)
{
    messages_say(messages, who, what, "\n");
}

/* A text, or "" where it is longer than any needs to be. */
static char* copy_text(const char* const text, const char* const who, Messages* const messages)
{
    if (text && strlen(text) > KEPT_BYTES_MOST) {
        char words[96];
        snprintf(words, sizeof words, "what it says of its entries is over %d bytes; left out",
                 KEPT_BYTES_MOST);
        say(messages, who, words);
        return strdup("");
    }
    return strdup(text ? text : "");
}

static Single* read_draft(const FigureKind kind, const char* const text, const char* const who,
                          Messages* const messages)
{
    char why[SINGLE_WHY_ROOM];
    if (!text || !*text) {
        return NULL;
    }
    Single* const single = draft_read(kind, text, strlen(text), why);
    if (!single) {
        say(messages, who, why);
    }
    return single;
}

static void say_bank(Messages* const messages, const char* const who, const Bank* const bank)
{
    const Diagnostics* const diagnostics = bank_diagnostics(bank);
    for (size_t i = 0; i < diagnostics->count; ++i) {
        const char* const text = diagnostics->texts[i];
        const size_t lead = strlen("this session:");
        say(messages, who, strncmp(text, "this session:", lead) ? text : text + lead);
    }
}

/* What its bank or its drafts have not, of what it names. */
static void say_absent(Messages* const messages, const char* const who,
                       const KeptSelection* const kept)
{
    Messages found = {.text = NULL};
    absent_say(&found, kept->plays.bank, kept->names);
    for (char* line = found.text; line && *line;) {
        char* const end = strchr(line, '\n');
        *end = '\0';
        say(messages, who, line);
        line = end + 1;
    }
    messages->failed |= found.failed;
    free(found.text);
}

/* The factory's bank with its own entries, whatever lies in the user's folder. */
static bool open_bank(KeptSelection* const kept, Bank* const beside, const KeptParts* const parts,
                      const char* const who, Messages* const messages)
{
    Bank* const bank = bank_beside(beside, kept->own);
    Drafts drafts = {{NULL}};
    if (!bank) {
        return false;
    }
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        drafts.drafts[kind] = read_draft((FigureKind)kind, parts->drafts[kind], who, messages);
    }
    say_bank(messages, who, bank);
    const bool good = overlay_make(&kept->plays, bank, drafts);
    bank_free(bank);
    return good;
}

KeptSelection* kept_selection_make(Bank* const beside, const KeptParts* const parts,
                                   const char* const who, Messages* const messages)
{
    KeptSelection* const kept = calloc(1, sizeof(KeptSelection));
    if (!kept) {
        return NULL;
    }
    atomic_init(&kept->holders, 1);
    set_name(kept, parts->name);
    set_values(kept, parts->values);
    kept->own = copy_text(parts->own, who, messages);
    kept->names = copy_text(parts->names, who, messages);
    if (!kept->own || !kept->names || !open_bank(kept, beside, parts, who, messages)) {
        kept_selection_free(kept);
        return NULL;
    }
    say_absent(messages, who, kept);
    return kept;
}

KeptSelection* kept_selection_hold(KeptSelection* const kept)
{
    if (kept) {
        atomic_fetch_add(&kept->holders, 1);
    }
    return kept;
}

void kept_selection_free(KeptSelection* const kept)
{
    if (kept && atomic_fetch_sub(&kept->holders, 1) == 1) {
        overlay_clear(&kept->plays);
        free(kept->own);
        free(kept->names);
        free(kept);
    }
}

KeptParts kept_selection_parts(const KeptSelection* const kept)
{
    KeptParts parts = {kept->name, kept->values, kept->own, kept->names, {NULL}};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const Single* const draft = kept->plays.drafts.drafts[kind];
        parts.drafts[kind] = draft ? draft->text : "";
    }
    return parts;
}

KeptSelection* kept_selection_named(const KeptSelection* const kept, const char* const name)
{
    Messages messages = {.text = NULL};
    KeptParts parts = kept_selection_parts(kept);
    parts.name = name;
    KeptSelection* const made = kept_selection_make(kept->plays.bank, &parts, "", &messages);
    free(messages.text);
    return made;
}

/* ---- What values select */

/* True if a figure of this kind and id plays in it. */
static bool plays(const Selection* const selection, const FigureKind kind, const uint32_t id)
{
    const Figure* const picked = kind == FIGURE_HANDS  ? selection->hands
                                 : kind == FIGURE_FEET ? selection->feet
                                                       : selection->turnaround;
    if (picked || kind == FIGURE_TURNAROUND || !selection->groove) {
        return picked && picked->id == id;
    }
    bool found = false;
    for (int i = 0; i < PARTS_MAX; ++i) {
        const Part* const part = &selection->groove->parts[i];
        const Figure* const figure = kind == FIGURE_HANDS ? part->hands : part->feet;
        found = found || (figure && figure->id == id);
    }
    return found;
}

bool kept_selection_plays(const KeptSelection* const kept, const FigureKind kind, const uint32_t id)
{
    const Settings settings = settings_from_controls(kept->values);
    const Selection selection = selection_make(&kept->plays.library, &settings, 120.0);
    return plays(&selection, kind, id);
}

/* What is picked, and what the groove has, of the user's own. */
static char* write_own(const Bank* const bank, const float values[CONTROL_COUNT])
{
    EntryPick picks[ENTRY_KINDS];
    size_t count = 0;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const bool is_part = control_rows[kind_controls[kind]].is_selection;
        const int32_t id = settings_pick(values, (EntryKind)kind);
        const EntryInfo* const info =
            is_part && id > 0 ? bank_info(bank, (EntryKind)kind, (uint32_t)id) : NULL;
        if (info && info->id >= ID_FIRST_OWN) {
            picks[count++] = (EntryPick){(EntryKind)kind, info->id};
        }
    }
    return write_entries(bank, picks, count);
}

static char* write_names(const Bank* const bank, const float values[CONTROL_COUNT])
{
    EntryNames names = {.count = 0};
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        const bool is_part = control_rows[kind_controls[kind]].is_selection;
        const int32_t id = settings_pick(values, (EntryKind)kind);
        const EntryInfo* const info =
            is_part && id > 0 ? bank_info(bank, (EntryKind)kind, (uint32_t)id) : NULL;
        if (info) {
            entry_names_add(&names, (EntryKind)kind, info->id, info->label, info->uri);
        }
    }
    char* const text = entry_names_write(&names);
    entry_names_clear(&names);
    return text;
}

KeptSelection* kept_selection_of(const Overlay* const from, const char* const name,
                                 const float values[CONTROL_COUNT])
{
    const Settings settings = settings_from_controls(values);
    const Selection selection = selection_make(&from->library, &settings, 120.0);
    char* const own = write_own(from->bank, values);
    char* const names = write_names(from->bank, values);
    Messages messages = {.text = NULL};
    KeptParts parts = {name, values, own, names, {NULL}};
    for (int kind = 0; kind < FIGURE_KINDS; ++kind) {
        const Single* const draft = from->drafts.drafts[kind];
        const bool is_used = draft && plays(&selection, (FigureKind)kind, draft->info.id);
        parts.drafts[kind] = is_used ? draft->text : "";
    }
    KeptSelection* const kept =
        own && names ? kept_selection_make(from->bank, &parts, "", &messages) : NULL;
    free(own);
    free(names);
    free(messages.text);
    return kept;
}
