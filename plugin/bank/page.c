// SPDX-License-Identifier: ISC
#include "page.h"

#include "entries.h"
#include "model.h"
#include "roll.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A text, read. */
typedef struct {
    const char* text;
    size_t size;
    Turtle* turtle;
    Complaints complaints;
} Page;

static bool read_page(Page* const page, const char* const text, const size_t size)
{
    *page = (Page){.text = text, .size = size, .turtle = turtle_new()};
    if (page->turtle) {
        turtle_read_text(page->turtle, "/mine.ttl", text, size, &page->complaints);
    }
    return page->turtle && page->turtle->file_count;
}

static void free_page(Page* const page)
{
    turtle_free(page->turtle);
    complaints_clear(&page->complaints);
}

static const SordNode* term(Turtle* const turtle, const char* const name)
{
    char uri[128];
    snprintf(uri, sizeof uri, FL_TERMS "%s", name);
    return turtle_uri(turtle, uri);
}

static bool has_id(Page* const page, const SordNode* const subject, const uint32_t id)
{
    const SordNode* const node = turtle_object(page->turtle, subject, term(page->turtle, "id"));
    return node && strtoul((const char*)sord_node_get_string(node), NULL, 10) == id;
}

/* The subject of a class with an id, or NULL. */
static const SordNode* subject_of(Page* const page, const EntryKind kind, const uint32_t id)
{
    Turtle* const turtle = page->turtle;
    const SordNode* found = NULL;
    SordIter* const all = turtle_find(turtle, NULL, turtle_uri(turtle, RDF_NS "type"),
                                      term(turtle, entry_class_names[kind]));
    for (; !found && !sord_iter_end(all); sord_iter_next(all)) {
        const SordNode* const subject = sord_iter_get_node(all, SORD_SUBJECT);
        found = has_id(page, subject, id) ? subject : NULL;
    }
    sord_iter_free(all);
    return found && sord_node_get_type(found) == SORD_URI ? found : NULL;
}

bool page_find(const char* const text, const size_t size, const EntryKind kind, const uint32_t id,
               PageEntry* const entry)
{
    Page page;
    const bool read = read_page(&page, text, size);
    const SordNode* const subject = read ? subject_of(&page, kind, id) : NULL;
    *entry = (PageEntry){kind, id, NULL};
    entry->uri = subject ? strdup((const char*)sord_node_get_string(subject)) : NULL;
    free_page(&page);
    return entry->uri;
}

/* Bytes of a text, from `begin` to before `end`. */
typedef struct {
    size_t begin;
    size_t end;
} Cut;

static bool is_space(const char sign)
{
    return sign == ' ' || sign == '\t' || sign == '\n' || sign == '\r';
}

/* The sentence that a place stands in, without what stands before and after it. */
static Cut sentence(const Page* const page, const Place* const place)
{
    const char* const text = page->text;
    size_t begin = place->begin ? place->begin - 1 : 0;
    size_t end = place->end;
    while (begin < end && (is_space(text[begin]) || text[begin] == '.' || text[begin] == '#')) {
        if (text[begin] == '#') {
            while (begin < end && text[begin] != '\n') {
                ++begin;
            }
        } else {
            ++begin;
        }
    }
    while (end > begin && text[end - 1] != '.') {
        --end;
    }
    if (end < page->size && text[end] == '\n') {
        ++end;
    }
    return (Cut){begin, end};
}

/* A text as it grows. */
typedef struct {
    char* bytes;
    size_t size;
    bool failed;
} Growing;

static void grow(Growing* const growing, const char* const bytes, const size_t size)
{
    char* const grown = growing->failed ? NULL : realloc(growing->bytes, growing->size + size + 1);
    if (!grown) {
        growing->failed = true;
        return;
    }
    memcpy(grown + growing->size, bytes, size);
    growing->bytes = grown;
    growing->size += size;
    grown[growing->size] = '\0';
}

/* Prefixes that don't hold, or not so, at the end of the page. */
static void grow_prefixes(Growing* const growing, const Page* const page, const char* written)
{
    const SerdEnv* const env = page->turtle->envs[page->turtle->file_count - 1];
    while (!strncmp(written, "@prefix ", 8)) {
        const char* const name = written + 8;
        const char* const colon = strchr(name, ':');
        const char* const uri = colon ? strchr(colon, '<') : NULL;
        const char* const close = uri ? strchr(uri, '>') : NULL;
        const char* const line_end = close ? strchr(close, '\n') : NULL;
        if (!line_end) {
            return;
        }
        char curie_text[64];
        snprintf(curie_text, sizeof curie_text, "%.*s:", (int)(colon - name), name);
        const SerdNode curie = serd_node_from_string(SERD_CURIE, (const uint8_t*)curie_text);
        SerdChunk start, rest;
        const bool known = !serd_env_expand(env, &curie, &start, &rest);
        const size_t length = (size_t)(close - uri - 1);
        if (!known || start.len != length || memcmp(start.buf, uri + 1, length)) {
            grow(growing, written, (size_t)(line_end + 1 - written));
        }
        written = line_end + 1;
    }
}

/* What follows the prefixes. */
static const char* entry_of(const char* written)
{
    while (!strncmp(written, "@prefix ", 8)) {
        const char* const end = strchr(written, '\n');
        written = end ? end + 1 : written + strlen(written);
    }
    return written + strspn(written, "\n");
}

