// SPDX-License-Identifier: ISC
#include "groove_saving.h"

#include "../../plugin/bank/utf8.h"
#include "asking.h"
#include "saving.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Longer than the worker and the window's reading of its files ever take. */
static const double longest_wait = 10.0;

static void stop(Model* const model, const char* const words)
{
    GrooveSaving* const saving = &model->groove_saving;
    own_groove_free(&saving->own);
    saving->is_on = false;
    if (words) {
        model_say(model, words);
    }
}

void groove_saving_close(Model* const model)
{
    stop(model, NULL);
}

/* ---- What plays */

static const EntryInfo* groove_info(const Model* const model)
{
    const int32_t id = view_playing(&model->view, ENTRY_GROOVE);
    return model->bank && id > 0 ? bank_info(model->bank, ENTRY_GROOVE, (uint32_t)id) : NULL;
}

static const KeptSelection* kept_of(const Model* const model)
{
    return kept_list_at(model->kept, model_kept(model));
}

/* Variations are of the feet, and come on top of what is written. */
static void say_variation(Model* const model)
{
    OwnGroove* const own = &model->groove_saving.own;
    const float* const values = model->view.values;
    const size_t length = strlen(own->left);
    if (values[CONTROL_VARIATION] > 0.5f || values[CONTROL_GROW_EVERY] > 0.5f) {
        snprintf(own->left + length, sizeof own->left - length, "%sthe feet's variation",
                 length ? ", " : "");
    }
}

/* Of the bank with drafts over it, or of what is kept, where that plays. */
static bool make(Model* const model)
{
    const View* const view = &model->view;
    const KeptSelection* const kept = kept_of(model);
    const Library* const library = kept ? &kept->plays.library : model_library(model);
    const SeenBar* const bar = view_bar(view, view_shown(view));
    const Settings settings = settings_from_controls(view->values);
    const double tempo = model_tempo(model);
    if (!library) {
        return false;
    }
    const Selection selection = selection_make(library, &settings, tempo);
    const Meter meter = bar                ? bar->meter
                        : selection.groove ? selection.groove->meter
                                           : (Meter){4.0, 4};
    const bool good = own_groove_make(&model->groove_saving.own, &selection, meter, tempo);
    if (good) {
        say_variation(model);
    }
    return good;
}

/* True if the bank has the use's figure, stroke by stroke, under an id. */
static bool has(const Model* const model, const GrooveUse* const use, const uint32_t id)
{
    const Figure* const there =
        id ? library_figure(bank_library(model->bank), use->kind, id) : NULL;
    bool alike = there && there->id == id && there->cycle_ticks == use->figure.cycle_ticks &&
                 there->bars == use->figure.bars && there->stroke_count == use->figure.stroke_count;
    for (uint32_t i = 0; alike && i < there->stroke_count; ++i) {
        alike = edit_buffer_same_stroke(&there->strokes[i], &use->figure.strokes[i]);
    }
    return alike;
}

/* The changed figure that a use plays; NULL: as the bank has it. */
static const Draft* draft_of(const Model* const model, const GrooveUse* const use)
{
    const Draft* const draft = &model->editor.drafts[use->kind];
    const bool is_it = draft->single && draft->single->info.id == use->from;
    return is_it && !kept_of(model) ? draft : NULL; /* what is kept has its own */
}

/* A draft that is saved already has another id there. */
static bool needs_saving(const Model* const model, GrooveUse* const use)
{
    const uint32_t saved = model->editor.pieces[use->kind].saved_id;
    const uint32_t id =
        !use->is_made && draft_of(model, use) && has(model, use, saved) ? saved : use->from;
    const EntryInfo* const info = bank_info(model->bank, (EntryKind)use->kind, id);
    use->id = id;
    return use->is_made || !has(model, use, id) || info->is_sessions;
}

/* ---- Names */

