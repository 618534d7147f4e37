// SPDX-License-Identifier: ISC
/* test_kept_harm.c - what is kept by a session, damaged, foreign, from a newer version, or too
   much: what is wrong is told with its slot and name, and the rest is there. */
#include "kept_rig.h"

enum { MUTATIONS = 300 };

#define A_SLOT(number, name, more)                                                                 \
    "my:kept-" #number " a fl:KeptSelection ; fl:slot " #number " ; rdfs:label \"" name "\" ;\n"   \
    "  fl:setting [ fl:symbol \"groove\" ; fl:value 3.0 ] " more " .\n"
#define A_SETTING(symbol, value) "; fl:setting [ fl:symbol \"" symbol "\" ; fl:value " value " ] "

typedef struct {
    const char* what;
    const char* text;
    const char* names; /* of what loads */
    const char* told;  /* among what is told */
} Harm;

static const Harm harms[] = {
    {"seventeen slots", KEPT_TTL A_SLOT(16, "last", "") A_SLOT(17, "beyond", ""),
     ". . . . . . . . . . . . . . . last", "\"17\": expected a whole number from 1 to 16"},
    {"no slot", KEPT_TTL "my:x a fl:KeptSelection .\n" A_SLOT(2, "b", ""), ". b",
     "fl:slot: is missing"},
    {"a slot twice",
     KEPT_TTL A_SLOT(2, "first", "") "my:other a fl:KeptSelection ; fl:slot 2 ; rdfs:label "
                                     "\"second\" .\n",
     ". first", "kept 2 \"second\": another is kept in this slot already; left out"},
    {"a broken sentence",
     KEPT_TTL A_SLOT(1, "a", "") "my:kept-2 a fl:Kept ; ; [ .\n" A_SLOT(3, "c", ""), "a . c",
     "what is kept:"},
    {"a control of a newer version", KEPT_TTL A_SLOT(1, "a", A_SETTING("riff_depth", "7.0")), "a",
     "kept 1 \"a\": \"riff_depth\" is no control of a selection here; left out"},
    {"a control of no selection", KEPT_TTL A_SLOT(1, "a", A_SETTING("level", "7.0")), "a",
     "\"level\" is no control of a selection here"},
    {"a property of a newer version", KEPT_TTL A_SLOT(1, "a", "; fl:riff \"x...x...\""), "a",
     "\"fl:riff\" is nothing that this version knows; left out"},
    {"two values", KEPT_TTL A_SLOT(1, "a", A_SETTING("feet", "12.0") A_SETTING("feet", "50.0")),
     "a", "\"feet\" has two values"},
    {"a value beyond", KEPT_TTL A_SLOT(1, "a", A_SETTING("hands_shift", "-99.0")), "a",
     "\"hands_shift\" is out of its range; brought into it"},
    {"no number", KEPT_TTL A_SLOT(1, "a", A_SETTING("feet", "\"many\"")), "a",
     "\"feet\" has no number"},
    {"figures nobody has",
     KEPT_TTL A_SLOT(
         1, "a",
         A_SETTING("feet",
                   "1500.0") "; fl:entryNames \"\"\"" KEPT_TTL
                             "my:lost a fl:FeetFigure ; fl:id 1500 ; rdfs:label \"Lost\" .\"\"\""),
     "a",
     "kept 1 \"a\": feet figure 1500 \"Lost\" is not in the bank; the groove's own feet play "
     "instead"},
    {"a broken draft", KEPT_TTL A_SLOT(1, "a", "; fl:feetDraft \"nonsense\"") A_SLOT(2, "b", ""),
     "a b", "kept 1 \"a\": "},
    {"a draft of another kind",
     KEPT_TTL A_SLOT(1, "a",
                     "; fl:handsDraft \"\"\"" KEPT_TTL
                     "my:f a fl:FeetFigure ; fl:id 12 ; fl:line [ fl:limb fl:rightFoot ; fl:voice "
                     "fl:kick ; fl:grid 4 ; fl:steps \"o...\" ] .\"\"\""),
     "a", "the draft is a feet figure; expected a hands figure"},
    {"broken entries", KEPT_TTL A_SLOT(1, "a", "; fl:ownEntries \"my:x a [\"") A_SLOT(2, "b", ""),
     "a b", "kept 1 \"a\": "},
    {"no text at all", "# no text, or too long a one\n", "", "holds no selection"},
    {"another's data", "<?xml version=\"1.0\"?><state/>\n", "", "what is kept:"},
    {"a subject that is another kind", KEPT_TTL "my:kept-1 a fl:Song ; fl:slot 1 .\n", "",
     "holds no selection"},
};

/* The name " " of a slot without one, and names with spaces, read as they are. */
static void what_is_wrong_is_told_and_the_rest_is_there(void)
{
    for (size_t i = 0; i < sizeof harms / sizeof *harms; ++i) {
        const Harm* const harm = &harms[i];
        Session session = kept_restored(harm->text);
        Snapshot* const snapshot = session_snapshot(&session);
        check_case("%s", harm->what);
        CHECK_TEXT(kept_names(&session), harm->names);
        if (!CHECK(strstr(snapshot_messages(snapshot), harm->told))) {
            printf("# told: %s", snapshot_messages(snapshot));
        }
        CHECK(is_utf8(snapshot_messages(snapshot)));
        snapshot_free(snapshot);
        session_clear(&session);
    }
}