/* Newlines at a text's end beyond the first of them. */
static size_t spare_lines(const char* const text)
{
    const size_t length = strlen(text);
    size_t spare = 0;
    while (spare + 1 < length && text[length - spare - 1] == '\n' &&
           text[length - spare - 2] == '\n') {
        ++spare;
    }
    return spare;
}

/* Sentences about the subject, in order; how many, at most `most`. */
static size_t find_cuts(const Page* const page, const SordNode* const subject, Cut* const cuts,
                        const size_t most)
{
    size_t count = 0;
    for (size_t i = 0; subject && i < page->turtle->place_count && count < most; ++i) {
        const Place* const place = &page->turtle->places[i];
        const Cut cut = sentence(page, place);
        if (place->subject == subject && (!count || cuts[count - 1].begin != cut.begin)) {
            cuts[count++] = cut;
        }
    }
    return count;
}

enum { CUTS_MOST = 64 };

/* The new text: the entry where its first sentence stood, or at the end. */
static Growing compose(const Page* const page, const SordNode* const subject,
                       const char* const written, const bool in_place)
{
    Cut cuts[CUTS_MOST];
    const size_t count = find_cuts(page, subject, cuts, CUTS_MOST);
    const char* const entry = entry_of(written);
    const size_t entry_size = strlen(entry) - spare_lines(entry);
    Growing growing = {NULL, 0, false};
    size_t at = 0;
    for (size_t i = 0; i < count; ++i) {
        grow(&growing, page->text + at, cuts[i].begin - at);
        at = cuts[i].end;
        if (in_place && i == 0) {
            grow(&growing, entry, entry_size);
        }
    }
    grow(&growing, page->text + at, page->size - at);
    if (!in_place || !count) {
        if (growing.size && growing.bytes[growing.size - 1] != '\n') {
            grow(&growing, "\n", 1);
        }
        if (!page->size) {
            grow(&growing, written, (size_t)(entry - written));
        } else {
            grow(&growing, "\n", 1);
            grow_prefixes(&growing, page, written);
        }
        grow(&growing, entry, entry_size);
    }
    return growing;
}

/* True if the page says all that the older one said, the entry aside. */
static bool says_all(Page* const page, const Page* const older, const SordNode* const aside)
{
    const Turtle* const turtle = older->turtle;
    for (size_t i = 0; i < turtle->place_count; ++i) {
        const SordNode* const subject = turtle->places[i].subject;
        if (subject == aside || sord_node_get_type(subject) != SORD_URI) {
            continue;
        }
        const char* const uri = (const char*)sord_node_get_string(subject);
        const char* const property = (const char*)sord_node_get_string(turtle->places[i].property);
        if (!turtle_object(page->turtle, turtle_uri(page->turtle, uri),
                           turtle_uri(page->turtle, property))) {
            return false;
        }
    }
    return true;
}

/* True if the new text holds the entry, and what the older one held. */
static bool holds(const Growing* const text, const Page* const older, const SordNode* const aside,
                  const PageEntry* const entry)
{
    Page page;
    bool good = read_page(&page, text->bytes, text->size);
    const SordNode* const subject = good ? subject_of(&page, entry->kind, entry->id) : NULL;
    good = subject && !strcmp((const char*)sord_node_get_string(subject), entry->uri) &&
           turtle_object(page.turtle, subject, turtle_uri(page.turtle, RDFS_NS "label")) &&
           page.complaints.count + page.complaints.unkept <=
               older->complaints.count + older->complaints.unkept &&
           says_all(&page, older, aside);
    free_page(&page);
    return good;
}

static void explain(const Page* const page, char why[PAGE_WHY_ROOM])
{
    snprintf(why, PAGE_WHY_ROOM,
             "mine.ttl was edited so that nothing can be added to it without harm%s%s; mend it, or "
             "move it to another name in its folder, and save again",
             page->complaints.count ? ": " : "",
             page->complaints.count ? page->complaints.texts[0] : "");
}

char* page_put(const char* const text, const size_t size, const char* const written,
               const PageEntry* const entry, size_t* const put_size, char why[PAGE_WHY_ROOM])
{
    Page page;
    char* put = NULL;
    snprintf(why, PAGE_WHY_ROOM, "there is no memory for the file's text");
    if (read_page(&page, text, size)) {
        const SordNode* const subject = turtle_uri(page.turtle, entry->uri);
        for (int in_place = 1; in_place >= 0 && !put; --in_place) {
            Growing growing = compose(&page, subject, written, in_place);
            if (!growing.failed && holds(&growing, &page, subject, entry)) {
                put = growing.bytes;
                *put_size = growing.size;
            } else {
                free(growing.bytes);
                explain(&page, why);
            }
        }
    }
    free_page(&page);
    return put;
}

void page_see_ids(const char* const text, const size_t size, bool seen[PAGE_IDS])
{
    uint32_t number = 0;
    size_t digits = 0;
    for (size_t i = 0; i <= size; ++i) {
        char sign = '\0'; /* at the end too a number ends */
        if (i < size) {
            sign = text[i];
        }
        if (sign >= '0' && sign <= '9') {
            number = number < ID_MOST * 10U ? number * 10U + (uint32_t)(sign - '0') : number;
            ++digits;
            continue;
        }
        if (digits == 4 && number >= ID_FIRST_OWN && number <= ID_MOST) {
            seen[number - ID_FIRST_OWN] = true;
        }
        number = 0;
        digits = 0;
    }
}
