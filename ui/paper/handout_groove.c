// SPDX-License-Identifier: ISC
#include "handout_groove.h"

#include "../../plugin/bank/turtle.h"
#include "../../plugin/bank/utf8.h"
#include "../../plugin/engine/varied/variation.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LABEL_ROOM = 128, URI_ROOM = 96, HEAD_ROOM = 512 };

/* ---- The feet's variation */

/* A groove like the selection's, whose feet are the variation's, and where they are. */
typedef struct {
    Groove groove;
    Figure figures[PARTS_MAX]; /* by letter, each with an id that no entry has */
    VariationRoom rooms[PARTS_MAX][2];
} HandoutFeet;

/* What a letter plays. */
static Part part_of(const Selection* const selection, const int letter)
{
    Part part = selection->groove->parts[letter];
    part.hands = selection->hands ? selection->hands : part.hands;
    part.feet = selection->feet ? selection->feet : part.feet;
    return part;
}

/* As varied.h has it: what can't be made plays what it was to be made of.  What an earlier
   letter has is that. */
static const Figure* vary_part(HandoutFeet* const varied, const HandoutWish* const wish,
                               const int letter)
{
    const Part part = part_of(wish->selection, letter);
    for (int earlier = 0; earlier < letter; ++earlier) {
        const Part other = part_of(wish->selection, earlier);
        if (other.feet == part.feet && other.hands == part.hands) {
            return varied->groove.parts[earlier].feet;
        }
    }
    const uint32_t numbers[] = {wish->settings->variation, wish->settings->variation_then};
    const Figure* feet = part.feet;
    for (int step = 0; feet && step < 2; ++step) {
        const Variation made = numbers[step]
                                   ? variation_make(feet, part.hands, wish->meter, numbers[step],
                                                    &varied->rooms[letter][step])
                                   : (Variation){NULL, VARY_NONE};
        feet = made.figure ? made.figure : feet;
    }
    if (feet == part.feet) {
        return feet;
    }
    varied->figures[letter] = *feet;
    varied->figures[letter].id = (uint32_t)(ID_MOST + 1 + letter);
    return &varied->figures[letter];
}

/* The selection with the variation's feet; NULL if there is no memory.  The caller frees. */
static HandoutFeet* vary(const HandoutWish* const wish, Selection* const selection)
{
    HandoutFeet* const varied = calloc(1, sizeof(HandoutFeet));
    *selection = *wish->selection;
    selection->varied = NULL; /* made here, to be written */
    selection->variation = selection->variation_then = selection->grow_every = 0;
    if (varied && selection->groove &&
        (wish->settings->variation || wish->settings->variation_then)) {
        varied->groove = *selection->groove;
        for (int letter = 0; letter < PARTS_MAX; ++letter) {
            varied->groove.parts[letter].feet = vary_part(varied, wish, letter);
        }
        selection->groove = &varied->groove;
        selection->feet = NULL;
    }
    return varied;
}

/* ---- Ids */

/* Whoever puts the file beside own entries has other ids there, most likely: those of a name are
   always the same, and far from the first, which everybody has (FNV-1a, Fowler, Noll, Vo). */
static uint32_t first_id(const char* const name)
{
    uint32_t hash = 2166136261U;
    for (const char* at = name; *at; ++at) {
        hash = (hash ^ (uint8_t)*at) * 16777619U;
    }
    return ID_FIRST_OWN + 100 + hash % 800;
}

static bool is_taken(const Bank* const bank, const uint32_t id)
{
    bool taken = false;
    for (int kind = 0; kind < ENTRY_KINDS; ++kind) {
        taken = taken || bank_info(bank, (EntryKind)kind, id);
    }
    return taken;
}

/* The next that is free; they come round.  0 if none is. */
static uint32_t next_id(const Bank* const bank, uint32_t* const id)
{
    for (int tries = ID_FIRST_OWN; tries <= ID_MOST; ++tries) {
        *id = *id < ID_MOST ? *id + 1 : ID_FIRST_OWN;
        if (!is_taken(bank, *id)) {
            return *id;
        }
    }
    return 0;
}

/* ---- Texts */

/* Behind the prefixes, which every text begins with and one says for all. */
static const char* without_prefixes(const char* text)
{
    while (*text == '\n' || !strncmp(text, "@prefix", strlen("@prefix"))) {
        const char* const end = strchr(text, '\n');
        text = end ? end + 1 : text + strlen(text);
    }
    return text;
}

static bool append(char** const text, char* const more)
{
    const size_t length = *text ? strlen(*text) : 0;
    const size_t room = more ? length + strlen(more) + 2 : 0;
    char* const grown = more ? realloc(*text, room) : NULL;
    if (grown) {
        const bool has_prefixes = length && strstr(grown, "@prefix");
        snprintf(grown + length, room - length, "%s%s", length ? "\n" : "",
                 has_prefixes ? without_prefixes(more) : more);
        *text = grown;
    }
    free(more);
    return grown;
}

static bool is_same(const Figure* const a, const Figure* const b)
{
    bool same = a->cycle_ticks == b->cycle_ticks && a->step_ticks == b->step_ticks &&
                a->bars == b->bars && a->stroke_count == b->stroke_count;
    for (uint32_t i = 0; same && i < a->stroke_count; ++i) {
        const Stroke *const x = &a->strokes[i], *const y = &b->strokes[i];
        same = x->tick == y->tick && x->limb == y->limb && x->voice == y->voice &&
               x->level == y->level && x->bends == y->bends;
    }
    return same;
}

/* A figure that is the factory's as it is, and no draft of it, needs no text. */
static bool is_factorys(const GrooveUse* const use, Bank* const factory)
{
    const Figure* const figure = library_figure(bank_library(factory), use->kind, use->from);
    return !use->is_made && figure && is_same(figure, &use->figure);
}