void groove_saving_ask(Model* const model)
{
    char name[TYPED_ROOM] = "";
    const EntryInfo* const info = groove_info(model);
    if (model->groove_saving.is_on) {
        model_say(model, "Saving ...");
    } else if (!make(model)) {
        model_say(model, "There is no groove to save");
    } else {
        own_groove_free(&model->groove_saving.own);
        snprintf(name, sizeof name, info && info->is_users ? "%.56s" : "%.56s 2",
                 info ? info->label : "Groove");
        utf8_repair(name);
        asking_groove(model, name);
    }
}

/* A figure's own name, with the groove's where the factory has that, or it isn't the figure as it
   stands in lists. */
static void name_of(const Model* const model, const int index, char name[TYPED_ROOM])
{
    const GrooveSaving* const saving = &model->groove_saving;
    const GrooveUse* const use = &saving->own.uses[index];
    const EntryKind kind = (EntryKind)use->kind;
    const EditPiece* const piece = &model->editor.pieces[use->kind];
    const Draft* const draft = draft_of(model, use);
    const KeptSelection* const kept = kept_of(model);
    const EntryInfo* const ours = bank_info(model->bank, kind, use->from);
    const EntryInfo* const info =
        ours || !kept ? ours : bank_info(kept->plays.bank, kind, use->from);
    const bool is_another = ours && !draft && !has(model, use, use->from);
    const char* const own = draft && piece->is_open && *piece->name ? piece->name
                            : draft                                 ? draft->single->info.label
                            : info                                  ? info->label
                                                                    : "Figure";
    if (use->is_made || is_another || !*own || saving_is_factorys(model, kind, own)) {
        snprintf(name, TYPED_ROOM, "%.34s, %.24s", own, saving->label);
    } else {
        snprintf(name, TYPED_ROOM, "%.60s", own);
    }
    utf8_repair(name); /* where it was cut */
}

/* ---- Step by step */

static void say(Model* const model, const LV2_URID property, char* const text)
{
    if (text) {
        model->groove_saving.since = model->now;
        model->output.say(model->output.handle, property, text);
        model_say(model, "Saving ...");
    } else {
        stop(model, "Not saved: lines of steps can't say a figure of it, or there is no memory");
    }
    free(text);
}

static void send_figure(Model* const model, const int index)
{
    char name[TYPED_ROOM];
    GrooveSaving* const saving = &model->groove_saving;
    name_of(model, index, name);
    saving->sent = index;
    say(model, model->uris->fl_saveFigure,
        own_groove_figure(&saving->own, index, model->bank, name));
}

/* The own groove of this name, which it goes over; 0: a new one. */
static uint32_t older(const Model* const model, const char* const label)
{
    static const char mine[] = "urn:fourlimb:mine:";
    for (uint32_t i = 0; i < bank_count(model->bank, ENTRY_GROOVE); ++i) {
        const EntryInfo* const info = bank_entry(model->bank, ENTRY_GROOVE, i);
        if (info->is_users && !info->is_sessions && !strcmp(info->label, label) &&
            !strncmp(info->uri, mine, sizeof mine - 1)) {
            return info->id;
        }
    }
    return 0;
}

/* Figures first; then the window's bank must have them, by which the groove names them. */
static void go_on(Model* const model)
{
    GrooveSaving* const saving = &model->groove_saving;
    bool has_all = true;
    for (int i = 0; i < saving->own.count; ++i) {
        const GrooveUse* const use = &saving->own.uses[i];
        if (saving->needs[i]) {
            send_figure(model, i);
            return;
        }
        const EntryInfo* const info = bank_info(model->bank, (EntryKind)use->kind, use->id);
        has_all = has_all && info && info->id == use->id;
    }
    if (has_all) {
        saving->is_groove_sent = true;
        say(model, model->uris->fl_saveGroove,
            own_groove_text(&saving->own, model->bank, older(model, saving->label), saving->label));
    }
}

