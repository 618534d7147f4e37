// SPDX-License-Identifier: ISC
#include "list_fill.h"

#include "../find/found.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

_Static_assert((int)WISH_SAID_ROOM <= (int)MESSAGE_ROOM, "what is said has its room");

static Wish wish_of(const List* const list)
{
    Wish wish = {.word_count = 0};
    wish_read(&wish, list->find);
    return wish;
}

static AskedEntry asked_of(const Entry* const entry, const EntryKind shelf)
{
    return (AskedEntry){.kind = shelf,
                        .id = entry->id,
                        .label = entry->label,
                        .family = entry->family,
                        .comment = entry->comment,
                        .tempo_low = entry->tempo_low,
                        .tempo_high = entry->tempo_high,
                        .figure = entry->figure,
                        .groove = entry->groove};
}

static void add_line(List* const list, const ListRow row)
{
    if (list->count < LIST_ROWS_MAX) {
        list->rows[list->count++] = row;
    }
}

/* Where it was found, or its family: NULL is drawn as that. */
static const char* heading_of(const Wish* const wish, const Match* const match)
{
    return wish_ranks(wish) ? match_heading(wish, match) : NULL;
}

static void add_lines(List* const list, const Wish* const wish, const AskedEntry* const entries,
                      const Match* const matches, const int found)
{
    const char* before = NULL;
    for (int i = 0; i < found; ++i) {
        const char* const words = heading_of(wish, &matches[i]);
        const char* const heading = words ? words : entries[matches[i].index].family;
        if (*heading && (!before || strcmp(heading, before) != 0)) {
            add_line(list, (ListRow){true, matches[i].index, words});
        }
        before = heading;
        add_line(list, (ListRow){false, matches[i].index, NULL});
    }
}

/* Too large for a stack, and of as many as there are. */
typedef struct {
    AskedEntry* entries;
    Match* matches;
    Playability* room;
} Looking;

static bool begin(Looking* const looking, const Shelf* const shelf)
{
    const size_t count = (size_t)shelf->count + 1;
    *looking = (Looking){calloc(count, sizeof *looking->entries),
                         calloc(count, sizeof *looking->matches), malloc(sizeof *looking->room)};
    return looking->entries && looking->matches && looking->room;
}

static void end(const Looking* const looking)
{
    free(looking->entries);
    free(looking->matches);
    free(looking->room);
}

void list_fill(Model* const model)
{
    List* const list = &model->view.list;
    const Shelf* const shelf = &model->view.shelves[list->shelf];
    const Wish wish = wish_of(list);
    Looking looking;
    list->count = 0;
    wish_say(&wish, list->says);
    list->tempo = wish.limited && !(wish.tempo > 0.0) ? model_tempo(model) : 0.0;
    if (begin(&looking, shelf)) {
        for (int i = 0; i < shelf->count; ++i) {
            looking.entries[i] = asked_of(&shelf->entries[i], list->shelf);
        }
        const FoundIn in = {looking.entries, shelf->count, model_tempo(model), looking.room};
        add_lines(list, &wish, looking.entries, looking.matches,
                  found_list(&wish, &in, looking.matches));
        if (!list->count) {
            found_loosen(&wish, &in, list->says);
        }
    }
    end(&looking);
}

bool list_fill_is_old(const Model* const model)
{
    const List* const list = &model->view.list;
    return list->is_open && list->tempo > 0.0 && differs(list->tempo, model_tempo(model));
}

bool list_fill_demand(const Model* const model, const int row, Playability* const room,
                      Demand* const demand)
{
    const List* const list = &model->view.list;
    const Wish wish = wish_of(list);
    const Entry* const entry = &model->view.shelves[list->shelf].entries[list->rows[row].entry];
    const AskedEntry asked = asked_of(entry, list->shelf);
    if (!entry->figure || !(wish.limited || wish.tempo > 0.0)) {
        return false;
    }
    const AskedRates rates =
        asked_rates(&asked, match_tempo(&wish, &asked, model_tempo(model)), room);
    *demand = (Demand){rates.known, {{rates.right, 0.0}, {rates.left, 0.0}}};
    return true;
}