static void what_is_right_is_told_nothing_of(void)
{
    Session session = kept_restored(KEPT_TTL A_SLOT(1, "a", A_SETTING("feet", "12.0")));
    Snapshot* const snapshot = session_snapshot(&session);
    CHECK_TEXT(snapshot_messages(snapshot), "");
    CHECK_INT(kept_list_at(session.kept, 1)->values[CONTROL_FEET], 12);
    CHECK_INT(kept_list_at(session.kept, 1)->values[CONTROL_GROOVE], 3);
    CHECK_INT(kept_list_at(session.kept, 1)->values[CONTROL_REALIGN],
              control_rows[CONTROL_REALIGN].normal); /* not said */
    snapshot_free(snapshot);
    session_clear(&session);
}

/* A newer version finds in it what this one didn't understand. */
static void what_could_not_be_read_stays_for_the_next_save(void)
{
    const char* const text = KEPT_TTL A_SLOT(1, "a", A_SETTING("riff_depth", "7.0"));
    Session session = kept_restored(text);
    Session again = kept_again(&session, NULL);
    CHECK_TEXT(again.texts.of[TEXT_KEPT_UNREAD], text);
    Snapshot* const snapshot = session_snapshot(&again);
    CHECK_TEXT(snapshot_messages(snapshot), ""); /* told once */
    snapshot_free(snapshot);
    CHECK(session_drop_kept(&again, 1, kept_why));
    Session last = kept_again(&again, NULL);
    CHECK_TEXT(kept_names(&last), ""); /* and what was dropped isn't back with it */
    CHECK_TEXT(last.texts.of[TEXT_KEPT_UNREAD], text);
    session_clear(&last);
    session_clear(&again);
    session_clear(&session);
}

static char* long_text(const size_t bytes)
{
    static const char head[] = KEPT_TTL "my:kept-1 a fl:KeptSelection ; fl:slot 1 ; "
                                        "rdfs:label \"long\" ; fl:ownEntries \"\"\"# ";
    static const char tail[] = "\"\"\" .\n" A_SLOT(2, "b", "");
    char* const text = malloc(sizeof head + bytes + sizeof tail);
    memcpy(text, head, sizeof head - 1);
    memset(text + sizeof head - 1, 'x', bytes);
    memcpy(text + sizeof head - 1 + bytes, tail, sizeof tail);
    return text;
}

static void entries_of_more_bytes_than_any_need_are_left_out(void)
{
    char* const text = long_text(KEPT_BYTES_MOST);
    Session session = kept_restored(text);
    Snapshot* const snapshot = session_snapshot(&session);
    CHECK_TEXT(kept_names(&session), "long b");
    CHECK(strstr(snapshot_messages(snapshot),
                 "kept 1 \"long\": what it says of its entries is over 131072 bytes; left out"));
    snapshot_free(snapshot);
    session_clear(&session);
    free(text);
}

static void a_text_of_more_megabytes_than_a_session_has_is_left_out(void)
{
    char* const text = long_text(4 * 1024 * 1024);
    Session session = kept_restored(text);
    Snapshot* const snapshot = session_snapshot(&session);
    CHECK_TEXT(kept_names(&session), "");
    if (!CHECK(strstr(snapshot_messages(snapshot), "a file has 4 MB at most"))) {
        printf("# told: %.300s\n", snapshot_messages(snapshot));
    }
    snapshot_free(snapshot);
    session_clear(&session);
    free(text);
}

/* Bytes turned into others by chance (xorshift, Marsaglia 2003): it loads, tells in UTF-8,
   and what it saves then is read without a word. */
static void a_text_that_is_damaged_by_chance_does_no_harm(void)
{
    uint32_t state = 26;
    Session whole = kept_restored(KEPT_TTL A_SLOT(1, "a", A_SETTING("feet", "12.0"))
                                      A_SLOT(5, "e", A_SETTING("feet", "50.0")));
    size_t length = 0;
    const char* const text = kept_list_text(whole.kept, &length);
    for (int i = 0; i < MUTATIONS; ++i) {
        char* const damaged = strdup(text);
        for (int hits = 0; hits < 1 + i % 6; ++hits) {
            state ^= state << 13;
            state ^= state >> 17;
            state ^= state << 5;
            const char byte = (char)(state >> 8);
            damaged[state % length] = byte ? byte : ' ';
        }
        Session session = kept_restored(damaged);
        Session again = kept_again(&session, NULL);
        Snapshot *const first = session_snapshot(&session), *const second =
                                                                session_snapshot(&again);
        check_case("damage %d", i);
        CHECK(is_utf8(snapshot_messages(first)));
        CHECK_TEXT(snapshot_messages(second), "");
        char* const names = strdup(kept_names(&session));
        CHECK_TEXT(kept_names(&again), names);
        free(names);
        snapshot_free(first);
        snapshot_free(second);
        session_clear(&again);
        session_clear(&session);
        free(damaged);
    }
    session_clear(&whole);
}

int main(void)
{
    RUN(what_is_wrong_is_told_and_the_rest_is_there);
    RUN(what_is_right_is_told_nothing_of);
    RUN(what_could_not_be_read_stays_for_the_next_save);
    RUN(entries_of_more_bytes_than_any_need_are_left_out);
    RUN(a_text_of_more_megabytes_than_a_session_has_is_left_out);
    RUN(a_text_that_is_damaged_by_chance_does_no_harm);
    return tests_end();
}