static char* figure_text(const GrooveUse* const use, const HandoutWish* const wish,
                         const int number)
{
    char label[LABEL_ROOM], comment[2 * LABEL_ROOM], uri[URI_ROOM];
    const KindRow* const row = &kind_rows[use->kind];
    const EntryInfo* const from = bank_info(wish->bank, (EntryKind)use->kind, use->from);
    EntryInfo info = from ? *from : (EntryInfo){.family_uri = ""};
    snprintf(label, sizeof label, "%.80s, %s %d", wish->name, row->plural, number);
    snprintf(comment, sizeof comment, "%.80s, as \"%.80s\" plays it.",
             from ? from->label : "A figure", wish->name);
    snprintf(uri, sizeof uri, FL_MINE "%s-%u", row->name, use->id);
    utf8_repair(label);
    utf8_repair(comment);
    info.id = use->id;
    info.uri = uri;
    info.label = label;
    info.comment = comment;
    info.differs = info.alone = "";
    return write_figure(&use->figure, &info);
}

static bool write_figures(HandoutGroove* const made, OwnGroove* const own,
                          const HandoutWish* const wish, uint32_t* const id)
{
    Bank* const factory = bank_beside(wish->bank, "");
    bool good = factory;
    for (int i = 0; good && i < own->count; ++i) {
        GrooveUse* const use = &own->uses[i];
        if (!is_factorys(use, factory)) {
            use->id = next_id(wish->bank, id);
            good = use->id && append(&made->text, figure_text(use, wish, i + 1));
        }
    }
    bank_free(factory);
    return good;
}

/* The groove's text has the name of a new one, and no id: it gets both. */
static char* groove_text(const OwnGroove* const own, Bank* const bank, const uint32_t id,
                         const char* const name)
{
    static const char head[] = "my:new\n\ta fl:Groove ;\n";
    char* const text = own_groove_text(own, bank, 0, name);
    char* const at = text ? strstr(text, head) : NULL;
    const size_t room = at ? strlen(text) + URI_ROOM : 0;
    char* const named = at ? malloc(room) : NULL;
    if (named) {
        snprintf(named, room, "%.*smy:groove-%u\n\ta fl:Groove ;\n\tfl:id %u ;\n%s",
                 (int)(at - text), text, id, id, at + sizeof head - 1);
    }
    free(text);
    return named;
}

static bool write_head(HandoutGroove* const made, const char* const name)
{
    char head[HEAD_ROOM];
    snprintf(head, sizeof head,
             "# %.200s\n# A groove for Fourlimb: put this file into the folder of your own entries "
             "(~/.local/share/fourlimb).\n",
             name);
    utf8_repair(head);
    return append(&made->text, strdup(head));
}

static bool write_all(HandoutGroove* const made, OwnGroove* const own,
                      const HandoutWish* const wish)
{
    uint32_t id = first_id(wish->name);
    if (!write_head(made, wish->name) || !write_figures(made, own, wish, &id)) {
        return false;
    }
    made->groove = next_id(wish->bank, &id);
    Bank* const figures = made->groove ? bank_beside(wish->bank, made->text) : NULL;
    const bool good =
        figures && append(&made->text, groove_text(own, figures, made->groove, wish->name));
    bank_free(figures);
    return good;
}

/* What was written is what can be read. */
static bool read_back(HandoutGroove* const made, const HandoutWish* const wish,
                      char why[HANDOUT_WHY_ROOM])
{
    made->bank = bank_beside(wish->bank, made->text);
    const Diagnostics* const diagnostics = made->bank ? bank_diagnostics(made->bank) : NULL;
    if (diagnostics && diagnostics->count) {
        snprintf(why, HANDOUT_WHY_ROOM, "%s", diagnostics->texts[0]);
    }
    return diagnostics && !diagnostics->count && bank_info(made->bank, ENTRY_GROOVE, made->groove);
}

bool handout_groove_make(HandoutGroove* const made, const HandoutWish* const wish,
                         char why[HANDOUT_WHY_ROOM])
{
    Selection selection;
    *made = (HandoutGroove){.text = NULL};
    OwnGroove* const own = calloc(1, sizeof(OwnGroove)); /* too large for a stack */
    HandoutFeet* const varied = vary(wish, &selection);
    snprintf(why, HANDOUT_WHY_ROOM,
             "lines of steps can't say what is played, or there is no memory for it");
    bool good = own && varied && own_groove_make(own, &selection, wish->meter, wish->tempo);
    if (good) {
        good = write_all(made, own, wish) && read_back(made, wish, why);
        snprintf(made->left, sizeof made->left, "%s%s%s", own->left,
                 *own->left && wish->settings->grow_every ? ", " : "",
                 wish->settings->grow_every ? "how the feet grow" : "");
        own_groove_free(own);
    }
    free(varied);
    free(own);
    return good;
}

void handout_groove_free(HandoutGroove* const made)
{
    bank_free(made->bank);
    free(made->text);
    *made = (HandoutGroove){.text = NULL};
}

Settings handout_groove_settings(const HandoutGroove* const made, const Settings* const settings)
{
    Settings own = *settings;
    own.kept = 0;
    own.groove = made->groove;
    own.hands = own.feet = AS_WRITTEN;
    own.variation = own.variation_then = own.grow_every = 0;
    own.ride_on = RIDE_ON_AS_WRITTEN;
    own.phrase_bars = AS_WRITTEN;
    own.turnaround = AS_WRITTEN;
    own.hands_regrid = own.feet_regrid = (Regrid){0, 0, 0};
    own.left_foot_leads = false;
    own.swing_ratio = 1.0; /* as the groove has it */
    own.swing_sixteenths = false;
    own.loop_bar = 0;
    return own;
}