bool groove_saving_begin(Model* const model)
{
    Asking* const asked = &model->view.asked;
    GrooveSaving* const saving = &model->groove_saving;
    if (!*asked->name || saving_is_factorys(model, ENTRY_GROOVE, asked->name)) {
        snprintf(asked->why, sizeof asked->why,
                 *asked->name ? "that name is the factory's" : "it has no name");
        return false;
    }
    memset(saving, 0, sizeof *saving);
    if (!make(model)) {
        model_say(model, "There is no memory to save it");
        return true;
    }
    saving->is_on = true;
    saving->sent = -1;
    memcpy(saving->label, asked->name, TYPED_ROOM);
    for (int i = 0; i < saving->own.count; ++i) {
        saving->needs[i] = needs_saving(model, &saving->own.uses[i]);
    }
    go_on(model);
    return true;
}

/* A changed figure is saved as it is. */
static void keep_draft(Model* const model, const GrooveUse* const use, const char* const name)
{
    const FigureKind kind = use->kind;
    EditPiece* const piece = &model->editor.pieces[kind];
    if (!use->is_made && draft_of(model, use)) {
        model->editor.drafts[kind].is_kept = true;
        piece->saved_id = use->id;
        piece->base = piece->buffer.now;
        snprintf(piece->saved, sizeof piece->saved, "%s", name);
    }
}

bool groove_saving_figure(Model* const model, const int64_t id)
{
    char name[TYPED_ROOM];
    GrooveSaving* const saving = &model->groove_saving;
    if (!saving->is_on || saving->sent < 0) {
        return false;
    }
    GrooveUse* const use = &saving->own.uses[saving->sent];
    name_of(model, saving->sent, name);
    use->id = (uint32_t)id;
    saving->needs[saving->sent] = false;
    saving->sent = -1;
    keep_draft(model, use, name);
    const size_t length = strlen(saving->done);
    snprintf(saving->done + length, sizeof saving->done - length, "%s%s \"%s\"",
             length ? ", " : ", with ", kind_rows[use->kind].name, name);
    go_on(model);
    return true;
}

/* What was picked and laid out is in the groove now; what isn't stays as it is. */
static void play(Model* const model, const uint32_t id)
{
    static const Control written[] = {CONTROL_HANDS,       CONTROL_FEET,        CONTROL_TURNAROUND,
                                      CONTROL_RIDE_ON,     CONTROL_PHRASE_BARS, CONTROL_HANDS_GRID,
                                      CONTROL_FEET_GRID,   CONTROL_HANDS_CYCLE, CONTROL_FEET_CYCLE,
                                      CONTROL_HANDS_SHIFT, CONTROL_FEET_SHIFT,  CONTROL_LEAD_FOOT};
    const GrooveSaving* const saving = &model->groove_saving;
    for (int i = 0; i < saving->own.count; ++i) {
        const FigureKind kind = saving->own.uses[i].kind;
        if (!saving->own.uses[i].is_made && draft_of(model, &saving->own.uses[i]) &&
            !editor_is_changed(model, kind)) {
            model->editor.pieces[kind].is_open = false;
            drafts_put(model, kind, "");
        }
    }
    model_nudge(model, CONTROL_GROOVE, (float)id);
    for (size_t i = 0; i < sizeof written / sizeof *written; ++i) {
        model_nudge(model, written[i], control_rows[written[i]].normal);
    }
    editor_show(model);
}

void groove_saving_done(Model* const model, const int64_t id)
{
    char words[MESSAGE_ROOM];
    GrooveSaving* const saving = &model->groove_saving;
    if (!saving->is_on || !saving->is_groove_sent || id <= 0 || id > ID_MOST) {
        return;
    }
    snprintf(words, sizeof words, "Saved the groove \"%.60s\"%.80s%s%.60s", saving->label,
             saving->done, *saving->own.left ? "; not in it: " : "", saving->own.left);
    play(model, (uint32_t)id);
    stop(model, words);
}

/* Why is said by who calls. */
void groove_saving_refused(Model* const model)
{
    stop(model, NULL);
}

void groove_saving_tick(Model* const model)
{
    const GrooveSaving* const saving = &model->groove_saving;
    if (!saving->is_on) {
        return;
    }
    if (model->now - saving->since > longest_wait) {
        stop(model, "No answer: the groove isn't saved");
    } else if (saving->sent < 0 && !saving->is_groove_sent) {
        go_on(model);
    }
}
